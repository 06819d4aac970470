"""Remedies and headroom in the report for machines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from riglint.outcome import Finding
from riglint.remedy.model import Remedy
from riglint.remedy.room.model import Headroom
from riglint.report.figures import figure
from riglint.report.material import Inspected
from riglint.report.text_remedies import says

Entry = dict[str, Any]


def remedies(inspected: Inspected, found: Sequence[Remedy]) -> list[Entry]:
    """One entry a remedy; `number` is what `--write` takes, `finding` an index into the findings."""
    return [_remedy(number, remedy, inspected) for number, remedy in enumerate(found, start=1)]


def _remedy(number: int, remedy: Remedy, inspected: Inspected) -> Entry:
    return {
        "number": number,
        "finding": remedy.finding,
        "way": remedy.way,
        "says": says(remedy, inspected.system),
        "patch": list(remedy.patch),
        "figures": [
            {"what": f.what, "unit": f.unit, "before": figure(f.before), "after": figure(f.after)}
            for f in remedy.figures
        ],
        "verdict": remedy.verdict.value,
        "clears": list(remedy.clears),
        "brings": [_brought(new) for new in remedy.brings],
    }


def _brought(new: Finding) -> Entry:
    return {"rule": new.rule, "grade": new.grade.value, "result": new.result.value, "name": new.check.where.name}


def headroom(found: Sequence[Headroom]) -> list[Entry]:
    """One entry a thing that can change."""
    return [
        {
            "of": one.of,
            "name": one.name,
            "unit": one.unit,
            "now": figure(one.now),
            "changes_at": figure(one.at),
            "change": figure(one.change),
            "then": one.then.value if one.then else None,
            "rules": list(one.rules),
            "looked_to": figure(one.looked_to),
            "growing": one.growing,
            "steady": one.steady,
            "why_not": one.why_not,
            "step": figure(one.step),
            "side": one.side,
            "anchor": one.anchor and {"point": one.anchor.point, "outward_m": figure(one.anchor.by_m)},
        }
        for one in found
    ]
