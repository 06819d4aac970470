"""What is to be drawn of a stage at one place of its travel, in the plan's own coordinates: no ink yet."""

from __future__ import annotations

from math import inf, isfinite
from typing import Final, Literal, NamedTuple

from riglint.mechanics.vectors import ZERO, Vec, add, along, distance, heading, norm, scale, sub, unit
from riglint.picture.uses import Uses
from riglint.rig.model import Body, Chain, Join, Line, Point, Redirect, RigStage
from riglint.rig.places import plan_angle
from riglint.solve.danger_areas import body_of
from riglint.solve.solution import Case, Leg, StageSolution, Station

SKETCH_LENGTH_M: Final = 4.5
SKETCH_WIDTH_M: Final = 2.0
_SPARE_M: Final = 0.3  # of a sketched body beyond its outermost points
_FACING: Final = 0.3  # pulls that sum to less face both ways
_HERE_M: Final = 1e-6
_CASES: Final[tuple[Case, ...]] = ("expected", "stall", "holding")
_STEADY: Final = {"expected": "holding", "holding": "expected"}  # rules judge the greater of the two, by one limit


class RopeLeg(NamedTuple):
    """One leg: its number in reeving order, and how far its rope is used there."""

    number: str
    leg: Leg
    use: float | None
    untold: bool


class Shape(NamedTuple):
    """A body seen from above. `known`: as the plan gives it, its size alone, or a sketch."""

    body: Body
    corners: tuple[Vec, Vec, Vec, Vec]
    top_m: float | None  # height over the ground
    known: Literal["outline", "size", "sketch"]


class Strap(NamedTuple):
    """Connectors in a row, from the gear to what holds it."""

    start: Vec
    end: Vec
    names: tuple[str, ...]


class Knot(NamedTuple):
    """A join: on which leg (its place among the station's legs), and how far along it; None if not on a leg."""

    join: Join
    key: tuple[str, str]
    leg: int | None
    share: float
    on_drum: bool


class Pull(NamedTuple):
    """The load on a point: which way it pulls, and how hard (the greatest case known)."""

    point: Point
    at: Vec
    way: Vec
    load_n: float


class Scene(NamedTuple):
    """Everything there is to draw."""

    solution: StageSolution
    station: Station
    legs: tuple[RopeLeg, ...]
    shapes: tuple[Shape, ...]
    ghost: tuple[Vec, ...]  # the load's outline where it ends
    straps: tuple[Strap, ...]
    knots: tuple[Knot, ...]
    pulls: tuple[Pull, ...]
    uses: Uses

    @property
    def stage(self) -> RigStage:
        """The stage as planned."""
        return self.solution.stage

    @property
    def to_go_m(self) -> float:
        """Travel from here to the end."""
        return max(0.0, self.stage.travel.high - self.station.travel_m)


def scene(solution: StageSolution, station: Station, uses: Uses, north_rad: float | None) -> Scene:
    """Gather what is to be drawn."""
    stage = solution.stage
    shapes = tuple(s for b in stage.bodies.values() if (s := _shape(stage, station, b, north_rad)))
    left = max(0.0, stage.travel.high - station.travel_m)
    ghost = next((s.corners for s in shapes if s.body.moves and left > _HERE_M), ())
    return Scene(
        solution, station, _legs(solution, station, uses), shapes,
        tuple(along(c, stage.direction, left) for c in ghost), tuple(_straps(stage, station)),
        tuple(_knots(solution, station)), tuple(_pulls(solution, station)), uses,
    )  # fmt: skip


# Legs


def _legs(solution: StageSolution, station: Station, uses: Uses) -> tuple[RopeLeg, ...]:
    names = [line.name for line in solution.stage.lines]
    letters = {name: chr(ord("A") + i) if len(names) > 1 else "" for i, name in enumerate(names)}
    out = []
    for leg in station.legs:
        worst, untold = _rope_use(solution, station, leg, uses)
        out.append(RopeLeg(f"{letters.get(leg.line, '')}{leg.index + 1}", leg, worst, untold))
    return tuple(out)


