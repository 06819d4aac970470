"""What an estimate is asked for: a few lines of YAML. Every line may be left out, and is then said to be missing."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from riglint.plan.base import CheckedPart, Flag, Misfit, Notes, PlanPart, Text
from riglint.plan.bodies import MireDepth
from riglint.plan.lines import Piece
from riglint.plan.plan import not_a_truth_value
from riglint.plan.quantities import Length, Size, Slope, Weight
from riglint.plan.winch import Winch


class GroundAsked(PlanPart):
    """What the load stands on."""

    surface: Text | None = Field(None, description="what the ground is, such as `gravel` or `wet grass`")
    mired: MireDepth | None = Field(None, description="how deep the load is mired")
    penetration: Length | None = Field(None, description="how deep the tyres sink in")
    slope: Slope | None = Field(None, description="along the pull, with `up` where the pull goes uphill, or `down`")


class WinchAsked(Winch):
    """The winch, in the words of a plan; where it is mounted doesn't matter yet."""

    mounted: str = Field("", description="for plans only")


class Question(CheckedPart):
    """What moves, over what, how far, and what there is to move it with."""

    rig_estimate: Annotated[Literal[1], BeforeValidator(not_a_truth_value)] = Field(
        1, description="the form of this file, 1"
    )
    title: Text | None = Field(None, description="what the job is, in a line")
    notes: Notes = None
    reports_in: Literal["metric", "imperial"] = Field("metric", description="the units to print")
    weight: Weight | None = Field(None, description="of the load, with cargo, as it stands")
    ground: GroundAsked | None = Field(None, description="what the load stands on")
    overturned: Flag | None = Field(None, description="whether the load lies on its side or roof")
    running_gear: Literal["wheels", "tracks", "none"] | None = Field(None, description="what the load runs on")
    resistance: Weight | None = Field(None, description="what the load resists with, where it was found by other means")
    distance: Size | None = Field(None, description="how far the load must go")
    reach: Size | None = Field(None, description="from the winch to the load, as it stands")
    winch: WinchAsked | None = Field(None, description="the winch, in the words of a plan")
    rope: Piece | None = Field(None, description="the rope on the winch, in the words of a plan")
    kit: Text | None = Field(None, description="the file of the kit, from this file's folder on")

    def misfits(self) -> Iterator[Misfit]:
        """The load can't come past the winch."""
        if self.distance and self.reach and self.distance.high > self.reach.low:
            yield Misfit("distance", "it is more than `reach`", "write a distance that ends short of the winch")
