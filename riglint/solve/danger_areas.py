"""Danger areas of a stage as plain shapes, for the rules on people and for pictures. Worked out only when asked for.

Three kinds: the corridor along a leg and past both its ends; the inside of a turn; the way that a redirect, or what
holds a line's end, flies when it fails. A reach is given for one length of the leg or the rig; the manuals say one
length and two in one chapter (`danger.STAND_OFF_FLOOR`, `danger.STAND_OFF_STRICT`), and rules use both.
"""

from collections.abc import Iterator
from itertools import combinations, pairwise
from math import ceil, dist, hypot
from typing import NamedTuple

from riglint.mechanics.vectors import ZERO, Vec, add, scale, sub, unit
from riglint.rig.model import Body, Chain, RigStage
from riglint.solve.solution import Leg, StageSolution, Station

STEP_M = 1.8  # places between stations lie no farther apart than this: less than a corridor is wide
LEAST_WRAP_RAD = 0.02  # a turn flatter than this opens no inside and throws nothing


class Corridor(NamedTuple):
    """A leg. A broken end lashes along it and past both ends, by `reach_m` for one length."""

    line: str
    begins: str
    ends: str
    start: Vec
    end: Vec
    reach_m: float
    slack: bool  # no tension in any case
    damped: bool


class Bight(NamedTuple):
    """The inside of a turn; `reach_m` is how far out its angle counts."""

    redirect: str
    before: Vec
    seat: Vec
    beyond: Vec
    reach_m: float
    slack: bool


class Flight(NamedTuple):
    """Where what stands at `start` flies along `way` when it, or what holds it, fails."""

    thing: str
    start: Vec
    way: Vec
    reach_m: float
    slack: bool
    damped: bool  # on every leg that drives it


class DangerAreas(NamedTuple):
    """All of them at one place of the travel; `station` is the one there or the one before."""

    station: int
    travel_m: float
    corridors: tuple[Corridor, ...]
    bights: tuple[Bight, ...]
    flights: tuple[Flight, ...]


def danger_areas(solution: StageSolution) -> tuple[DangerAreas, ...]:
    """The areas along the travel: at each station and, where legs move far, at places between."""
    maker = _Maker(solution)
    return tuple(maker.at(station, travel_m, legs) for station, travel_m, legs in _moments(solution.stations))


def span_m(solution: StageSolution) -> float:
    """The distance between the two most distant places that the rope reaches, as the travel begins and as it ends.

    Source: geometry; what FM 21-305 ch. 22 has people stand off by
    """
    first_and_last = (*solution.stations[:1], *solution.stations[-1:])
    ends = {place for s in first_and_last for leg in s.legs for place in (leg.start, leg.end)}
    return max((dist(a, b) for a, b in combinations(ends, 2)), default=0.0)


def areas_at(solution: StageSolution, station: Station) -> DangerAreas:
    """The areas at one station."""
    return _Maker(solution).at(station, station.travel_m, station.legs)


def body_of(stage: RigStage, node: str) -> Body | None:
    """The body that what stands at a leg's end is made fast to; None for what floats between lines."""
    if node == "winch":
        return stage.winch.mount.body
    if node in stage.points:
        return stage.points[node].body
    redirect = stage.redirects.get(node)
    chain = redirect.hanger if redirect else _bridle(stage, node)
    if chain is None or chain.redirect:
        return body_of(stage, chain.redirect) if chain and chain.redirect else None
    return chain.point.body if chain.point else chain.arms[0].point.body


def pointer_of(stage: RigStage, node: str) -> str:
    """Where in the plan that stands which a leg ends at."""
    things = (stage.redirects, stage.points, stage.connectors)
    return next((own[node].pointer for own in things if node in own), stage.winch.pointer)


def _bridle(stage: RigStage, hub: str) -> Chain | None:
    chains = [c for line in stage.lines for c in (line.first, line.dead_end) if c]
    chains += [r.hanger for r in stage.redirects.values() if r.hanger]
    return next((c for c in chains if c.arms and c.connectors[-1].name == hub), None)


