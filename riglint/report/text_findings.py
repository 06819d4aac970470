"""Findings as text: by grade, most serious first; what one rule found at one grade stands together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.outcome import Finding, Grade, Result, Waiver
from riglint.report.ink import Ink
from riglint.report.material import Inspected
from riglint.report.numbers import of_the_limit
from riglint.report.words import fill, message, plain, sentence, wrapped
from riglint.rulebook.sources import citation

_CASES = {"expected": "expected pull", "stall": "winch stalled", "holding": "holding"}


def findings(inspected: Inspected, ink: Ink) -> list[str]:
    """Everything that failed, and behind it whatever is waived."""
    found = inspected.inspection.findings
    standing = [f for f in found if f.result is Result.FAILED and not f.waived]
    lines: list[str] = []
    for group in _groups([*standing, *(f for f in found if f.waived)]):
        lines += [""] if lines else []
        lines += _group(group, inspected, ink)
    return lines


def _groups(found: Iterable[Finding]) -> list[list[Finding]]:
    groups: dict[tuple[Grade, str, Waiver | None], list[Finding]] = {}
    for finding in found:
        groups.setdefault((finding.grade, finding.rule, finding.waived), []).append(finding)
    return list(groups.values())


def _group(group: list[Finding], inspected: Inspected, ink: Ink) -> list[str]:
    first = group[0]
    waived = " (waived)" if first.waived else ""
    lines = [f"{ink.mark(first.grade, first.grade.value)}{waived}: {first.title}  ({first.rule})"]
    for finding in group:
        lines += _one(finding, inspected)
    if first.waived:
        return [*lines, *wrapped(sentence(plain(first.waived.words)), "  ", "    ")]
    for remedy in _once(fill(f.check.remedy, f.check, inspected.system) for f in group):
        lines += wrapped(f"Put right: {sentence(plain(remedy))}", "  ", "    ")
    return [*lines, *wrapped(f"Basis: {_basis(group, inspected)}", "  ", "    ")]


def _basis(group: list[Finding], inspected: Inspected) -> str:
    """The first basis in full; the rule's page has the others."""
    first, *others = dict.fromkeys(basis for finding in group for basis in finding.basis)
    text = sentence(citation(first, inspected.sources))
    return f"{text} {len(others)} more: riglint rulebook {group[0].rule}." if others else text


def _one(finding: Finding, inspected: Inspected) -> Iterator[str]:
    check = finding.check
    notes = [_CASES.get(check.where.case, check.where.case)] if check.where.case else []
    if check.use is not None:
        notes.append(of_the_limit(check.use))
    notes.append(inspected.place(check.where.pointer))
    text = sentence(message(check, inspected.system))
    yield from wrapped(f"{text} [{'; '.join(notes)}]", "  - ", "    ")
    notes_at: dict[str, list[str]] = {}
    for pointer, note in check.where.related:
        notes_at.setdefault(plain(note), []).append(inspected.place(pointer))
    for note, places in notes_at.items():
        yield from wrapped(f"{note}: {', '.join(places)}", "    ", "      ")


def _once(texts: Iterable[str]) -> list[str]:
    return [text for text in dict.fromkeys(texts) if text]
