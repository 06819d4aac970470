"""The solution: every figure of a rig, named, for rules and reports to read. Plain frozen values in SI.

Forces are on the component, directions in the plan's axes. Three cases:

- `expected`: the resistance that the plan states or that is worked out, at its top end, and never more than
  the winch can pull;
- `stall`: the most the winch can pull at the layer then in use;
- `holding`: the load at rest on a slope with the rope not slipping. Where a stage pays out, `expected` is the
  lowering itself.

Every load is the worst over all losses within their ranges, each redirect on its own, in one geometry.
"""

from typing import Literal, NamedTuple

from riglint.mechanics.vectors import Vec
from riglint.reading.quantity import Span
from riglint.rig.model import (
    Body,
    BridleArm,
    Connector,
    Join,
    Line,
    Piece,
    Point,
    Redirect,
    Rig,
    RigStage,
    Stop,
    Turn,
    Winch,
)  # fmt: skip

Case = Literal["expected", "stall", "holding"]
CASES: tuple[Case, ...] = ("expected", "stall", "holding")
Kind = Literal[
    "piece", "join", "turn", "redirect", "connector", "bridle leg", "point", "winch", "fairlead", "body", "load",
]  # fmt: skip
EventKind = Literal[
    "join at seat", "join at fairlead", "layer full", "layer empty", "redirects meet", "leg abeam",
    "line runs out", "ground changes", "planned stop",
]  # fmt: skip


class Peak(NamedTuple):
    """The worst load of a component in one case, and the station and force that go with it."""

    load_n: float
    force: Vec  # direction and size; zero where the load is a tension with no one direction
    station: int


class Component(NamedTuple):
    """Something that carries load. `item` is the rig's own object; `key`, kind and name, is unique in a stage."""

    kind: Kind
    name: str
    pointer: str
    item: Piece | Join | Turn | Redirect | Connector | BridleArm | Point | Winch | Body

    @property
    def key(self) -> tuple[Kind, str]:
        """Kind and name."""
        return self[:2]


class Leg(NamedTuple):
    """Straight rope between two turns, at a station. Tensions are the worst of their case."""

    line: str
    index: int  # type: ignore[assignment]  # from the line's first end; nothing here calls tuple.index
    begins: str  # winch, redirect or point
    ends: str
    start: Vec
    end: Vec
    length_m: float
    pulls_load: int  # 1 where it runs between the load and what stays
    tension: dict[Case, float]
    as_stated_n: float  # expected tension with every loss as stated, for pictures and tables


class TurnFigures(NamedTuple):
    """One passage of rope through a seat, at a station. Ratios are tension beyond over tension before."""

    turn: Turn
    line: str
    index: int  # type: ignore[assignment]  # from the line's first end; nothing here calls tuple.index
    wrap_rad: float
    included_rad: float
    slip: int  # +1 rope runs toward the first end, -1 away from it, 0 it may not slip
    ratio_low: float
    ratio_high: float
    path_beyond_m: float  # from the seat to the dead end, along the rope
    line_n: dict[Case, float]  # the greater of the two tensions, worst
    heat_j_m: dict[Case, float]  # heat put into each metre of rope that slides through (0 for a sheave)


class DrumFigures(NamedTuple):
    """What is on the drum at a station, judged at the least and the most that the lengths allow."""

    rope_m: Span  # on the drum; negative: the line is too short by so much
    wraps: Span
    layer: tuple[int, int]
    full_layers: tuple[int, int]
    on_bottom_m: float  # what a whole bottom layer takes
    wraps_in_bottom: float
    pull_layer: int  # where a layer is full, the next, on which the winch pulls less
    pull_n: float | None  # least pull available at the layer in use; None if not known
    stall_n: float | None  # most pull at the layer in use; where a layer is full, still on that
    fits: int | None  # layers that the flange allows; None if not known


class ResistancePart(NamedTuple):
    """One part of a resistance: what it is, its size over the range of the facts, and where it comes from."""

    label: str
    force: Span
    source: str  # a key of the sources, or "derivation", "common-practice", "plan"
    locator: str
    trust: str