def _rope_use(solution: StageSolution, station: Station, leg: Leg, uses: Uses) -> tuple[float | None, bool]:
    """The leg's own tension over what its weakest rope may carry, as the rules found that."""
    if not uses.inspected:
        return None, False
    line = solution.line(leg.line)
    low, high = _reach(line, station, leg)
    ropes = [("piece", p.name) for p in line.pieces if p.start_m <= high and p.end_m >= low]
    ropes += [("join", j.name) for j in line.joins if j.from_dead_end.low <= high and j.from_dead_end.high >= low]
    worst, untold = None, False
    for kind, name in ropes:
        key = (kind, f"{line.name}/{name}" if solution.stage.others else name)
        untold = untold or key in uses.untold
        for case, tension_n in leg.tension.items():
            limit = uses.limits.get((*key, case)) or uses.limits.get((*key, _STEADY.get(case, "")))
            if limit and isfinite(tension_n):
                worst = max(worst or 0.0, tension_n / limit)
    return worst, untold or worst is None


def _reach(line: Line, station: Station, leg: Leg) -> tuple[float, float]:
    """From where to where along the rope the leg lies, measured from the dead end."""
    beyond = sum(other.length_m for other in station.legs if other.line == leg.line and other.index > leg.index)
    low = beyond - line.dead_end.length_m
    return low, low + leg.length_m


def _knots(solution: StageSolution, station: Station) -> list[Knot]:
    out = []
    for line in solution.stage.lines:
        own = [(i, leg, _reach(line, station, leg)) for i, leg in enumerate(station.legs) if leg.line == line.name]
        longest = max((high for _, _, (_, high) in own), default=0.0)
        for join in line.joins:
            name = f"{line.name}/{join.name}" if solution.stage.others else join.name
            at = join.from_dead_end.mid if join.from_dead_end.high < inf else inf
            on = ((i, (high - at) / (high - low)) for i, _, (low, high) in own if low <= at <= high and high > low)
            leg, share = next(on, (None, 0.0))
            on_drum = leg is None and longest < at < inf and line.first is None
            out.append(Knot(join, ("join", name), leg, share, on_drum))
    return out


# Bodies


def _shape(stage: RigStage, station: Station, body: Body, north_rad: float | None) -> Shape | None:
    own = [station.places.get(p.name, p.at) for p in stage.points.values() if p.body.name == body.name]
    outline = body.facts.outline
    if body.name == "ground" or (not own and body.middle is None):
        return None
    front = _facing(stage, station, body)
    if outline is None:
        middle, length, width = _about(own, front, SKETCH_LENGTH_M, SKETCH_WIDTH_M)
        return Shape(body, _rectangle(middle, front, length, width), None, "sketch")
    length, width = outline.length.high, outline.width.high
    top_m = outline.height.high if outline.height else None
    if body.middle is None:
        middle, length, width = _about(own, front, length, width)
        return Shape(body, _rectangle(middle, front, length, width), top_m, "size")
    if outline.heading:
        front = heading(plan_angle(outline.heading.low, north_rad))
    middle = along(body.middle, stage.direction, station.travel_m if body.moves else 0.0)
    return Shape(body, _rectangle(middle, front, length, width), top_m, "outline" if outline.heading else "size")


def _facing(stage: RigStage, station: Station, body: Body) -> Vec:
    """Which way the line pulls on a body, seen from above; along the travel if it does not, or both ways."""
    total = ZERO
    for leg in station.legs:
        way = unit(sub(leg.end, leg.start))
        for node, sign in ((leg.begins, 1.0), (leg.ends, -1.0)):
            held = body_of(stage, node)
            if held is not None and held.name == body.name:
                total = add(total, scale(way, sign))
    level = (total[0], total[1], 0.0)
    if norm(level) < _FACING:
        level = (stage.direction[0], stage.direction[1], 0.0)
    return unit(level) if norm(level) > 0.0 else (1.0, 0.0, 0.0)


def _about(own: list[Vec], front: Vec, length: float, width: float) -> tuple[Vec, float, float]:
    """The middle and size of a body whose foremost points lie on its front edge."""
    left = (-front[1], front[0], 0.0)
    ahead = [p[0] * front[0] + p[1] * front[1] for p in own]
    aside = [p[0] * left[0] + p[1] * left[1] for p in own]
    length = max(length, max(ahead) - min(ahead) + _SPARE_M)
    width = max(width, max(aside) - min(aside) + _SPARE_M)
    a, b = max(ahead) - length / 2, 0.5 * (max(aside) + min(aside))
    return (a * front[0] + b * left[0], a * front[1] + b * left[1], min(p[2] for p in own)), length, width


