"""A kit as it is written: gear by its number, in the words of a plan, with serial, inspection and retirement.

Each kind of gear has the keys of its entry in a plan, but for those that say how it is used.
"""

from collections.abc import Iterator
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Discriminator, Field, StringConstraints, Tag

from riglint.kit.dates import Day, Every, Retired
from riglint.plan.base import GEAR_PATTERN, CheckedPart, Misfit, Notes, PlanPart, Text
from riglint.plan.connectors import Connector
from riglint.plan.lines import Join, Piece
from riglint.plan.plan import not_a_truth_value
from riglint.plan.points import Point
from riglint.plan.quantities import Coordinates, Place
from riglint.plan.redirects import Redirect
from riglint.plan.winch import Winch

GearId = Annotated[str, StringConstraints(pattern=GEAR_PATTERN)]
_OF_THE_RIG = ("it says how the gear is rigged, which is the plan's to say", "write it in the plan")


class Record(CheckedPart):
    """What the kit knows of a piece of gear, whatever it is."""

    rigged_by: ClassVar[frozenset[str]] = frozenset({"from_kit"})
    """Keys of the plan's entry that say how gear is used."""

    serial: Text | None = Field(None, description="the maker's or owner's number on it")
    inspected: Day | None = Field(None, description="the day on which it was last inspected and passed")
    inspection_interval: Every | None = Field(None, description="for how long an inspection is good")
    retired: Retired | None = Field(None, description="whether it was taken out of use, or why")
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """How gear is used isn't the kit's to say."""
        for key in sorted(self.rigged_by & self.model_fields_set):
            yield Misfit(key, *_OF_THE_RIG)
        yield from super().misfits()


class PieceGear(Record, Piece):
    """A length of rope."""

    is_: Literal["piece"] = Field(alias="is", description="what it is")


class JoinGear(Record, Join):
    """What connects two pieces of rope, where it is gear of its own."""

    rigged_by = Record.rigged_by | {"set", "twist"}
    is_: Literal["join"] = Field(alias="is", description="what it is")


class ConnectorGear(Record, Connector):
    """A shackle, sling, strap or another connector. Its length is that of a single straight pull."""

    rigged_by = Record.rigged_by | {"wrapped", "leg_angle", "off_line", "pin_moused", "pin_bears", "legs", "edge"}
    is_: Literal["connector"] = Field(alias="is", description="what it is")


class RedirectGear(Record, Redirect):
    """A block or a ring, with its seats."""

    rigged_by = Record.rigged_by | {"hung_from", "hung_through"}
    is_: Literal["redirect"] = Field(alias="is", description="what it is")


class WinchGear(Record, Winch):
    """A winch, with its drum and fairlead."""

    rigged_by = Record.rigged_by | {"mounted", "spooled"}
    is_: Literal["winch"] = Field(alias="is", description="what it is")
    mounted: str = Field("", description="for plans only")

    def misfits(self) -> Iterator[Misfit]:
        """Nor does the kit say which way the winch looks."""
        yield from super().misfits()
        if self.fairlead and self.fairlead.bearing:
            yield Misfit("fairlead/bearing", *_OF_THE_RIG)


class PointGear(Record, Point):
    """Hardware that makes a point: an eye, a hook, a ground anchor."""

    rigged_by = Record.rigged_by | {
        "on", "at", "rated_direction", "strap_height", "alive", "pickets", "deadman",
    }  # fmt: skip
    is_: Literal["point"] = Field(alias="is", description="what it is")
    on: str = Field("", description="for plans only")
    at: Place = Field(default_factory=lambda: Coordinates((0.0, 0.0, 0.0)), description="for plans only")


KINDS: dict[str, type[Record]] = {
    "piece": PieceGear, "join": JoinGear, "connector": ConnectorGear, "redirect": RedirectGear,
    "winch": WinchGear, "point": PointGear,
}  # fmt: skip


class UnknownGear(BaseModel):
    """Gear that doesn't say what it is: nothing else of it can be read."""

    model_config = ConfigDict(extra="ignore", frozen=True, defer_build=True)
    is_: Literal["piece", "join", "connector", "redirect", "winch", "point"] = Field(
        alias="is", description="what it is: `piece` of rope, `join`, `connector`, `redirect`, `winch` or `point`"
    )


def _kind_of(value: Any) -> str:
    word = value.get("is") if isinstance(value, dict) else None
    return f"({word})" if isinstance(word, str) and word in KINDS else "(unknown)"


Gear = Annotated[
    Annotated[PieceGear, Tag("(piece)")]
    | Annotated[JoinGear, Tag("(join)")]
    | Annotated[ConnectorGear, Tag("(connector)")]
    | Annotated[RedirectGear, Tag("(redirect)")]
    | Annotated[WinchGear, Tag("(winch)")]
    | Annotated[PointGear, Tag("(point)")]
    | Annotated[UnknownGear, Tag("(unknown)")],
    Discriminator(_kind_of),
]


class KitFile(PlanPart):
    """A kit: a register of gear with ratings and inspections, which plans refer to."""

    rig_kit: Annotated[Literal[1], BeforeValidator(not_a_truth_value)] = Field(description="the form of this kit, 1")
    title: Text = Field(description="whose gear it is, in a line")
    notes: Notes = None
    gear: dict[GearId, Gear] = Field(
        min_length=1, max_length=5000, description="gear by its number, which plans name with `from_kit`"
    )
