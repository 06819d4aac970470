"""Words and marks that several parts of the sheet share."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from riglint.outcome import Finding, Grade, Result, Verdict
from riglint.report.material import Inspected, Todo, todos
from riglint.report.words import message, plain, sentence
from riglint.sheet.markup import Html, el, inner, trusted

CASES: Final = {"expected": "as expected", "stall": "if the winch stalls", "holding": "holding"}
# An alert triangle goes with harm to people, none with NOTICE (ANSI Z535).
_TRIANGLE: Final = trusted(
    '<svg class="sign" viewBox="0 0 24 22" aria-hidden="true" focusable="false"><path d="M12 1 23 21H1Z"'
    ' fill="currentColor"/><path class="hole" d="M10.7 7.5h2.6l-.5 7h-1.6ZM10.8 16h2.4v2.4h-2.4Z"/></svg>'
)


def signal(grade: Grade) -> Html:
    """A signal word on its colour, with the alert triangle where people may come to harm."""
    sign = None if grade is Grade.NOTICE else _TRIANGLE
    return el("b", sign, grade.value, class_=f"signal {grade.value.lower()}")


def part(title: str) -> Html:
    """The heading of a part of the sheet, with a way back to the top."""
    return inner(el("h2", title), el("a", "Top", href="#top", class_="up"))


def anchor(finding: Finding) -> str:
    """The id of the place on the sheet where a finding stands."""
    return f"finding-{finding.grade.value.lower()}-{finding.rule}"


def pairs(lines: Iterable[str], label: int) -> list[tuple[str, str]]:
    """Label and text of a report's rows, whose further lines hang below the text."""
    rows: list[tuple[str, str]] = []
    for line in lines:
        head, text = line[:label].strip(), line[label:].strip()
        if head or not rows:
            rows.append((head, text))
        else:
            rows[-1] = (rows[-1][0], f"{rows[-1][1]} {text}")
    return rows


def to_find_out(inspected: Inspected) -> tuple[Todo, ...]:
    """Every fact without which something can't be told."""
    texts = {
        index: sentence(message(finding.check, inspected.system)).rstrip(".")
        for index, finding in enumerate(inspected.inspection.findings)
        if finding.result is Result.CANT_TELL and not finding.check.missing
    }
    return todos(inspected, texts)


def against(inspected: Inspected) -> list[Finding]:
    """Findings that halt, the first of each rule and grade; none where the verdict is clear."""
    inspection = inspected.inspection
    if inspection.verdict is Verdict.CLEAR:
        return []
    halts = [f for f in inspection.findings if f.grade.at_least(inspection.halting) and not f.waived]
    return list({(f.grade, f.rule, f.result): f for f in reversed(halts)}.values())[::-1]


def why_not(inspected: Inspected) -> list[str]:
    """Why the plan can't be signed off as clear, in plain words; empty where it can."""
    inspection = inspected.inspection
    if inspection.verdict is Verdict.CLEAR:
        return []
    told = {Result.CANT_TELL: " (can't tell)"}
    reasons = [f"{f.grade.value}: {f.title}{told.get(f.result, '')}" for f in against(inspected)]
    reasons += [f"rule {o.rule} broke and was not applied: {plain(o.reason)}" for o in inspection.untested]
    reasons += [
        f"stage {s.stage.name} can't stand as planned: {s.refused}" for s in inspected.solution.stages if s.refused
    ]
    return reasons or ["no rule checked anything"]
