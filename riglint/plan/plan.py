"""The plan as a whole."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from riglint.plan.base import Name, Notes, PlanPart, Text
from riglint.plan.bodies import Body, Travel
from riglint.plan.connectors import Connector
from riglint.plan.crew import Damper, Person, Signals, Stop
from riglint.plan.edges import Edge
from riglint.plan.lines import PIECES, Entry, Line, Path
from riglint.plan.points import Point
from riglint.plan.quantities import Bearing, refusal
from riglint.plan.redirects import Redirect
from riglint.plan.winch import Winch

__all__ = ["Name", "Plan", "Stage", "StageLine", "Works"]

Works = Literal["hauling", "paying out"]
Bodies = Annotated[dict[Name, Body], Field(min_length=1, max_length=50)]
Points = Annotated[dict[Name, Point], Field(max_length=300)]
Redirects = Annotated[dict[Name, Redirect], Field(max_length=100)]
Connectors = Annotated[dict[Name, Connector], Field(max_length=300)]
People = Annotated[tuple[Person, ...], Field(max_length=100)]
Stops = Annotated[tuple[Stop, ...], Field(max_length=100)]
Dampers = Annotated[tuple[Damper, ...], Field(max_length=50)]


class StageLine(PlanPart):
    """How a stage rigs a line."""

    path: Path
    pieces: tuple[Entry, ...] | None = Field(
        None, min_length=1, max_length=25, description=f"where they change: {PIECES}"
    )
    edge: Edge | None = Field(None, description="the sharpest edge that it bears on in this stage")


class Stage(PlanPart):
    """A stretch of the job with one way of rigging. It starts where the last one ended.

    Redirects, connectors and points given here are added to the plan's, or stand in for those of the same name.
    """

    name: Text = Field(description="what the crew call it")
    moves: Travel | None = Field(None, description="how far and which way the load goes in this stage")
    works: Works | None = Field(None, description="whether the winch hauls or pays out; as the plan says if left out")
    lines: dict[Name, StageLine] | None = Field(None, max_length=10, description="lines that are rigged another way")
    redirects: Redirects = Field({}, description="redirects that are added or changed")
    connectors: Connectors = Field({}, description="connectors that are added or changed")
    points: Points = Field({}, description="points that are added or changed, where they are as this stage begins")
    people: People | None = Field(None, description="who stands where in this stage")
    stops: Stops = Field((), description="planned halts in this stage")
    signals: Signals | None = Field(None, description="how the crew talk in this stage")
    dampers: Dampers | None = Field(None, description="dampers on the legs of this stage")
    load_held_by: Text | None = Field(None, description="what holds the load while this stage is rigged")


def not_a_truth_value(value: object) -> object:
    """Python takes `true` for 1; the form of a file is no truth value. Raises a refusal."""
    if value is True:
        raise refusal("`true` isn't known here", "write `1`")
    return value


class Plan(PlanPart):
    """One rig plan: what moves, what it is made fast to, the line and its path."""

    rig_plan: Annotated[Literal[1], BeforeValidator(not_a_truth_value)] = Field(description="the form of this plan, 1")
    title: Text = Field(description="what the job is, in a line")
    notes: Notes = None
    reports_in: Literal["metric", "imperial"] = Field("metric", description="the units that reports are printed in")
    north: Bearing | None = Field(
        None, description="where north is, from +x counter-clockwise; bearings are then compass bearings"
    )
    kit: Text | None = Field(None, description="the file of the kit that `from_kit` refers to")
    works: Works = Field("hauling", description="whether the winch hauls or pays out")
    bodies: Bodies = Field(description="the load, the vehicles and what else carries points")
    points: Points = Field(description="where gear is made fast")
    winch: Winch = Field(description="the winch, its drum and its fairlead")
    lines: dict[Name, Line] = Field(min_length=1, max_length=10, description="the ropes, each with pieces and path")
    redirects: Redirects = Field({}, description="blocks and rings")
    connectors: Connectors = Field({}, description="shackles, slings, straps, bridles")
    people: People | None = Field(None, description="who stands where")
    stops: Stops = Field((), description="halts that are planned, with what is done there")
    signals: Signals | None = Field(None, description="how the crew talk")
    dampers: Dampers | None = Field(None, description="dampers on legs of the lines")
    stages: tuple[Stage, ...] = Field((), max_length=30, description="stretches of the job that are rigged anew")
