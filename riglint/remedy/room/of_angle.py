"""The included angle at a redirect: how far it can open or close before the verdict changes.

What is changed is the anchor: the point that stays and that the redirect hangs from is moved on the level along the
line that halves the angle, outward from the rope, which closes the angle, or inward, which opens it. All else stays
where it is, so that the lengths that the line needs change with it, as they would on the ground. The angle is that
between the two legs at the start of the pull, as the rig then stands; of several passages of rope, the widest.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot, radians
from typing import Final, NamedTuple

from riglint.mechanics.vectors import Vec, add, along, dot, scale, sub, unit
from riglint.remedy.patch import Operation, replace, value_at
from riglint.remedy.quantity import exact_place
from riglint.remedy.room.model import Anchor, Headroom, Side, told, untold
from riglint.remedy.room.search import searched
from riglint.remedy.ways.anchors import origins
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Point, Turn
from riglint.solve.pulls import off_direction_rad
from riglint.solve.solution import Solution, StageSolution, TurnFigures

_STEPS: Final = tuple(map(radians, (2.0, 5.0, 10.0, 15.0, 22.0, 30.0, 45.0, 60.0, 80.0, 110.0, 150.0)))
_WIDEST: Final = radians(170.0)
_TIGHTEST: Final = radians(2.0)
_FARTHEST_M: Final = 200.0
_HALVINGS: Final = 50


class _Place(NamedTuple):
    """A redirect that hangs from a point that stays, and the way that this is moved."""

    stage: int
    turn: Turn
    point: Point
    seat: Vec  # where the redirect stands, and its neighbours, seen from above
    before: Vec
    beyond: Vec
    outward: Vec
    now: float

    def angle(self, by_m: float) -> float:
        """What the angle would be with the redirect so far outward, its neighbours where they are."""
        return _between(along(self.seat, self.outward, by_m), self.before, self.beyond)

    def by(self, angle_rad: float) -> float:
        """How far outward for an angle: it closes steadily from the line between the neighbours on."""
        low, high = -dot(sub(self.seat, self.before), self.outward), _FARTHEST_M
        low = min(0.0, max(low, -dot(sub(self.seat, self.beyond), self.outward)))
        for _ in range(_HALVINGS):
            middle = (low + high) / 2.0
            low, high = (middle, high) if self.angle(middle) > angle_rad else (low, middle)
        return low


def angles(shop: Workshop) -> Iterator[Headroom]:
    """Each redirect that hangs from a point that stays, opened and closed, in the first stage that it is used in."""
    known: set[str] = set()
    for stage in shop.solution.stages:
        turns = stage.stations[0].turns if stage.stations else ()
        widest = {figures.turn.redirect: figures for figures in sorted(turns, key=lambda f: f.included_rad)}
        for name in dict.fromkeys(figures.turn.redirect for figures in turns):
            point = _anchor(stage, widest[name].turn)
            if point and name not in known:
                known.add(name)
                yield from _both(shop, stage, widest[name], point)


def _anchor(stage: StageSolution, turn: Turn) -> Point | None:
    hanger = stage.stage.redirects[turn.redirect].hanger
    point = hanger.point if hanger else None
    return None if point is None or point.body.moves else point


def _both(shop: Workshop, stage: StageSolution, figures: TurnFigures, point: Point) -> Iterator[Headroom]:
    place = _placed(stage, figures, point)
    why = _why_not(shop, place, point)
    if place is None or why:
        yield untold("angle", figures.turn.redirect, "rad", why)
        return
    for side in ("wider", "tighter"):
        grid = [by for by in _grid(side) if _TIGHTEST <= place.angle(0.0) + by <= _WIDEST]
        if grid:  # what is all but closed closes no further
            yield _side(shop, place, side, grid)


def _grid(side: Side) -> Iterator[float]:
    return (by if side == "wider" else -by for by in _STEPS)


def _why_not(shop: Workshop, place: _Place | None, point: Point) -> str:
    if place is None:
        return "the rope runs straight through it"
    if point.body.name != "ground" or not point.pointer.startswith("/points/"):
        return f"{point.name}, which it hangs from, can't be moved by itself"
    measured = list(origins(shop.data)).count(point.name)
    return f"other places are measured from {point.name}" if measured > len(_measured_from(shop, point)) else ""


def _measured_from(shop: Workshop, point: Point) -> list[Point]:
    """Points that the plan measures from this one: they are to stay where they are."""
    points = {one.pointer: one for stage in reversed(shop.rig.stages) for one in stage.points.values()}
    return [one for one in points.values() if point.name in origins(value_at(shop.data, f"{one.pointer}/at"))]


def _placed(stage: StageSolution, figures: TurnFigures, point: Point) -> _Place | None:
    """Seen from above. None where the legs have no angle there."""
    legs = [leg for leg in stage.stations[0].legs if leg.line == figures.line]
    near, far = legs[figures.index], legs[figures.index + 1]
    seat, before, beyond = (_level(at) for at in (near.end, near.start, far.end))
    halving = add(unit(sub(before, seat)), unit(sub(beyond, seat)))
    if hypot(*halving) < 1e-3 or figures.included_rad > _WIDEST:
        return None
    outward = unit(scale(halving, -1.0))
    return _Place(stage.stage.index, figures.turn, point, seat, before, beyond, outward, figures.included_rad)


def _level(at: Vec) -> Vec:
    return (at[0], at[1], 0.0)


def _between(seat: Vec, before: Vec, beyond: Vec) -> float:
    return off_direction_rad(unit(sub(before, seat)), unit(sub(beyond, seat)))


def _side(shop: Workshop, place: _Place, side: Side, grid: list[float]) -> Headroom:
    own = place.angle(0.0)
    stay = tuple(replace(f"{one.pointer}/at", exact_place(one.at)) for one in _measured_from(shop, place.point))

    def changes(by: float) -> tuple[Operation, ...]:
        moved = along(place.point.at, place.outward, place.by(own + by))
        return (replace(f"{place.point.pointer}/at", exact_place(moved)), *stay)

    def stands(by: float) -> float:
        trial = shop.try_(changes(by)) if by else None
        return _included(trial.solution if trial else shop.solution, place)

    found = searched(shop, changes, 0.0, grid)
    one = told(shop, ("angle", place.turn.redirect, "rad"), place.now, stands, found)._replace(side=side)
    if one.why_not:
        return one
    by = found.looked_to if one.change is None else one.change
    change = None if one.at is None else one.at - place.now
    return one._replace(change=change, anchor=Anchor(place.point.name, place.by(own + by)))


def _included(solution: Solution, place: _Place) -> float:
    turns = solution.stages[place.stage].stations[0].turns
    return next(figures.included_rad for figures in turns if figures.turn.pointer == place.turn.pointer)
