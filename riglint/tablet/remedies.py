"""Remedies for the page: each with the plan's text as it would be, so that one tap puts it in."""

from __future__ import annotations

from collections.abc import Callable
from itertools import count

from riglint.house.context import Context
from riglint.plan.load import LoadedPlan
from riglint.remedy.model import Remedy
from riglint.remedy.remedies import remedies
from riglint.remedy.text import rewritten
from riglint.remedy.workshop import Engine
from riglint.remedy.yaml_edit import CannotEdit
from riglint.report.json_remedies import remedies as entries
from riglint.report.material import Inspected
from riglint.report.text_remedies import comes_of
from riglint.tablet.view import Answer


def tried(inspected: Inspected, context: Context, told: Callable[[int], object], only: int | None) -> list[Answer]:
    """The remedies of one finding, or of all that failed; `told` hears of each change that is tried, by its number."""
    numbers = count(1)

    def load(text: str, file: str) -> LoadedPlan:
        told(next(numbers))
        return context.load(text, file)

    engine = Engine(context.rulebook, load, context.inspect, context.kit_for)
    found = remedies(inspected.document, inspected.solution, inspected.inspection, engine, only=only)
    return [
        {key: entry[key] for key in ("finding", "says", "verdict")} | _put_in(inspected, remedy)
        for entry, remedy in zip(entries(inspected, found), found, strict=True)
    ]


def _put_in(inspected: Inspected, remedy: Remedy) -> Answer:
    """What comes of it, and the text with it: none where only a person can say what the gear would be."""
    told, document = {"comes_of": comes_of(remedy, inspected), "text": None, "why_not": ""}, inspected.document
    if not remedy.patch:
        return told
    try:
        return told | {"text": document.bom + rewritten(document, remedy.patch)}
    except CannotEdit as error:
        return told | {"why_not": str(error)}
