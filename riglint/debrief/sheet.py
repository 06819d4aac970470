"""A class as CSV (RFC 4180), for a spreadsheet: one row a plan, reasons in one cell."""

from __future__ import annotations

import csv
import io
from typing import Final

from riglint.debrief.classroom import Classroom
from riglint.debrief.debrief import Debrief, gravest, reason
from riglint.outcome import Result
from riglint.report.numbers import fixed

_HEAD: Final = (
    "plan", "title", "verdict", "gravest finding", "marks", "of", "passed", "goals missed", "reasons", "same plan as",
)  # fmt: skip
_OBEYED: Final = ("=", "+", "-", "@", "\t", "\r")
"""A cell that begins so is a formula to a spreadsheet; a student's text must not be one."""


def as_csv(room: Classroom) -> str:
    """The table, then the most common mistakes below a line without a plan."""
    stream = io.StringIO()
    rows = csv.writer(stream, lineterminator="\r\n")
    rows.writerow(_HEAD)
    rows.writerows([_cell(text) for text in _row(one)] for one in room.debriefs)
    rows.writerow([])
    rows.writerow(["mistake", "rule", "gravest grade", "plans that failed", "plans where it can't be told"])
    for mistake in room.mistakes:
        found = (mistake.title, mistake.rule, mistake.grade.value, str(mistake.failed), str(mistake.untold))
        rows.writerow([_cell(text) for text in found])
    return stream.getvalue()


def _row(one: Debrief) -> tuple[str, ...]:
    inspected, found = one.handed.inspected, one.marked
    worst = gravest(inspected) if inspected else None
    missed = [goal.what for goal in one.goals if goal.result is Result.FAILED]
    return (
        one.handed.file,
        inspected.solution.rig.title if inspected else "",
        inspected.inspection.verdict.value if inspected else "can't be read",
        worst.value if worst else "",
        fixed(found.earned, 1).replace(",", "") if found else "",
        fixed(found.full, 1).replace(",", "") if found else "",
        "" if found is None or found.passed is None else "yes" if found.passed else "no",
        "; ".join(missed),
        "; ".join(reason(lost) for lost in found.lost) if found else "",
        "; ".join(one.same_as),
    )


def _cell(text: str) -> str:
    return f"'{text}" if text.startswith(_OBEYED) else text
