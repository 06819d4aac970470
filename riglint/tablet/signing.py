"""The checks to tick, which are the sheet's, and whether this plan may be signed as clear."""

from __future__ import annotations

from typing import Any

from riglint.outcome import Finding, Result, Verdict
from riglint.report.material import Inspected
from riglint.sheet.checklist import checklist


def checks(inspected: Inspected) -> dict[str, Any]:
    """Sections with their items and stage; `may_be_clear` false with the reasons where the verdict halts."""
    clear = inspected.inspection.verdict is Verdict.CLEAR
    return {
        "sections": [
            {"title": s.title, "stage": s.stage, "items": [item._asdict() for item in s.items]}
            for s in checklist(inspected.solution, inspected.inspection)
        ],
        "may_be_clear": clear,
        "why_not": [] if clear else _why_not(inspected),
    }


def _why_not(inspected: Inspected) -> list[str]:
    inspection = inspected.inspection
    grave = [f for f in inspection.findings if f.grade.at_least(inspection.halting) and not f.waived]
    reasons = [_reason(finding) for finding in grave]
    reasons += [f"rule {outcome.rule} broke and was not applied" for outcome in inspection.untested]
    reasons += [f"stage {s.stage.name} can't stand as planned" for s in inspected.solution.stages if s.refused]
    return list(dict.fromkeys(reasons)) or ["no rule checked anything"]


def _reason(finding: Finding) -> str:
    unknown = " (can't tell)" if finding.result is Result.CANT_TELL else ""
    return f"{finding.grade.value}: {finding.title}{unknown}"
