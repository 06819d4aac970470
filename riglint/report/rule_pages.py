"""Rules as text and as plain data: the list, and each rule's page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.report.numbers import show
from riglint.report.words import wrapped
from riglint.rulebook.book import Rulebook
from riglint.rulebook.limits import Limit, Limits
from riglint.rulebook.rule import Rule
from riglint.rulebook.sources import Sources, citation


def listing(book: Rulebook, sources: Sources) -> str:
    """Every rule in a few lines, by what they guard."""
    lines = [f"{origin.title}, version {origin.version} ({origin.name})" for origin in book.origins]
    for guards in dict.fromkeys(sorted(rule.guards for rule in book.rules)):
        lines += ["", guards.upper()]
        for rule in book.rules:
            if rule.guards == guards:
                lines += ["", *_short(rule, book, sources)]
    for broken in book.broken:
        lines += ["", *wrapped(f"{broken.slug}: BROKEN: {broken.reason}", "", "  ")]
    return "\n".join(lines) + "\n"


def page(rule: Rule, book: Rulebook, sources: Sources) -> str:
    """One rule: what it is about, how it judges, its limits and what it rests on."""
    return "\n".join([*_short(rule, book, sources), "", rule.page, ""])


def entry(rule: Rule, book: Rulebook, sources: Sources) -> dict[str, Any]:
    """One rule as plain data."""
    limits = book.limits[rule.slug]
    return {
        "rule": rule.slug,
        "title": rule.title,
        "grade": rule.grade.value,
        "guards": rule.guards,
        "basis": [_basis(basis, sources) for basis in rule.basis],
        "limits": [_limit(limit, limits, sources) for limit in rule.limits],
        "page": rule.page,
    }


def _short(rule: Rule, book: Rulebook, sources: Sources) -> Iterator[str]:
    yield f"{rule.slug}  {rule.grade.value}"
    yield from wrapped(rule.title, "  ")
    limits = book.limits[rule.slug]
    for limit in rule.limits:
        yield from wrapped(f"Limit {limit.name}: {_in_force(limit, limits)}; {limit.says}", "  ", "    ")
    for basis in dict.fromkeys((*rule.basis, *(limit.basis for limit in rule.limits))):
        yield from wrapped(f"Basis: {citation(basis, sources)}", "  ", "    ")


def _in_force(limit: Limit, limits: Limits) -> str:
    setting = limits.source(limit.name)
    text = show(setting.value, limit.unit)
    if not setting.set_by:
        return text
    how = "milder" if setting.milder else "stricter"
    return f"{text}, set by {setting.set_by} ({how} than the rule's own {show(limit.value, limit.unit)})"


def _basis(basis: Any, sources: Sources) -> dict[str, Any]:
    return {
        "kind": basis.kind, "claim": basis.claim, "source": basis.source, "locator": basis.locator,
        "scope": basis.scope, "trust": basis.trust, "citation": citation(basis, sources),
    }  # fmt: skip


def _limit(limit: Limit, limits: Limits, sources: Sources) -> dict[str, Any]:
    setting = limits.source(limit.name)
    return {
        "name": limit.name, "says": limit.says, "unit": limit.unit, "own": limit.value,
        "value": setting.value, "set_by": setting.set_by, "milder": setting.milder,
        "milder_way": limit.milder, "basis": _basis(limit.basis, sources),
    }  # fmt: skip
