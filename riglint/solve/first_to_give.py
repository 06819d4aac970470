"""What breaks first if the winch is kept on, at what line pull, and where what is freed would fly.

Every load of a rig grows in proportion to the line pull, at one place of the travel; so a strength over a load
at stall says at what share of the stall pull it is reached.
"""

from collections.abc import Iterator
from math import cos, hypot, inf, pi
from typing import Final, NamedTuple

from riglint.mechanics.angles import redirect_factor
from riglint.mechanics.joins import join_factor
from riglint.mechanics.rounding import surpasses
from riglint.mechanics.vectors import Vec
from riglint.reading.quantity import Span
from riglint.rig.model import BridleArm, Chain, Connector, Join, Piece, Point, Redirect, Turn
from riglint.solve.ends import left_by_ends
from riglint.solve.kept import kept
from riglint.solve.ratings import share_of_use
from riglint.solve.solution import Case, Component, StageSolution

STALL: Final[Case] = "stall"
AHEAD: Final = cos(pi / 4)
"""What stands within 45 degrees of where gear flies is named as what it flies towards."""

_GEAR: Final = frozenset({"piece", "join", "connector", "bridle leg", "point"})
_KNOTS: Final = ("square knot", "sheet bend", "figure-eight bend", "other knot")
_WIRE: Final = {
    "wire": "wire",
    "wire, fibre core": "wire, fibre core",
    "wire, steel core": "wire, independent core",
}


class Break(NamedTuple):
    """The first component to break, of those whose strength is known, and the line pull that does it."""

    component: Component
    strength_n: float
    pull_n: float
    station: int
    unknown: tuple[Component, ...]  # what carries load and has no strength stated
    sure_n: float  # the line pull at which something has broken, be every strength at the top of its range
    rivals: tuple[Component, ...]  # others that may break at no greater pull than that


class Flight(NamedTuple):
    """Which way gear flies once freed, and what stands that way."""

    direction: Vec
    toward: str | None


@kept
def first_to_break(stage: StageSolution) -> Break | None:
    """The component that breaks at the lowest line pull, with its strength as stated; None if none is stated.

    Equation: P = P_stall S / F
    Units: P line pull [N], S strength [N], F load at the stall pull P_stall [N]
    Range: components that carry load at stall; loads in proportion to the line pull
    Source: derivation (statics is linear in the line pull at one geometry)
    """
    first: Break | None = None
    unknown: list[Component] = []
    known: list[tuple[Component, float]] = []
    sure_n = inf
    peaks, pulls = stage.peaks[STALL], [line_pull_n(stage, s.index) for s in stage.stations]
    for component in stage.components:
        peak = peaks.get(component.key)
        stall_n = pulls[peak.station] if peak else None
        if peak is None or not stall_n or peak.load_n <= 0.0:
            continue
        item = component.item
        strength_n = _of_redirect(stage, item, peak.station) if isinstance(item, Redirect) else strength(component)
        if strength_n is None:
            unknown += [component] if component.kind in _GEAR else []
            continue
        pull_n = stall_n * strength_n / peak.load_n
        known.append((component, pull_n))
        sure_n = min(sure_n, pull_n * _spread(item))
        if first is None or surpasses(first.pull_n, pull_n):
            first = Break(component, strength_n, pull_n, peak.station, (), inf, ())
    if first is None:
        return None
    rivals = tuple(c for c, pull_n in known if c is not first.component and not surpasses(pull_n, sure_n))
    return first._replace(unknown=tuple(unknown), sure_n=sure_n, rivals=rivals)


def line_pull_n(stage: StageSolution, station: int, case: Case = STALL) -> float | None:
    """What the winch pulls at a station in a case."""
    winch = stage.component("winch", "winch")
    return stage.stations[station].load(winch, case) if winch else None


def strength(component: Component) -> float | None:
    """The least breaking strength of a component as it is used; None where none is stated.

    Equation: S = BS h (a connector, h what its use leaves), S = BS e (a rope, e what its ends
        leave, where that is stated), S = BS k (a join, k what it keeps of the weaker piece)
    Units: N
    Source: factors of use and of joins as in `mechanics.capacity` and `mechanics.joins`
    """
    item = component.item
    if isinstance(item, Join):
        return _of_join(item)
    if isinstance(item, Connector):
        left, _ = share_of_use(item)
        # As it is used, where that is stated; else nobody knows what it holds.
        return _times(item.facts.breaking, left.low) if left.low == left.high else None
    if isinstance(item, Piece):
        if item.facts.ends is None:  # `working-load` asks for it
            return _low(item.facts.breaking)
        least, most = left_by_ends(item).share
        return _times(item.facts.breaking, least) if least == most else None
    return _low(item.facts.breaking) if isinstance(item, Point | BridleArm) else None