def _moments(stations: tuple[Station, ...]) -> Iterator[tuple[Station, float, tuple[Leg, ...]]]:
    """Stations, without those where nothing has moved by much, and legs between them where they move far."""
    if not stations:
        return
    last = stations[0]
    yield last, last.travel_m, last.legs
    for station in stations[1:]:
        moved = _moved(last.legs, station.legs)
        if moved < 0.25 * STEP_M and station is not stations[-1]:
            continue
        steps = ceil(moved / STEP_M)
        for k in range(1, steps):
            share = k / steps
            travel_m = last.travel_m + share * (station.travel_m - last.travel_m)
            yield last, travel_m, _between(last.legs, station.legs, share)
        yield station, station.travel_m, station.legs
        last = station


def _moved(one: tuple[Leg, ...], other: tuple[Leg, ...]) -> float:
    """How far a leg has swept sideways at most, seen from above; drawn in along itself it sweeps nothing."""
    most = 0.0
    for a, b in zip(one, other, strict=True):
        x, y = b.end[0] - b.start[0], b.end[1] - b.start[1]
        size = hypot(x, y) or 1.0
        for before, after in ((a.start, b.start), (a.end, b.end)):
            most = max(most, abs((after[0] - before[0]) * y - (after[1] - before[1]) * x) / size)
    return most


def _between(one: tuple[Leg, ...], other: tuple[Leg, ...], share: float) -> tuple[Leg, ...]:
    """Legs between two stations, with the tensions of the first."""
    out = []
    for a, b in zip(one, other, strict=True):
        start = add(a.start, scale(sub(b.start, a.start), share))
        end = add(a.end, scale(sub(b.end, a.end), share))
        out.append(a._replace(start=start, end=end, length_m=dist(start, end)))
    return tuple(out)


class _Maker:
    """Makes the areas of one stage."""

    def __init__(self, solution: StageSolution) -> None:
        self.dampers = {(d.line, frozenset(d.between)) for d in solution.stage.dampers or ()}
        self.redirects = {line.name: [turn.redirect for turn in line.turns] for line in solution.stage.lines}
        self.span_m = span_m(solution)

    def at(self, station: Station, travel_m: float, legs: tuple[Leg, ...]) -> DangerAreas:
        corridors = tuple(self._corridor(leg) for leg in legs)
        bights: list[Bight] = []
        flights: list[Flight] = []
        for before, beyond in pairwise(corridors):
            if before.line != beyond.line:
                flights += self._ends(before, beyond)
                continue
            self._turn(before, beyond, bights, flights)
        if corridors:
            flights += self._ends(corridors[-1], corridors[0])
        return DangerAreas(station.index, travel_m, corridors, tuple(bights), tuple(flights))

    def _corridor(self, leg: Leg) -> Corridor:
        begins, ends = self._name(leg, leg.index, leg.begins), self._name(leg, leg.index + 1, leg.ends)
        damped = (leg.line, frozenset((begins, ends))) in self.dampers
        return Corridor(leg.line, begins, ends, leg.start, leg.end, leg.length_m, _slack(leg), damped)

    def _name(self, leg: Leg, place: int, node: str) -> str:
        """A redirect that hangs without any length stands at its point, and goes by its own name all the same."""
        turns = self.redirects[leg.line]
        return turns[place - 1] if 1 <= place <= len(turns) else node

    def _turn(self, before: Corridor, beyond: Corridor, bights: list[Bight], flights: list[Flight]) -> None:
        """Rope all of one tension drives a freed redirect along the middle of the angle."""
        force = add(unit(sub(before.start, before.end)), unit(sub(beyond.end, beyond.start)))
        if force[0] ** 2 + force[1] ** 2 + force[2] ** 2 < LEAST_WRAP_RAD**2:
            return
        slack, damped = before.slack and beyond.slack, before.damped and beyond.damped
        bights.append(Bight(before.ends, before.start, before.end, beyond.end, self.span_m, slack))
        flights.append(Flight(before.ends, before.end, force, self.span_m, slack, damped))

    def _ends(self, last: Corridor, first: Corridor) -> Iterator[Flight]:
        """What holds a line's dead end, and the first end of the next line, flies along its own leg."""
        for leg, thing, start, way in (
            (last, last.ends, last.end, sub(last.start, last.end)),
            (first, first.begins, first.start, sub(first.end, first.start)),
        ):
            if way != ZERO:
                yield Flight(thing, start, way, leg.reach_m, leg.slack, leg.damped)


def _slack(leg: Leg) -> bool:
    return bool(leg.tension) and max(leg.tension.values()) == 0.0
