"""Bodies: the load, the vehicles and the ground it all stands on."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal

from pydantic import Field

from riglint.plan.base import CheckedPart, Flag, Misfit, Notes, PlanPart, Text
from riglint.plan.quantities import (
    Bearing,
    Climb,
    Grip,
    Length,
    Place,
    Rating,
    Share,
    SignedLength,
    Size,
    Slope,
    Span,
    Tilt,
    Weight,
)  # fmt: skip

MireDepth = Literal["none", "wheel depth", "fender depth", "cab depth"]


class Travel(CheckedPart):
    """How far and which way the load must go."""

    distance: Size = Field(description="how far; in a plan with stages, over all of them")
    bearing: Bearing = Field(description="which way, seen from above")
    climb: Climb | None = Field(
        None,
        description="how far the way rises over the level; below nothing where it falls; each stage says its own",
    )
    room: Length | None = Field(None, description="how far it could go before something stands in the way")

    def misfits(self) -> Iterator[Misfit]:
        """The travel must fit into the room that there is."""
        if self.room and self.room.high < self.distance.low:
            yield Misfit("room", "the room is less than the distance", "write how far the load could go from its start")


class Zone(PlanPart):
    """Ground from one place of the travel on, until the next zone begins."""

    begins_at: Length = Field(description="after how much travel this ground begins")
    surface: Text | None = Field(None, description="what the ground is, such as `gravel` or `wet grass`")
    mired: MireDepth | None = Field(None, description="how deep the load is mired there")
    penetration: Length | None = Field(None, description="how deep the tyres sink in")
    slope: Slope | None = Field(None, description="along the load's way, with `up` or `down`")


class Ground(CheckedPart):
    """What a body stands on."""

    surface: Text | None = Field(None, description="what the ground is, such as `gravel` or `wet grass`")
    mired: MireDepth | None = Field(None, description="how deep the body is mired")
    penetration: Length | None = Field(None, description="how deep the tyres sink in")
    slope: Slope | None = Field(
        None, description="along the load's way, `up` where it goes uphill; of what stays, along the pull"
    )
    side_slope: Tilt | None = Field(None, description="across the body")
    grip: Grip | None = Field(None, description="coefficient of friction of what holds the body: tyres, tracks, spades")
    zones: tuple[Zone, ...] = Field((), max_length=50, description="how the ground changes along the travel, in order")

    def misfits(self) -> Iterator[Misfit]:
        """Each zone begins beyond the one before."""
        for i, (before, zone) in enumerate(pairwise(self.zones), start=1):
            if not (zone.begins_at.low > before.begins_at.low and zone.begins_at.high > before.begins_at.high):
                yield Misfit(
                    f"zones/{i}/begins_at", "this zone doesn't begin beyond the one before",
                    "write the zones in the order of the travel",
                )  # fmt: skip


class Resistance(CheckedPart):
    """A resistance that was measured or worked out by other means."""

    steady: Weight = Field(description="what it takes to keep the load moving")
    breakaway: Weight | None = Field(None, description="what it takes to get the load moving")
    found_by: Text | None = Field(None, description="how it was found: a gauge, a trial pull, a reckoning")

    def misfits(self) -> Iterator[Misfit]:
        """Breaking away takes no less than keeping up."""
        if self.breakaway and self.breakaway.high < self.steady.low:
            yield Misfit("breakaway", "it is less than `steady`", "write what it takes to get the load moving")


class CentreOfGravity(PlanPart):
    """Where the weight acts, from the ground and the middle of the body, over which it is if nothing else is stated."""

    height: Size = Field(description="over the ground")
    ahead: SignedLength | None = Field(None, description="ahead of the body's middle; below nothing where behind")
    left: SignedLength | None = Field(None, description="left of the body's middle; below nothing where right")


class Outline(PlanPart):
    """A body seen from above: a rectangle about `middle`, its length along `heading`."""

    length: Size = Field(description="along the body")
    width: Size = Field(description="across the body")
    height: Size | None = Field(None, description="of the body's top over the ground")
    middle: Place | None = Field(None, description="where the middle of the rectangle is as the plan begins")
    heading: Bearing | None = Field(None, description="which way the body's front looks")


class Outriggers(PlanPart):
    """Outriggers or stabilisers that are set and carry the body, or one end of it."""

    across: Size = Field(
        description="between the middles of its pads, across the body; of wheels that carry one end, if closer"
    )
    along: Size | None = Field(None, description="between what carries its two ends: pads, or pads and an axle")


Securing = Literal["brakes", "chocks", "spades", "anchored", "in gear", "tied back"]


class Body(CheckedPart):
    """A thing that has points on it. The one with `moves` is the load."""

    moves: Travel | None = Field(None, description="how far and which way it must go; for the load alone")
    weight: Weight | None = Field(None, description="with cargo, as it stands")
    laden_mass: Weight | None = Field(None, description="technically permissible maximum laden mass")
    ground: Ground | None = Field(None, description="what it stands on")
    resistance: Resistance | None = Field(None, description="resistance to moving, where it was found by other means")
    outline: Outline | None = Field(None, description="its size seen from above")
    centre_of_gravity: CentreOfGravity | None = Field(None, description="where its weight acts")
    track: Size | None = Field(None, description="between the middles of the wheels of an axle")
    wheelbase: Size | None = Field(
        None, description="between the first and the last axle; of a trailer that rests on its drawbar, from there"
    )
    outriggers: Outriggers | None = Field(None, description="outriggers or stabilisers that are set and carry it")
    running_gear: Literal["wheels", "tracks", "none"] | None = Field(None, description="what it runs on")
    pulled: Literal["forwards", "backwards"] | None = Field(None, description="which way it is pulled")
    own_power: Flag | None = Field(None, description="whether it helps with its own engine")
    overturned: Flag | None = Field(None, description="whether it lies on its side or roof")
    wheels_locked: Share | None = Field(None, description="share of the weight that stands on locked wheels")
    secured: tuple[Securing, ...] | None = Field(None, max_length=12, description="what keeps it where it is")
    held_by: Rating | None = Field(None, description="what a further hold, such as a tie-back, is rated for")
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """What only the load has belongs to the load; a weight acts within what it stands on."""
        if self.ground and self.ground.zones and not self.moves:
            yield Misfit("ground/zones", "zones lie along a travel, and this body has none", "give them to the load")
        if self.outriggers and self.moves:
            yield Misfit("outriggers", "the load moves, and nothing that is set carries it", "give them to what stays")
        yield from self._out_of_place()

    def stands_on(self) -> tuple[Span | None, Span | None]:
        """How wide and how long what it stands on is: its outriggers, where they are set, else its wheels or tracks."""
        if self.outriggers:
            return self.outriggers.across, self.outriggers.along
        return self.track, self.wheelbase

    def _out_of_place(self) -> Iterator[Misfit]:
        """A weight that acts outside of what the body stands on or over its top, or wheels outside of its outline."""
        gravity, outline = self.centre_of_gravity, self.outline
        if gravity:
            for key, base in zip(("left", "ahead"), self.stands_on(), strict=True):
                off = getattr(gravity, key)
                if off and base and max(map(abs, off)) >= 0.5 * base.low:
                    found = f"the weight acts outside of the {'outriggers' if self.outriggers else 'wheels'}"
                    yield Misfit(f"centre_of_gravity/{key}", found, "write how far it acts from the body's middle")
            if outline and outline.height and gravity.height.low > outline.height.high:
                found = "the weight acts over the body's top"
                yield Misfit("centre_of_gravity/height", found, "write both from the ground up")
        for key, side in (("track", "width"), ("wheelbase", "length")) if outline else ():
            base, room = getattr(self, key), getattr(outline, side)
            if base and base.low > room.high:
                yield Misfit(key, f"it is more than the outline's {side}", "check both; they may have been swapped")
