"""What the page shows of a plan, beside the report's own entry: sentences ready to be read, in the plan's units."""

from __future__ import annotations

from typing import Any, Final

from riglint.outcome import six_digits
from riglint.report.foreman import foreman
from riglint.report.material import Inspected, verdict_words
from riglint.report.run import run
from riglint.report.summary import summaries
from riglint.report.words import working

Answer = dict[str, Any]

_KEPT: Final = ("title", "reports_in", "verdict", "halting_grade", "rulebooks", "changed_limits", "to_find_out")
_LABEL: Final = 23


def view(entry: Answer, inspected: Inspected) -> Answer:
    """The answer's part on what was found; `entry` as `json_report.found` gives it."""
    told = summaries(inspected.solution.stages, inspected.inspection)
    several = len(told) > 1
    stages = [
        {
            "name": summary.name,
            "refused": summary.refused,
            "figures": _rows(foreman(summary, inspected, of_several=False), _LABEL),
            "run": _rows(run(solved, inspected, of_several=several)[1:], 12),
            "stations": [{"travel_m": six_digits(s.travel_m), "title": s.title} for s in solved.stations],
        }
        for summary, solved in zip(told, inspected.solution.stages, strict=True)
    ]
    return {key: entry[key] for key in _KEPT} | {
        "verdict_words": verdict_words(inspected.inspection),
        "findings": _findings(entry, inspected),
        "untested": [{"rule": o.rule, "reason": o.reason} for o in inspected.inspection.untested],
        "checked": _checked(inspected),
        "stages": stages,
    }


def _checked(inspected: Inspected) -> dict[str, int]:
    """How many rules came out how."""
    results = [outcome.result.value for outcome in inspected.inspection.outcomes]
    return {result: results.count(result) for result in sorted(set(results))}


def _findings(entry: Answer, inspected: Inspected) -> list[Answer]:
    found = []
    for reported, finding in zip(entry["findings"], inspected.inspection.findings, strict=True):
        steps = [working(step, inspected.system) for step in finding.check.working]
        check = {k: v for k, v in reported["check"].items() if k != "working"}
        found.append(reported | {"check": check | {"component": finding.check.where.component}, "working": steps})
    return found


def _rows(lines: list[str], label: int) -> list[list[str]]:
    """Label and text of rows whose further lines hang below the text."""
    rows: list[list[str]] = []
    for line in lines:
        head, text = line[:label].strip(), line[label:].strip()
        if head or not rows:
            rows.append([head, text])
        else:
            rows[-1][1] += f" {text}"
    return rows
