"""Remedies of a plan's findings as plain data, with the change of the plan's text where it is certain."""

from __future__ import annotations

from typing import Any

from riglint.house.context import Context
from riglint.outcome import Inspection
from riglint.plan.load import LoadedPlan
from riglint.reading.document import Document
from riglint.remedy.model import Remedy
from riglint.remedy.remedies import remedies
from riglint.remedy.text import text_edits
from riglint.remedy.workshop import Engine
from riglint.remedy.yaml_edit import CannotEdit
from riglint.report.text_remedies import says
from riglint.report.words import sentence
from riglint.solve.solution import Solution

Entry = dict[str, Any]


def mended(loaded: LoadedPlan, solution: Solution, inspection: Inspection, context: Context) -> dict[int, list[Entry]]:
    """What would put each finding right, by the finding's index; each was tried on a copy of the plan."""
    engine = Engine(context.rulebook, context.load, context.inspect, context.kit_for)
    found: dict[int, list[Entry]] = {}
    for remedy in remedies(loaded.document, solution, inspection, engine):
        found.setdefault(remedy.finding, []).append(_entry(remedy, loaded.document, solution.rig.reports_in))
    return found


def _entry(remedy: Remedy, document: Document, system: str) -> Entry:
    return {
        "says": sentence(says(remedy, system)),
        "then": remedy.verdict.value,
        "patch": list(remedy.patch),
        "edits": _edits(remedy, document),
    }


def _edits(remedy: Remedy, document: Document) -> list[Entry]:
    """Stretches of the text with what comes in their place; none where the change can't be made for certain."""
    try:
        edits = text_edits(document, remedy.patch) if remedy.patch else ()
    except CannotEdit:
        return []
    return [{"region": list(edit.region[:4]), "text": edit.text} for edit in edits]