class ResistanceFigures(NamedTuple):
    """What the load resists with, at a station.

    `hauling` is against being pulled along the travel, `holding` what must be held at rest, `driving` what the
    load pulls with while it is lowered. None: can't be told, for want of `missing` (hauling) or `rest_missing`
    (holding and driving). `doctrine` and `surface` hold both methods where both could apply; `used` names the one
    whose scope fits. `ahead` is what would make a load that is hauled run ahead of its line; None: can't be told.
    """

    hauling: Span | None
    holding: Span | None
    driving: Span | None
    used: str
    doctrine: tuple[ResistancePart, ...]
    surface: tuple[ResistancePart, ...]
    missing: tuple[str, ...]
    rest_missing: tuple[str, ...] = ()
    ahead: Span | None = None


class Event(NamedTuple):
    """Something that happens at a place along the travel. `spread` is its place over the ranges of lengths."""

    kind: EventKind
    travel_m: float
    spread: Span
    text: str  # in words: `join_1 reaches ring_a.bore`
    join: Join | None = None
    turn: int | None = None  # index of the turn on its line
    line: str | None = None
    stop: Stop | None = None
    redirects: tuple[str, ...] = ()
    layer: int | None = None
    zone: int | None = None


class Station(NamedTuple):
    """A place along the travel with every figure that holds there."""

    index: int  # type: ignore[assignment]  # nothing here calls tuple.index
    travel_m: float
    title: str  # start, end, or the events' words
    events: tuple[Event, ...]
    places: dict[str, Vec]  # redirects, points, winch (its fairlead)
    legs: tuple[Leg, ...]  # hauling line first
    turns: tuple[TurnFigures, ...]  # hauling line first
    path_m: float  # the hauling line from fairlead to dead end
    ratio_ideal: float  # pull along the travel per unit of line pull, without friction: -dL/ds
    ratio_least: float  # ... with every loss at its worst
    ratio_most: float
    resistance: ResistanceFigures
    line_pull_n: float | None  # expected, losses as stated, mid resistance
    line_pull_most_n: float | None  # needed at the worst losses and top resistance, not capped at stall
    line_pull_doctrine_n: float | None  # with tackle friction reckoned as a share of the resistance
    pull_along_n: Span | None  # on the load, along its travel, at stall (least and most)
    pull_across_n: float | None  # on the load, across its travel, at stall, most
    drum: DrumFigures | None
    rows: tuple[tuple[float | None, float | None, float | None], ...]  # loads: expected, stall, holding
    row_of: dict[tuple[Kind, str], int]  # which row is whose: things in one chain carry the same load

    def load(self, component: Component, case: Case) -> float | None:
        """The component's worst load here in this case, in newtons; None if it can't be told."""
        row = self.row_of.get(component.key)
        return None if row is None else self.rows[row][CASES.index(case)]


class StageSolution(NamedTuple):
    """One stage worked out. `refused` says why the rig can't stand as planned; then there are no stations."""

    stage: RigStage
    components: tuple[Component, ...]
    peaks: dict[Case, dict[tuple[Kind, str], Peak]]
    stations: tuple[Station, ...]
    events: tuple[Event, ...]  # by travel
    parts: int  # legs that pull on the load, at the start
    missing: dict[Case, tuple[str, ...]]  # facts without which a case can't be told, or only as at least
    losses_assumed: tuple[str, ...]  # turns whose loss the plan does not state
    line_m: Span  # the hauling line's whole length
    line_needed_m: float  # longest way from drum to dead end over the travel; what stays on the drum comes on top
    pulls: dict[Case, dict[tuple[Kind, str], tuple[Peak, ...]]]  # on each body at every station where it is known
    refused: str | None = None

    def component(self, kind: Kind, name: str) -> Component | None:
        """The component of that kind and name."""
        for component in self.components:
            if component.kind == kind and component.name == name:
                return component
        return None

    def peak(self, component: Component, case: Case) -> Peak | None:
        """Its worst load over the travel; None if the case can't be told or does not occur."""
        return self.peaks[case].get(component.key)

    def line(self, name: str) -> Line:
        """The line of that name."""
        return next(line for line in self.stage.lines if line.name == name)


class Solution(NamedTuple):
    """The whole rig, worked out."""

    rig: Rig
    stages: tuple[StageSolution, ...]
