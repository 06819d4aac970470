"""Connectors: shackles, slings, straps, bridles."""

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from riglint.plan.base import Basis, CheckedPart, Flag, FromKit, Misfit, Notes
from riglint.plan.conditions import ConnectorConditions
from riglint.plan.edges import Edge
from riglint.plan.lines import over_strength
from riglint.plan.quantities import Diameter, Rating, RiggedLength, RiggedSize, Share, Spread

ConnectorKind = Literal[
    "bow shackle", "dee shackle", "soft shackle", "strap", "sling", "wire sling", "chain", "rope strop",
    "recovery strap", "hook", "link", "swivel", "bridle",
]  # fmt: skip


class BridleLeg(CheckedPart):
    """One leg of a bridle, from its middle to the point that it holds."""

    to: str = Field(description="the point that the leg is made fast to")
    length: RiggedSize = Field(description="from the bridle's middle to the point, as rigged")
    breaking: Rating | None = Field(None, description="breaking strength of the leg")
    working_load: Rating | None = Field(None, description="what the leg may carry; not divided again")

    def misfits(self) -> Iterator[Misfit]:
        """A working load above the strength is a slip."""
        yield from over_strength(self.working_load, self.breaking)


class Connector(CheckedPart):
    """What joins gear to gear or gear to a point. Strengths are for one straight pull of it."""

    kind: ConnectorKind | None = Field(None, description="what it is")
    length: RiggedLength | None = Field(None, description="as rigged, bearing to bearing")
    working_load: Rating | None = Field(None, description="what it may carry; not divided again")
    breaking: Rating | None = Field(None, description="breaking strength, which is divided by a design factor")
    basis: Basis = None
    wrapped: Literal["single", "doubled", "basket", "choked"] | None = Field(None, description="how it is used")
    leg_angle: Spread | None = Field(None, description="between the two legs of a basket or in a bow")
    off_line: Spread | None = Field(None, description="how far off its line a shackle is pulled")
    pin: Literal["screw", "bolt, nut and cotter", "round"] | None = Field(None, description="what pin a shackle has")
    pin_moused: Flag | None = Field(None, description="whether the pin is secured against turning out")
    pin_bears: Literal["eye", "running rope", "rolling part"] | None = Field(None, description="what bears on the pin")
    diameter: Diameter | None = Field(None, description="of its rope or bar; of webbing its thickness")
    edge: Edge | None = Field(None, description="the sharpest edge that it bears on; left out where it bears on none")
    material: Literal["steel", "fibre", "wire"] | None = Field(None, description="what it is made of")
    legs: tuple[BridleLeg, ...] | None = Field(None, min_length=2, max_length=3, description="the legs of a bridle")
    equalised: Flag | None = Field(None, description="whether a bridle's legs share the load by themselves")
    condition: ConnectorConditions | None = Field(None, description="what was seen when it was looked over")
    worn: Share | None = Field(None, description="how much of its own size is gone where it is worn most")
    from_kit: FromKit = None
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """A working load above the strength is a slip; only a bridle has legs."""
        yield from over_strength(self.working_load, self.breaking)
        for key in ("legs", "equalised"):
            if getattr(self, key) is not None and self.kind != "bridle":
                yield Misfit(key, f"only a bridle has `{key}`", "write `kind: bridle`, or leave it out")
