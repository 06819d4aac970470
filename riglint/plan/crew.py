"""People, planned stops, signals and dampers."""

from collections.abc import Iterator
from typing import Literal

from pydantic import Field

from riglint.plan.base import CheckedPart, Flag, Misfit, Notes, PlanPart, Text
from riglint.plan.quantities import Length, Place, Weight


class Person(CheckedPart):
    """Somebody near the rig: `at` a place, or `in` a body (`tender cab` is the cab of `tender`)."""

    who: Text = Field(description="what the person does, such as `spotter`")
    at: Place | None = Field(None, description="where the person stands")
    in_: str | None = Field(None, alias="in", description="the body that the person sits in, such as `tender cab`")
    watches: tuple[str, ...] | None = Field(
        None, max_length=50, description="joins or redirects that this person keeps in sight"
    )
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """Nobody is at two places."""
        if self.at is not None and self.in_ is not None:
            yield Misfit("in", "this person is both `at` a place and `in` a body", "keep one of the two")


class Stop(PlanPart):
    """A planned halt."""

    after: Length = Field(description="after how much travel; in a stage, since the stage began")
    do: Text = Field(description="what is done there, with the names of the join and redirect that it is for")
    load_held_by: Text | None = Field(None, description="what holds the load meanwhile")


class Signals(PlanPart):
    """How the crew talk."""

    by: Literal["hand", "radio", "voice", "whistle", "line of sight"] = Field(description="by what means")
    agreed: Flag | None = Field(None, description="whether all know them and have tried them")
    given_by: Text | None = Field(None, description="who alone gives them")


class Damper(CheckedPart):
    """A damper laid on a leg."""

    line: str = Field(description="the line that it lies on")
    between: tuple[str, str] = Field(description="what stands at the leg's two ends: `winch`, redirects, points")
    weight: Weight | None = Field(
        None, description="what it weighs; for the record, since no figure is published for dampers"
    )

    def misfits(self) -> Iterator[Misfit]:
        """A leg has two ends."""
        if self.between[0] == self.between[1]:
            yield Misfit("between", "both ends of the leg have one name", "name what stands at each end")
