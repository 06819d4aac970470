"""A rulebook with a house's limits in force, or every place of the house file that doesn't fit it."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.house.read import House
from riglint.outcome import Waiver
from riglint.reading.build import pointer_of
from riglint.reading.nearest import nearest, one_of
from riglint.reading.problems import Problem, quoted
from riglint.rulebook.book import Rulebook
from riglint.rulebook.limits import LimitError


def unsettled(book: Rulebook, house: House, *, all_books: bool = True) -> Iterator[Problem]:
    """Every rule, limit and value that isn't one; where a rulebook couldn't be read, no rule is said to be none."""
    if all_books:
        yield from _unknown_rules(book, house)
    yield from _bad_limits(book, house)


def settled(book: Rulebook, house: House) -> Rulebook:
    """The rulebook with the limits of a house of which nothing is unsettled."""
    return book.setting(house.file.limits, house.path.name)


def set_aside(house: House) -> tuple[Waiver, ...]:
    """The rules that the house sets aside, each with its reason."""
    rules = sorted(house.file.set_aside.items())
    return tuple(Waiver(rule, "", reason, house.path.name, "") for rule, reason in rules)


def _unknown_rules(book: Rulebook, house: House) -> Iterator[Problem]:
    known = _known(book)
    for key in ("limits", "set_aside"):
        for rule in getattr(house.file, key):
            if rule not in known:
                near = nearest(rule, known)
                serves = f"did you mean `{near}`?" if near else "`riglint rulebook` lists the rules"
                what = f"{quoted(rule)} is no rule of the rulebooks"
                yield house.document.problem(pointer_of([key, rule]), what, serves, key=True)


def _known(book: Rulebook) -> set[str]:
    return {rule.slug for rule in book.rules} | {broken.slug for broken in book.broken}


def _bad_limits(book: Rulebook, house: House) -> Iterator[Problem]:
    for rule, named in house.file.limits.items():
        own = book.rule(rule)
        if own is None:
            continue
        names = [limit.name for limit in own.limits]
        for name, value in named.items():
            place = pointer_of(["limits", rule, name])
            if name not in names:
                near = nearest(name, names)
                serves = f"did you mean `{near}`?" if near else f"use {one_of(names)}" if names else "leave it out"
                what = f"{quoted(name)} is no limit of {rule}"
                yield house.document.problem(place, what, serves, key=True)
                continue
            try:
                book.limits[rule].set(name, value, "")
            except LimitError as error:
                found, _, serves = str(error).partition("; ")
                yield house.document.problem(place, found, serves or "write one value with its unit")
