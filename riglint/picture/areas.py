"""The danger areas seen from above, as outlines on the sheet. The solution tells where they lie."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, cos, hypot, pi, radians, sin
from typing import Final, NamedTuple

from riglint.mechanics.vectors import Vec, sub
from riglint.outcome import Inspection
from riglint.picture.svg import Xy, way
from riglint.picture.view import View
from riglint.solve.danger_areas import DangerAreas

CLEARANCE_M: Final = 1.8288  # beside a leg, 6 ft: as the standard rulebook has it
HALF_ANGLE_RAD: Final = radians(15.0)
_FLAT: Final = 1e-6


class Widths(NamedTuple):
    """How wide the areas are drawn, by the limits in force."""

    clearance_m: float = CLEARANCE_M
    half_angle_rad: float = HALF_ANGLE_RAD


def widths(inspection: Inspection | None) -> Widths:
    """The standard ones, or what a rulebook or a house set instead."""
    changed = {c.limit: c.value.si for c in inspection.changed if c.rule == "people-clear"} if inspection else {}
    return Widths(changed.get("clearance", CLEARANCE_M), changed.get("half_angle", HALF_ANGLE_RAD))


def outlines(areas: DangerAreas, view: View, wide: Widths) -> str:
    """All areas within one length, as one path to fill: all run the same way round, so that none cuts another."""
    shapes = [shape for shape in _shapes(areas, view, wide) if len(shape) > 2]
    return "".join(dict.fromkeys(way(_one_way(shape), closed=True) for shape in shapes))


def _shapes(areas: DangerAreas, view: View, wide: Widths) -> Iterator[list[Xy]]:
    for leg in areas.corridors:
        start, end = view.at(leg.start), view.at(leg.end)
        yield _capsule(start, end, wide.clearance_m * view.scale)
        yield _cone(view, leg.end, sub(leg.end, leg.start), leg.reach_m, wide)
        yield _cone(view, leg.start, sub(leg.start, leg.end), leg.reach_m, wide)
    for flight in areas.flights:
        yield _cone(view, flight.start, flight.way, flight.reach_m, wide)
    for bight in areas.bights:
        yield _angle(view.at(bight.before), view.at(bight.seat), view.at(bight.beyond), bight.reach_m * view.scale)


def _capsule(start: Xy, end: Xy, radius: float) -> list[Xy]:
    angle = atan2(end[1] - start[1], end[0] - start[0])
    return _arc(end, radius, angle - pi / 2, angle + pi / 2) + _arc(start, radius, angle + pi / 2, angle + 3 * pi / 2)


def _cone(view: View, tip: Vec, direction: Vec, reach_m: float, wide: Widths) -> list[Xy]:
    right, down = view.way((direction[0], direction[1], 0.0))
    if hypot(right, down) < _FLAT:
        return []
    angle, at = atan2(down, right), view.at(tip)
    return [at, *_arc(at, reach_m * view.scale, angle - wide.half_angle_rad, angle + wide.half_angle_rad)]


def _angle(before: Xy, seat: Xy, beyond: Xy, reach: float) -> list[Xy]:
    """The inside of a turn: its triangle and its angle, out to the reach."""
    one = atan2(before[1] - seat[1], before[0] - seat[0])
    turn = (atan2(beyond[1] - seat[1], beyond[0] - seat[0]) - one + pi) % (2 * pi) - pi
    near, far = _away(seat, before), _away(seat, beyond)
    if abs(turn) < _FLAT or near < _FLAT or far < _FLAT:
        return []
    return [seat, before, *_arc(seat, reach, one, one + turn), beyond]


def _away(a: Xy, b: Xy) -> float:
    return hypot(b[0] - a[0], b[1] - a[1])


def _arc(middle: Xy, radius: float, start: float, end: float) -> list[Xy]:
    steps = max(2, round(abs(end - start) / 0.26))
    turns = [start + (end - start) * k / steps for k in range(steps + 1)]
    return [(middle[0] + radius * cos(a), middle[1] + radius * sin(a)) for a in turns]


def _one_way(shape: list[Xy]) -> list[Xy]:
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(shape, [*shape[1:], shape[0]], strict=True))
    return shape if area >= 0.0 else shape[::-1]
