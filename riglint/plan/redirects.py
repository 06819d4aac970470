"""Redirects: blocks and rings, with the seats they offer to rope and hanger."""

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from riglint.plan.base import Basis, CheckedPart, Flag, FromKit, Misfit, Notes
from riglint.plan.conditions import RedirectConditions
from riglint.plan.lines import JoinKind, over_strength
from riglint.plan.quantities import Diameter, Loss, Rating, Share, Sheaves, Weight

SeatName = Literal["sheave", "groove", "bore", "head"]
SEATS_OF = {"block": ("sheave", "head"), "ring": ("groove", "bore")}


class Seat(CheckedPart):
    """Where a hanger bears, which doesn't run."""

    tread: Diameter | None = Field(None, description="diameter at the bottom of what the rope bears on")
    rated: Rating | None = Field(None, description="what it may carry; not divided again")
    breaking: Rating | None = Field(None, description="breaking strength, which is divided by a design factor")
    rated_for: Literal["line", "resultant"] | None = Field(
        None, description="whether the rating counts the pull in the line, or the resultant of both legs"
    )
    basis: Basis = None

    def misfits(self) -> Iterator[Misfit]:
        """A rating above the strength is a slip."""
        yield from over_strength(self.rated, self.breaking, "rated")


class RunningSeat(Seat):
    """Where rope or a hanger bears."""

    opening: Diameter | None = Field(None, description="clear width through which the rope passes")
    groove_for: Diameter | None = Field(None, description="rope diameters that the groove fits")
    loss: Loss | None = Field(None, description="as for the redirect, for this seat")
    passes: tuple[JoinKind, ...] | None = Field(
        None, max_length=20, description="joins that its maker lets run through it"
    )
    passes_width: Diameter | None = Field(None, description="thickest join that its maker lets run through it")
    open_side: Flag | None = Field(None, description="whether slack rope can leave it")


class Redirect(CheckedPart):
    """A block or a ring that turns the line."""

    kind: Literal["block", "ring"] = Field(description="a block turns on a sheave, a ring lets the rope slide")
    loss: Loss | None = Field(
        None,
        description="share of the pull lost over a half turn: one figure is the most, a range tells the least, too",
    )
    hung_from: tuple[str, ...] | None = Field(
        None, min_length=1, max_length=12,
        description="connectors in order, then the point; left out where it floats between lines",
    )  # fmt: skip
    hung_through: SeatName | None = Field(None, description="the seat that its hanger bears on")
    sheaves: Sheaves = Field(1, description="how many sheaves a block has")
    sheave: RunningSeat | None = Field(None, description="the turning sheave of a block")
    groove: RunningSeat | None = Field(None, description="the outer groove of a ring")
    bore: RunningSeat | None = Field(None, description="the bore through a ring")
    head: Seat | None = Field(None, description="the head of a block, by which it hangs")
    material: Literal["steel", "aluminium", "titanium", "composite"] | None = Field(
        None, description="what it is made of; for the record"
    )
    weight: Weight | None = Field(None, description="what it weighs; for the record")
    condition: RedirectConditions | None = Field(None, description="what was seen when it was looked over")
    worn: Share | None = Field(None, description="how much of its own size is gone where it is worn most")
    from_kit: FromKit = None
    notes: Notes = None

    def seat(self, name: str) -> Seat | None:
        """The seat of that name, where the redirect has it."""
        found = getattr(self, name, None)
        return found if isinstance(found, Seat) else None

    def running(self, name: str) -> RunningSeat | None:
        """The seat of that name, where the redirect has it and rope may run through it."""
        found = getattr(self, name, None)
        return found if isinstance(found, RunningSeat) else None

    def misfits(self) -> Iterator[Misfit]:
        """A block has a sheave and a head, a ring a groove and a bore."""
        seats = SEATS_OF[self.kind]
        serves = " or ".join(f"`{seat}`" for seat in seats)
        for seat in ("sheave", "groove", "bore", "head"):
            if self.seat(seat) and seat not in seats:
                yield Misfit(seat, f"a {self.kind} has no {seat}", f"use {serves}, or change its kind")
        if self.hung_through and self.hung_through not in seats:
            yield Misfit("hung_through", f"a {self.kind} has no {self.hung_through}", f"write {serves}")
        if self.sheaves > 1 and self.kind == "ring":
            yield Misfit("sheaves", "a ring has no sheaves", "leave it out, or write `kind: block`")
