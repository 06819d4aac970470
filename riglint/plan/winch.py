"""The winch, its drum and its fairlead."""

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from riglint.plan.base import CheckedPart, Flag, FromKit, Misfit, Notes, PlanPart
from riglint.plan.quantities import (
    Bearing,
    Diameter,
    Layer,
    Length,
    Loss,
    Rating,
    RiggedLength,
    SignedLength,
    Speed,
)  # fmt: skip


class Drum(CheckedPart):
    """The drum."""

    diameter: Diameter = Field(description="of the barrel, without rope")
    width: Diameter = Field(description="between the flanges")
    flange: Diameter | None = Field(None, description="diameter of the flanges")
    grooved: Flag | None = Field(None, description="whether the barrel has grooves for the first layer")
    fastening: Rating | None = Field(None, description="what the rope's fastening on the drum holds by itself")

    def misfits(self) -> Iterator[Misfit]:
        """A flange stands out over the barrel."""
        if self.flange and self.flange.low <= self.diameter.high:
            yield Misfit("flange", "the flange is no larger than the barrel", "write both as diameters")


class Fairlead(PlanPart):
    """Where the line leaves the winch."""

    ahead: RiggedLength | None = Field(None, description="how far it stands ahead of the winch's mount")
    bearing: Bearing | None = Field(None, description="which way it looks; the first leg's way if left out")
    from_drum: Length | None = Field(None, description="how far it stands from the drum's axis")
    off_centre: SignedLength | None = Field(None, description="how far it stands beside the drum's middle")
    kind: Literal["hawse", "roller", "none"] | None = Field(None, description="what it is")
    radius: Diameter | None = Field(None, description="radius over which the rope bends there")
    rated: Rating | None = Field(None, description="what it may carry; not divided again")


class Winch(CheckedPart):
    """The winch."""

    mounted: str = Field(description="the point that it is mounted on")
    rated_pull: Rating | None = Field(None, description="its pull at `rated_layer`")
    rated_layer: Layer | None = Field(None, description="the layer on the drum that the pulls are for, 1 at the barrel")
    stall_pull: Rating | None = Field(None, description="the most it can pull at that layer")
    brake_hold: Rating | None = Field(None, description="what its brake holds at that layer")
    drum: Drum | None = Field(None, description="the drum's measures")
    fairlead: Fairlead | None = Field(None, description="where the line leaves it")
    drive: Literal["electric", "hydraulic", "mechanical", "hand"] | None = Field(
        None, description="what turns it; for the checklist"
    )
    line_speed: Speed | None = Field(None, description="of the line, under load; for the record")
    gearing_loss: Loss | None = Field(None, description="share of the drive's work lost in its gears; for the record")
    spooled: Literal["under tension", "loose"] | None = Field(None, description="how the line was wound on")
    from_kit: FromKit = None
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """The most that it can pull is no less than what it is rated for."""
        if self.stall_pull and self.rated_pull and self.stall_pull.high < self.rated_pull.low:
            yield Misfit("stall_pull", "it is less than `rated_pull`", "write the most that the winch can pull")