def flight(stage: StageSolution, component: Component, station: int, force: Vec) -> Flight | None:
    """Which way what hangs on the component flies when it lets go: along the force on it. None for rope,

    whose ends whip back both ways along the line, and where no one direction is known.
    """
    size = hypot(*force)
    at = _place(stage, component, station)
    if size <= 0.0 or at is None:
        return None
    way = (force[0] / size, force[1] / size, force[2] / size)
    toward, nearest = None, AHEAD
    for name, place in _standing(stage, station):
        gap = (place[0] - at[0], place[1] - at[1], place[2] - at[2])
        far = hypot(*gap)
        ahead = (way[0] * gap[0] + way[1] * gap[1] + way[2] * gap[2]) / far if far > 1e-6 else -1.0
        if ahead > nearest + 1e-12:
            toward, nearest = name, ahead
    return Flight(way, toward)


def _spread(item: object) -> float:
    """How much stronger than at the low end of what is stated of it a component may be, as a factor."""
    if isinstance(item, Redirect):
        stated = [seat.breaking for name in ("sheave", "groove", "bore") if (seat := item.facts.seat(name))]
        return max(map(_factor, stated), default=1.0)
    if isinstance(item, Join) and item.facts.breaking is None:
        pieces = max(_factor(piece.facts.breaking) for piece in (item.inner, item.outer))
        return pieces * _factor(item.facts.keeps)
    return _factor(item.facts.breaking) if isinstance(item, Join | Connector | Piece | Point | BridleArm) else 1.0


def _factor(span: Span | None) -> float:
    return span.high / span.low if span else 1.0


def _of_join(join: Join) -> float | None:
    own = _low(join.facts.breaking)
    if own is not None:
        return own
    pieces = [_low(piece.facts.breaking) for piece in (join.inner, join.outer)]
    known = [n for n in pieces if n is not None]
    share = _low(join.facts.keeps)
    if share is None:
        share = _usual_share(join)
    return min(known) * share if share is not None and len(known) == len(pieces) else None


def _usual_share(join: Join) -> float | None:
    facts, rope = join.facts, join.inner.facts.rope
    if rope is None:
        return None
    kind = "knot" if facts.kind in _KNOTS else "girth hitch" if "cow hitch" in facts.kind else facts.kind
    settled = facts.set == "parallel legs" and facts.twist == "none"
    family = _WIRE.get(rope, "hmpe" if rope == "hmpe" else "fibre")
    band = join_factor(kind, family, parallel_legs=settled, twisted=not settled)
    return band.low if band else None


def _of_redirect(stage: StageSolution, redirect: Redirect, station: int) -> float | None:
    """The least strength, as a resultant, of the seats that rope runs through; one for the line holds 2 cos(i/2) of it.

    None where none is stated, or not for which of the two.
    """
    found = [
        strength_n * (redirect_factor(turn.included_rad) if turn.turn.seat.rated_for == "line" else 1.0)
        for turn in stage.stations[station].turns
        if turn.turn.redirect == redirect.name and turn.turn.seat.rated_for
        and (strength_n := _low(turn.turn.seat.breaking)) is not None
    ]  # fmt: skip
    return min(found, default=None)


def _times(span: Span | None, factor: float) -> float | None:
    return span.low * factor if span else None


def _low(span: Span | None) -> float | None:
    return span.low if span and span.low < inf else None


def _standing(stage: StageSolution, station: int) -> Iterator[tuple[str, Vec]]:
    yield from sorted(stage.stations[station].places.items())
    yield from sorted((person.who, person.at) for person in stage.stage.people if person.at)


def _place(stage: StageSolution, component: Component, station: int) -> Vec | None:
    places = stage.stations[station].places
    if component.kind in ("point", "redirect", "winch"):
        return places.get(component.name)
    if component.kind == "turn" and isinstance(component.item, Turn):
        return places.get(component.item.redirect)
    return next((places.get(at) for at, chain in _chains(stage) if _holds(chain, component)), None)


def _chains(stage: StageSolution) -> Iterator[tuple[str, Chain]]:
    for redirect in stage.stage.redirects.values():
        if redirect.hanger:
            yield redirect.name, redirect.hanger
    for line in stage.stage.lines:
        for chain in filter(None, (line.first, line.dead_end)):
            end = chain.redirect or (chain.point or chain.arms[0].point).name
            yield end, chain


def _holds(chain: Chain, component: Component) -> bool:
    return component.item in chain.connectors or component.item in chain.arms