def _rectangle(middle: Vec, front: Vec, length: float, width: float) -> tuple[Vec, Vec, Vec, Vec]:
    """Front left, front right, rear right, rear left."""
    left = (-front[1], front[0], 0.0)
    ahead, aside = scale(front, length / 2), scale(left, width / 2)
    nose, tail = add(middle, ahead), sub(middle, ahead)
    return add(nose, aside), sub(nose, aside), sub(tail, aside), add(tail, aside)


# What holds what


def hub_of(station: Station, chain: Chain, own: str) -> Vec | None:
    """Where a bridle's middle stands."""
    return station.places.get(chain.connectors[-1].name) or station.places.get(own)


def _straps(stage: RigStage, station: Station) -> list[Strap]:
    out = []
    for name, redirect in stage.redirects.items():
        if redirect.hanger and name in station.places:
            out += _chain(station, redirect.hanger, name, station.places[name], None)
    for line in stage.lines:
        own = [leg for leg in station.legs if leg.line == line.name]
        if own:
            out += _chain(station, line.dead_end, own[-1].ends, own[-1].end, own[-1].start)
        if own and line.first:
            out += _chain(station, line.first, own[0].begins, own[0].start, own[0].end)
    return out


def _chain(station: Station, chain: Chain, own: str, start: Vec, far: Vec | None) -> list[Strap]:
    """A redirect's hanger, or with `far`, the leg's other end, the last stretch of a line's own end."""
    names = tuple(c.name for c in chain.connectors)
    hub = hub_of(station, chain, own) if chain.arms else None
    out = [Strap(hub, station.places.get(a.point.name, a.point.at), names[-1:]) for a in chain.arms if hub]
    if far is not None:
        size = distance(start, far)
        begins = along(start, unit(sub(far, start)), min(chain.length_m, size))
        return [*out, Strap(begins, start, names)] if chain.length_m > 0.0 else out
    held = hub or station.places.get(chain.point.name if chain.point else chain.redirect or "")
    return [*out, Strap(start, held, names)] if held else out


def _pulls(solution: StageSolution, station: Station) -> list[Pull]:
    stage = solution.stage
    held = _held(stage, station)
    out = []
    for component in solution.components:
        if component.kind != "point" or not isinstance(component.item, Point):
            continue
        loads = [n for case in _CASES if (n := station.load(component, case)) is not None and isfinite(n)]
        at = station.places.get(component.name, component.item.at)
        ways = {w for other in held.get(component.name, ()) if (w := unit(sub(other, at))) != ZERO}
        way = ways.pop() if len(ways) == 1 else _peak_way(solution, component.name)
        if loads and max(loads) > 0.0 and way != ZERO:
            out.append(Pull(component.item, at, way, max(loads)))
    return out


def _held(stage: RigStage, station: Station) -> dict[str, list[Vec]]:
    """For each point, the places of what is made fast to it."""
    out: dict[str, list[Vec]] = {}
    for name, redirect in stage.redirects.items():
        if name in station.places:
            _note_held(out, redirect, station)
    for leg in station.legs:
        for node, far in ((leg.begins, leg.end), (leg.ends, leg.start)):
            out.setdefault(stage.winch.mount.name if node == "winch" else node, []).append(far)
    for line in stage.lines:
        for chain in (line.first, line.dead_end):
            if chain and chain.arms and (hub := hub_of(station, chain, "")):
                for arm in chain.arms:
                    out.setdefault(arm.point.name, []).append(hub)
    return out


def _note_held(out: dict[str, list[Vec]], redirect: Redirect, station: Station) -> None:
    chain, at = redirect.hanger, station.places[redirect.name]
    if chain is None:
        return
    if chain.point:
        out.setdefault(chain.point.name, []).append(at)
    for arm in chain.arms:
        out.setdefault(arm.point.name, []).append(hub_of(station, chain, redirect.name) or at)


def _peak_way(solution: StageSolution, name: str) -> Vec:
    for case in _CASES:
        peak = solution.peaks[case].get(("point", name))
        if peak is not None and all(map(isfinite, peak.force)) and norm(peak.force) > 0.0:
            return unit(peak.force)
    return ZERO
