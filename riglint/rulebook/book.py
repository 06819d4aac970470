"""A rulebook: rules with the limits in force."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import NamedTuple

from riglint.outcome import Changed
from riglint.rulebook.limits import LimitError, Limits
from riglint.rulebook.rule import Rule


class RulebookError(Exception):
    """A rulebook that can't be used; the message says which file and what would serve."""


class Broken(NamedTuple):
    """A rule that could not be loaded, and why."""

    slug: str
    reason: str


class Origin(NamedTuple):
    """A folder that rules came from. `name` is for reports, which never show a machine's paths."""

    name: str
    title: str
    version: str
    folder: Path


@dataclass(frozen=True, slots=True)
class Rulebook:
    """Rules by slug, the limits in force for each, and the folders that they came from."""

    origins: tuple[Origin, ...]
    rules: tuple[Rule, ...]
    broken: tuple[Broken, ...] = ()
    limits: Mapping[str, Limits] = field(default_factory=dict)
    changed: tuple[Changed, ...] = field(init=False)  # limits that a file set to another value, by rule and name

    def __post_init__(self) -> None:
        limits = {rule.slug: self.limits.get(rule.slug) or Limits(rule.limits) for rule in self.rules}
        object.__setattr__(self, "limits", limits)
        changed = (c for slug, own in sorted(limits.items()) for c in own.changed(slug))
        object.__setattr__(self, "changed", tuple(changed))

    def rule(self, slug: str) -> Rule | None:
        """The rule of that name."""
        return next((rule for rule in self.rules if rule.slug == slug), None)

    def setting(self, values: Mapping[str, Mapping[str, str | float]], set_by: str) -> "Rulebook":
        """The same rulebook with limits set by a file: rule, limit, value. Raises RulebookError."""
        limits = dict(self.limits)
        broken = {one.slug for one in self.broken}  # untested as they are: what limits they have can't be told
        for slug, named in values.items():
            if slug in broken:
                continue
            if slug not in limits:
                raise RulebookError(f"{set_by} sets limits of `{slug}`, which is no rule here")
            for name, text in named.items():
                try:
                    limits[slug] = limits[slug].set(name, text, set_by)
                except LimitError as error:
                    raise RulebookError(f"{set_by}: limit `{name}` of `{slug}`: {error}") from None
        return replace(self, limits=limits)


def bound(books: Iterable[Rulebook]) -> Rulebook:
    """Several rulebooks as one. Raises RulebookError where two have a rule of one name."""
    books = tuple(books)
    owner: dict[str, str] = {}
    for book in books:
        for slug in [rule.slug for rule in book.rules] + [broken.slug for broken in book.broken]:
            name = book.origins[0].name if book.origins else "?"
            if slug in owner:
                both = f"`{owner[slug]}` and `{name}`"
                raise RulebookError(f"rule `{slug}` stands in two rulebooks, {both}; rename one")
            owner[slug] = name
    return Rulebook(
        tuple(origin for book in books for origin in book.origins),
        tuple(sorted((rule for book in books for rule in book.rules), key=lambda rule: rule.slug)),
        tuple(sorted(broken for book in books for broken in book.broken)),
        {slug: limits for book in books for slug, limits in book.limits.items()},
    )
