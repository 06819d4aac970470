"""Points: where gear is made fast, with what they hold and which way."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from riglint.plan.base import Basis, CheckedPart, Flag, FromKit, Misfit, Notes, PlanPart
from riglint.plan.lines import over_strength
from riglint.plan.quantities import Bearing, Diameter, Length, Place, Rating, Size, Slope, Spread, Tilt

PointKind = Literal[
    "tow eye", "recovery point", "hook", "drawbar", "winch mount", "towing ball", "tie-down point", "axle",
    "frame", "tree", "stump", "rock", "picket holdfast", "deadman", "ground anchor", "structure", "other",
]  # fmt: skip
Soil = Literal[
    "undisturbed loam", "wet clay and gravel", "wet river clay and sand", "rock or hardpan",
    "wet fine-grained or sandy",
]  # fmt: skip
ROWS_PATTERN = "^[1-9](-[1-9]){0,4}$"
Rows = Annotated[str, StringConstraints(pattern=ROWS_PATTERN)]


class Pickets(PlanPart):
    """A picket holdfast."""

    arrangement: Rows = Field(description="how many pickets stand in each row from the front, such as `3-2-1`")
    material: Literal["wood", "steel"] | None = Field(
        None, description="what the pickets are made of; for the record, the weaker counts"
    )
    soil: Soil | None = Field(None, description="what they are driven into")
    spacing: Size | None = Field(None, description="from row to row")
    lean: Tilt | None = Field(None, description="how far they lean away from the pull, off the upright")


class Deadman(PlanPart):
    """A log or timber buried across the pull."""

    material: Literal["log", "timber"] = Field(description="what is buried")
    length: Size = Field(description="across the pull")
    face: Diameter = Field(description="height of a timber's bearing face, or a log's diameter")
    thickness: Diameter | None = Field(None, description="of a timber, along the pull")
    depth: Size = Field(description="mean depth of the face below the ground")
    pull_slope: Slope | None = Field(None, description="how the dead line rises from the trench")
    trench: Size | None = Field(None, description="width of the trench at the bottom")
    soil: Soil | None = Field(None, description="what it is buried in")


HOLDFASTS = {"pickets": "picket holdfast", "deadman": "deadman"}


class Point(CheckedPart):
    """A named place on a body."""

    on: str = Field(description="the body that it is on, or `ground`")
    at: Place = Field(description="where it is as the plan begins")
    kind: PointKind | None = Field(None, description="what it is")
    rated: Rating | None = Field(None, description="what it may carry; not divided again")
    breaking: Rating | None = Field(None, description="its strength, which is divided by a design factor")
    basis: Basis = None
    rated_direction: Bearing | None = Field(None, description="which way it is meant to be pulled")
    cone: Spread | None = Field(None, description="how far off that direction it may be pulled")
    diameter: Diameter | None = Field(None, description="of a tree or stump, or of what gear bears on")
    strap_height: Length | None = Field(None, description="of the strap over the ground")
    alive: Flag | None = Field(None, description="whether a tree or stump has sound roots")
    pickets: Pickets | None = Field(None, description="how a picket holdfast is made")
    deadman: Deadman | None = Field(None, description="how a deadman is made")
    pin_diameter: Diameter | None = Field(None, description="of what bears on a soft connector there")
    from_kit: FromKit = None
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """A rating above the strength is a slip; a holdfast says what it is."""
        yield from over_strength(self.rated, self.breaking, "rated")
        for key, kind in HOLDFASTS.items():
            if getattr(self, key) is not None and self.kind != kind:
                yield Misfit(key, f"`{key}` belongs to a point of the kind `{kind}`", f"write `kind: {kind}`")
