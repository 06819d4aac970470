"""The rig: a plan with its names turned into objects and its quantities into plain numbers.

One `RigStage` a stretch of the job. Every object carries `facts`, the plan's own frozen entry, for what only
rules ask for, and `pointer`, where it stands in the plan (RFC 6901).
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, NamedTuple

from riglint.mechanics.vectors import Vec
from riglint.plan.bodies import Body as BodyFacts
from riglint.plan.connectors import BridleLeg
from riglint.plan.connectors import Connector as ConnectorFacts
from riglint.plan.crew import Damper, Signals
from riglint.plan.crew import Person as PersonFacts
from riglint.plan.crew import Stop as StopFacts
from riglint.plan.edges import Edge
from riglint.plan.lines import Join as JoinFacts
from riglint.plan.lines import Piece as PieceFacts
from riglint.plan.plan import Works
from riglint.plan.points import Point as PointFacts
from riglint.plan.redirects import Redirect as RedirectFacts
from riglint.plan.redirects import RunningSeat
from riglint.plan.winch import Winch as WinchFacts
from riglint.reading.quantity import Span

if TYPE_CHECKING:
    from datetime import date


class Body(NamedTuple):
    """A body. The load is the one that `moves`. `ground` with no entry in the plan has no facts."""

    name: str
    pointer: str
    facts: BodyFacts
    moves: bool
    middle: Vec | None = None  # of its outline, as the stage begins, where the plan gives it


class Point(NamedTuple):
    """A point, where it stands as the stage begins."""

    name: str
    pointer: str
    facts: PointFacts
    body: Body
    at: Vec


class Connector(NamedTuple):
    """A connector; `length_m` is as rigged, `length_stated` whether the plan gave it."""

    name: str
    pointer: str
    facts: ConnectorFacts
    length_m: float
    length_stated: bool


class BridleArm(NamedTuple):
    """One leg of a bridle and the point that it holds."""

    facts: BridleLeg
    point: Point
    length_m: float


class Chain(NamedTuple):
    """Connectors in order, from the gear to what they are made fast to: exactly one of the three last fields.

    A bridle is the last connector of its chain, with `arms`; its hub stands `length_m` (the others' lengths
    summed) from the gear.
    """

    connectors: tuple[Connector, ...]
    length_m: float
    point: Point | None = None
    redirect: str | None = None
    arms: tuple[BridleArm, ...] = ()
    equalised: bool = False


class Redirect(NamedTuple):
    """A block or ring. `hanger` is None where it floats between lines."""

    name: str
    pointer: str
    facts: RedirectFacts
    hanger: Chain | None


class Turn(NamedTuple):
    """One passage of a line through a redirect's seat. `loss` is for a half turn; None where not stated."""

    redirect: str
    seat_name: str
    seat: RunningSeat
    loss: Span | None
    pointer: str

    @property
    def rolls(self) -> bool:
        """Whether the seat turns with the rope."""
        return self.seat_name == "sheave"


class Piece(NamedTuple):
    """A piece of rope. It lies from `start_m` to `end_m`, measured from the dead end along the rope."""

    name: str
    pointer: str
    facts: PieceFacts
    start_m: float
    end_m: float


class Join(NamedTuple):
    """A join between `outer` (nearer the dead end) and `inner` piece, at its distance to the dead end."""

    name: str
    pointer: str
    facts: JoinFacts
    from_dead_end: Span
    inner: Piece
    outer: Piece


class Line(NamedTuple):
    """A line from its first end (the winch for the hauling line) through its turns to its dead end."""

    name: str
    pointer: str
    pieces: tuple[Piece, ...]  # from the first end outward
    joins: tuple[Join, ...]
    turns: tuple[Turn, ...]
    first: Chain | None  # None: the winch
    dead_end: Chain
    length: Span
    unstated: tuple[str, ...]  # pieces whose length the plan does not give
    edge: Edge | None  # the sharpest that it bears on


class Winch(NamedTuple):
    """The winch. `fairlead` is where the line leaves it as the stage begins, `outlook` its way as a unit vector."""

    pointer: str
    facts: WinchFacts
    mount: Point
    fairlead: Vec
    outlook: Vec


class Person(NamedTuple):
    """Somebody near the rig: at a place, or in a body (`cab` tells where), or neither known."""

    who: str
    pointer: str
    facts: PersonFacts
    at: Vec | None
    body: Body | None
    cab: bool


class Stop(NamedTuple):
    """A planned halt, with the names of joins and redirects that its text holds."""

    after_m: Span
    pointer: str
    facts: StopFacts
    names: frozenset[str]


class RigStage(NamedTuple):
    """One stage: the load starts at the points' places and moves `travel_m` along `direction`."""

    name: str
    index: int  # type: ignore[assignment]  # nothing here calls tuple.index
    pointer: str
    works: Works
    load: Body
    direction: Vec
    travel: Span
    room: Span | None  # from where the stage begins; None where the stage states none of its own
    begins_m: float  # travel done by the stages before
    bodies: dict[str, Body]
    points: dict[str, Point]
    connectors: dict[str, Connector]
    redirects: dict[str, Redirect]
    winch: Winch
    haul: Line
    others: tuple[Line, ...]
    people: tuple[Person, ...]
    people_stated: bool
    stops: tuple[Stop, ...]
    signals: Signals | None
    dampers: tuple[Damper, ...] | None
    load_held_by: str | None

    @property
    def lines(self) -> tuple[Line, ...]:
        """The hauling line first, then the others by name."""
        return (self.haul, *self.others)


class KitFacts(NamedTuple):
    """What the kit has on record of one piece of gear in the rig, for rules on paper."""

    gear: str  # its number in the kit
    what: str  # what it is in the kit; a shackle there may be a join here
    kind: Literal["piece", "join", "connector", "redirect", "winch", "point"]  # what it is in the plan
    name: str  # its name in the plan
    serial: str | None = None
    inspected: "date | None" = None
    interval_stated: bool = False
    good_until: "date | None" = None  # last day of the inspection; None where day or interval is missing
    retired: str | None = None  # the reason; empty: in use; None: not said
    rated: Literal["kit", "plan", "nowhere"] = "nowhere"  # who states a rating or a strength


class Rig(NamedTuple):
    """The whole job. `kit` holds the record of gear by where it stands in the plan."""

    title: str
    reports_in: str
    north_rad: float | None
    stages: tuple[RigStage, ...]
    kit: Mapping[str, KitFacts] = MappingProxyType({})
    today: "date | None" = None  # told from outside; the engine never looks at a clock

    @property
    def day(self) -> str | None:
        """The day of the pull as year, month and day; None if it isn't told."""
        return self.today.isoformat() if self.today else None

    def on_paper(self, kit: dict[str, KitFacts], today: "date | None") -> "Rig":
        """The same rig with what is on record of its gear, and the day of the pull."""
        return Rig(self.title, self.reports_in, self.north_rad, self.stages, kit, today)
