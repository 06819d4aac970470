"""Lines: rope in pieces, the joins between them and the path they take."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Discriminator, Field, Tag

from riglint.plan.base import Basis, CheckedPart, FromKit, Misfit, Name, Notes, PlanPart, Text
from riglint.plan.conditions import RopeConditions, one_or_list
from riglint.plan.edges import Edge
from riglint.plan.quantities import Diameter, Rating, Share, Size, Span

RopeKind = Literal[
    "hmpe", "polyester", "nylon", "polypropylene", "aramid", "manila",
    "wire", "wire, fibre core", "wire, steel core",
]  # fmt: skip
JoinKind = Literal[
    "loop-to-loop square knot", "loop-to-loop cow hitch", "splice", "shackle", "soft shackle",
    "bowline", "square knot", "sheet bend", "figure-eight bend", "other knot", "swaged link",
]  # fmt: skip
JoinSet = Literal["parallel legs", "crossed legs", "collapsed to a cow hitch"]
Twist = Literal["none", "quarter turn", "half turn", "one turn", "more than one turn"]
Ending = Literal["spliced eye", "thimble", "swaged", "clips", "wedge socket", "knot", "socket", "plain"]


PathWord = Annotated[
    Annotated[str, Tag("(one)")] | Annotated[tuple[str, ...], Field(min_length=1, max_length=12), Tag("(list)")],
    Discriminator(one_or_list),
]
PATH = "from `winch` or a made-fast end, through redirects as `name.seat`, to what the dead end is made fast to"
Path = Annotated[tuple[PathWord, ...], Field(min_length=2, max_length=26, description=PATH)]


def over_strength(working: Span | None, breaking: Span | None, key: str = "working_load") -> Iterator[Misfit]:
    """A working load above the breaking strength: one of the two is a slip, or they were swapped."""
    if working and breaking and working.low > breaking.high:
        yield Misfit(key, "it is more than `breaking`", "check both; they may have been swapped")


class Piece(CheckedPart):
    """One length of rope, from bearing to bearing of its ends."""

    rope: RopeKind | None = Field(None, description="what it is made of")
    construction: Text | None = Field(None, description="how it is made, such as `12-strand braid` or `6x19`")
    diameter: Diameter | None = Field(None, description="of the rope")
    length: Size | None = Field(None, description="from bearing to bearing of its ends")
    breaking: Rating | None = Field(None, description="breaking strength, which is divided by a design factor")
    working_load: Rating | None = Field(None, description="what it may carry; not divided again")
    basis: Basis = None
    ends: Ending | None = Field(None, description="how its ends are made")
    splice_tail: Size | None = Field(None, description="how long the buried tail of its splice is")
    condition: RopeConditions | None = Field(None, description="what was seen when it was looked over")
    age: Text | None = Field(None, description="how old it is; for the record")
    from_kit: FromKit = None
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """A working load above the strength is a slip."""
        yield from over_strength(self.working_load, self.breaking)


class Join(CheckedPart):
    """What connects two pieces."""

    kind: JoinKind = Field(description="what knot, splice or gear it is")
    set: JoinSet | None = Field(None, description="how the loops of a loop-to-loop join lie")
    twist: Twist | None = Field(None, description="how far the pieces are turned against each other")
    keeps: Share | None = Field(None, description="share of the rope's strength that its maker states for it")
    breaking: Rating | None = Field(None, description="breaking strength, which is divided by a design factor")
    working_load: Rating | None = Field(None, description="what it may carry; not divided again")
    basis: Basis = None
    width: Diameter | None = Field(None, description="across its thickest place")
    splice_tail: Size | None = Field(None, description="how long the buried tail of its splice is")
    from_kit: FromKit = None
    notes: Notes = None

    def misfits(self) -> Iterator[Misfit]:
        """A working load above the strength is a slip; a join keeps something."""
        yield from over_strength(self.working_load, self.breaking)
        if self.keeps and self.keeps.low <= 0.0:
            yield Misfit("keeps", "a join that keeps nothing isn't a join", "write more than 0 %")


def _piece_or_join(value: object) -> str:
    """A join says its `kind`, a piece never does."""
    if isinstance(value, dict):
        return "(join)" if "kind" in value else "(piece)"
    return "(join)" if isinstance(value, Join) else "(piece)"


PieceOrJoin = Annotated[
    Annotated[Piece, Tag("(piece)")] | Annotated[Join, Tag("(join)")], Discriminator(_piece_or_join)
]
Entry = Annotated[dict[Name, PieceOrJoin], Field(min_length=1, max_length=1)]
PIECES = "from the drum outward, with a join between each two pieces"


class Line(PlanPart):
    """Rope from the drum (or a made-fast end) to its dead end.

    An end is made fast to a point, a redirect, or a list of connectors that ends with one of these.
    """

    pieces: tuple[Entry, ...] = Field(min_length=1, max_length=25, description=PIECES)
    path: Path
    edge: Edge | None = Field(None, description="the sharpest edge that it bears on; left out where it bears on none")
    notes: Notes = None
