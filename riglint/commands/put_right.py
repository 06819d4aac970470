"""Remedies and headroom, worked out for one plan because they were asked for; and a remedy written into its file."""

from __future__ import annotations

from pathlib import Path
from typing import Any, NamedTuple

from riglint.house.context import Context
from riglint.outcome import Result
from riglint.remedy.headroom import headroom
from riglint.remedy.model import Remedy
from riglint.remedy.remedies import remedies
from riglint.remedy.room.model import Headroom
from riglint.remedy.workshop import Engine
from riglint.remedy.write import write
from riglint.remedy.yaml_edit import CannotEdit
from riglint.report.json_remedies import headroom as headroom_entries
from riglint.report.json_remedies import remedies as remedy_entries
from riglint.report.material import Inspected
from riglint.report.text_remedies import headroom as headroom_lines
from riglint.report.text_remedies import remedies as remedy_lines
from riglint.report.text_remedies import says

__all__ = ["CannotEdit", "Extra", "engine_of", "extra_of", "put_right"]


class Extra(NamedTuple):
    """What was worked out; None: not asked for."""

    remedies: tuple[Remedy, ...] | None = None
    headroom: tuple[Headroom, ...] | None = None

    def lines(self, inspected: Inspected) -> list[list[str]]:
        """Sections of the text report."""
        sections = [] if self.remedies is None else [remedy_lines(inspected, self.remedies)]
        return sections if self.headroom is None else [*sections, headroom_lines(inspected, self.headroom)]

    def entries(self, inspected: Inspected) -> dict[str, Any]:
        """Keys of the JSON report."""
        entries: dict[str, Any] = {}
        if self.remedies is not None:
            entries["remedies"] = remedy_entries(inspected, self.remedies)
        if self.headroom is not None:
            entries["headroom"] = headroom_entries(self.headroom)
        return entries


def engine_of(context: Context) -> Engine:
    """What the changes of a plan are tried with: all that the plan itself was worked out with."""
    return Engine(context.rulebook, context.load, context.inspect, context.kit_for)


def extra_of(inspected: Inspected, context: Context, *, with_remedies: bool, with_headroom: bool) -> Extra:
    """What was asked for, worked out."""
    plan = (inspected.document, inspected.solution, inspected.inspection, engine_of(context))
    return Extra(remedies(*plan) if with_remedies else None, headroom(*plan) if with_headroom else None)


def put_right(file: Path, inspected: Inspected, context: Context, number: int) -> str:
    """Write a remedy, by its number in the report, into the plan's file; gives what was done.

    Raises CannotEdit where there is no such remedy, or it can't be written for certain, and OSError.
    """
    found = extra_of(inspected, context, with_remedies=True, with_headroom=False).remedies or ()
    if not 1 <= number <= len(found):
        failed = any(f.result is Result.FAILED for f in inspected.inspection.findings)
        few = "number 1 is the only one" if len(found) == 1 else f"they go from 1 to {len(found)}"
        raise CannotEdit(
            f"there is no remedy {number}: {few if found else 'there is none' if failed else 'nothing needs one'}"
        )
    remedy = found[number - 1]
    write(file, inspected.document, remedy.patch)
    return says(remedy, inspected.system)
