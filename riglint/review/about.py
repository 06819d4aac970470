"""What a review's report says of the run as a whole: program, halting grade, rulebooks, all rules, their sources.

Where several house files bring rulebooks along, it is all of them together, the same whatever the order.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Final

from riglint.house.context import Contexts
from riglint.house.waivers import RULE
from riglint.outcome import Grade
from riglint.reading.problems import ReadingFailed
from riglint.report.rule_pages import entry
from riglint.review.record import Record
from riglint.rulebook.book import Origin, Rulebook
from riglint.rulebook.sources import Sources
from riglint.version import VERSION

_BASIS: Final = {
    "kind": "common practice", "source": None, "locator": "", "scope": "general", "trust": "",
    "claim": "a waiver names a rule, a component and a last day, is kept up, and never covers a DANGER",
}  # fmt: skip
_WAIVERS: Final = {
    "rule": RULE,
    "title": "House files and their waivers",
    "grade": Grade.WARNING.value,
    "guards": "paper",
    "limits": [],
    "basis": [_BASIS | {"citation": f"{_BASIS['claim']} (common practice, no published source)"}],
    "page": "What is wrong with a waiver itself: it has run out, lets nothing pass, names what isn't there, or tries"
    " to let a DANGER pass. And which house files lie above the one that counts, and so don't.",
}


def about(contexts: Contexts, plans: Iterable[Path], halting: Grade, day: date | None) -> Record:
    """Of a run over plans, one for each folder, for pulls on a day.

    Raises RulebookError for a rulebook that the user named.
    """
    books = {id(book): book for book in _books(contexts, plans)}.values()
    sources = Sources(dict.fromkeys(origin.folder for book in books for origin in book.origins))
    rules = [_WAIVERS, *(one for book in books for one in _rules(book, sources))]
    named = {basis["source"] for rule in rules for basis in _bases(rule)}
    known = {key: source._asdict() for key in named if key and (source := sources.get(key))}
    return {
        "program": {"name": "riglint", "version": VERSION},
        "halting_grade": halting.value,
        "day": day.isoformat() if day else None,
        "rulebooks": _united([_book(origin) for book in books for origin in book.origins]),
        "rules": by_name(rules),
        "sources": dict(sorted(known.items())),
    }


def united(abouts: list[Record]) -> Record:
    """Those of the parts of one review as one; the parts' programs, halting grades and days are known to agree."""
    first = abouts[0]
    return {
        "program": first["program"],
        "halting_grade": first["halting_grade"],
        "day": first.get("day"),
        "rulebooks": _united([book for one in abouts for book in one["rulebooks"]]),
        "rules": by_name([rule for one in abouts for rule in one["rules"]]),
        "sources": dict(sorted((key, source) for one in abouts for key, source in one["sources"].items())),
    }


def by_name(rules: Iterable[Record]) -> list[Record]:
    """One of each name, by name; of several that differ always the same, in whatever order they came."""
    chosen: dict[str, Record] = {}
    for rule in sorted(rules, key=lambda rule: json.dumps(rule, sort_keys=True)):
        chosen.setdefault(rule["rule"], rule)
    return [chosen[name] for name in sorted(chosen)]


def _books(contexts: Contexts, plans: Iterable[Path]) -> Iterable[Rulebook]:
    yield contexts.of(None).rulebook
    for plan in plans:
        try:
            yield contexts.of(plan).rulebook
        except ReadingFailed:  # told with each plan that this house file is for
            continue


def _rules(book: Rulebook, sources: Sources) -> Iterable[Record]:
    own = Rulebook(book.origins, book.rules)  # with the rules' own limits: houses differ, and plans tell what is set
    yield from (entry(rule, own, sources) for rule in own.rules)
    for broken in book.broken:
        yield {
            "rule": broken.slug, "title": broken.slug, "grade": Grade.DANGER.value, "guards": "paper", "basis": [],
            "limits": [], "page": f"This rule can't be used: {broken.reason}",
        }  # fmt: skip


def _united(books: list[Record]) -> list[Record]:
    by_text = {json.dumps(book, sort_keys=True): book for book in books}
    return [by_text[text] for text in sorted(by_text)]


def _book(origin: Origin) -> Record:
    return {"name": origin.name, "title": origin.title, "version": origin.version}


def _bases(rule: Record) -> list[Record]:
    return [*rule["basis"], *(limit["basis"] for limit in rule["limits"])]
