"""A house file as it is written: what a company loads, sets, sets aside and waives for the plans below its folder."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from riglint.plan.base import Flag, Notes, PlanPart, Text
from riglint.plan.plan import not_a_truth_value
from riglint.plan.quantities import Form


def _as_text(value: object) -> str:
    """Whatever stands there, as text: a last day that is none counts as gone by, never as an open end."""
    return value if isinstance(value, str) else "something else" if isinstance(value, list | dict) else str(value)


def _until_schema() -> dict[str, object]:
    return {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "examples": ["2026-12-31"]}


Until = Annotated[str, Form(_as_text, _until_schema)]
LimitValue = Annotated[
    str | int | float,
    Form(
        lambda value: value if isinstance(value, int | float) and not isinstance(value, bool) else _as_text(value),
        lambda: {"type": ["string", "number"], "examples": ["6 m", 6, "40 %"]},
    ),
]


class WaiverEntry(PlanPart):
    """Findings of one rule on one component that are let pass for a time. A DANGER never is."""

    rule: Text = Field(description="the rule whose findings are waived")
    plan: Text = Field(
        description="the plan's title, or its file from this folder on; `*` and `**` stand for names and folders"
    )
    component: Text = Field(description="the component, by its name or its JSON Pointer in the plan")
    reason: Text = Field(description="why that is sound")
    allowed_by: Text = Field(description="who answers for it")
    until: Until = Field(description="the last day on which it holds")


class HouseFile(PlanPart):
    """A house file, found upward from a plan."""

    rig_house: Annotated[Literal[1], BeforeValidator(not_a_truth_value)] = Field(description="the form of this file, 1")
    title: Text = Field(description="whose house it is, in a line")
    notes: Notes = None
    alone: Flag | None = Field(
        None, description="whether house files in folders above are meant not to count: only the nearest ever does"
    )
    rulebooks: tuple[Text, ...] = Field(
        (), max_length=20, description="folders of rulebooks whose code is run, from this folder on"
    )
    kit: Text | None = Field(None, description="the kit for plans that name none, from this folder on")
    limits: dict[Text, dict[Text, LimitValue]] = Field(
        {}, description="limits of rules set to house values: rule, limit, value with its unit"
    )
    set_aside: dict[Text, Text] = Field(
        {}, description="rules whose findings below DANGER don't halt in this house, each with the reason"
    )
    waivers: tuple[WaiverEntry, ...] = Field((), max_length=1000, description="findings that are let pass")
