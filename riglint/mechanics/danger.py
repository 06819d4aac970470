"""Where nobody should stand: plain geometry that a rule compares with a stand-off.

A point is a tuple of two or three coordinates in metres, all of one call alike. In three, the third is up.
"""

from math import atan2, hypot, inf, pi, sqrt
from typing import Final, NamedTuple

from riglint.mechanics._refuse import refuse
from riglint.mechanics.provenance import FM_4_30_31, FM_21_305, Figure

Point = tuple[float, ...]

# Both stand in one manual: the lower is the floor, the higher the strict setting.
STAND_OFF_FLOOR: Final = Figure(1.0, FM_4_30_31, "safety, one cable length", "read second hand")
STAND_OFF_STRICT: Final = Figure(2.0, FM_4_30_31, "safety, twice the payed-out length", "read second hand")
STAND_OFF_SPAN: Final = Figure(1.0, FM_21_305, "ch. 22, longest span of the rigging", "read second hand")


class Recoil(NamedTuple):
    """A place against a leg: how far beside its line, and how far past the nearer of its ends."""

    aside_m: float
    past_end_m: float
    distance_m: float
    off_line_rad: float


class Flight(NamedTuple):
    """A place against the way that a redirect would fly."""

    along_m: float
    aside_m: float
    off_line_rad: float


Solid = tuple[float, float, float]


def _solid(name: str, point: Point) -> Solid:
    """The point in three coordinates, checked; a level one lies at height 0."""
    if len(point) == 2:
        x, y = point
        z = 0.0
    elif len(point) == 3:
        x, y, z = point
    else:
        raise refuse(name, point, "two or three coordinates")
    if not (-inf < x < inf and -inf < y < inf and -inf < z < inf):
        raise refuse(name, point, "finite in every coordinate")
    return x, y, z


def _alike(*points: Point) -> None:
    if len({len(point) for point in points}) != 1:
        raise refuse("place and the rest", points, "all of two or all of three coordinates")


def _direction(name: str, start: Solid, end: Solid) -> tuple[float, float, float, float]:
    """Unit vector from start to end, and their distance."""
    x, y, z = end[0] - start[0], end[1] - start[1], end[2] - start[2]
    length_m = sqrt(x * x + y * y + z * z)
    if length_m < 1e-9:
        raise refuse(name, end, "apart from where it starts")
    return x / length_m, y / length_m, z / length_m, length_m


def _split(place: Solid, start: Solid, ux: float, uy: float, uz: float) -> tuple[float, float]:
    """How far along a direction a place lies from the start, and how far beside it."""
    x, y, z = place[0] - start[0], place[1] - start[1], place[2] - start[2]
    along = x * ux + y * uy + z * uz
    return along, hypot(x - along * ux, y - along * uy, z - along * uz)


def _to_segment(place: Solid, start: Solid, end: Solid) -> float:
    wx, wy, wz = end[0] - start[0], end[1] - start[1], end[2] - start[2]
    x, y, z = place[0] - start[0], place[1] - start[1], place[2] - start[2]
    square = wx * wx + wy * wy + wz * wz
    share = (x * wx + y * wy + z * wz) / square if square > 0.0 else 0.0
    share = min(1.0, max(0.0, share))
    x, y, z = x - share * wx, y - share * wy, z - share * wz
    return sqrt(x * x + y * y + z * z)


def distance_to_leg_m(place: Point, start: Point, end: Point) -> float:
    """Distance of a place from a straight leg.

    Equation: distance to the nearest point of the segment
    Units: points and distance [m]
    Range: finite points; start and end may coincide
    Source: derivation (geometry)
    Raises: ValueError for points that are not finite or not alike
    """
    _alike(place, start, end)
    return _to_segment(_solid("place", place), _solid("start", start), _solid("end", end))


def recoil(place: Point, start: Point, end: Point, reach_m: float) -> Recoil:
    """How a place lies to a leg that parts: a broken end lashes back along the line, and past both its ends.

    Equation: distance to the segment lengthened by the reach at both ends; `aside` is the distance from the
        endless line, `past_end` how far beyond the nearer end (0 beside the leg), `off_line` the angle at
        that end between the line and the place (0 beside the leg)
    Units: points, reach and distances [m], angle [rad]
    Range: finite points, start apart from end, reach >= 0
    Source: derivation (geometry); that the rope reaches almost its own length past the point it is made fast
        to: mooring safety alert SA 015, read
    Raises: ValueError outside the range
    """
    _alike(place, start, end)
    if not 0.0 <= reach_m < inf:
        raise refuse("reach_m", reach_m, "finite and not negative")
    where, begin = _solid("place", place), _solid("start", start)
    ux, uy, uz, length_m = _direction("end", begin, _solid("end", end))
    along_m, aside_m = _split(where, begin, ux, uy, uz)
    past_m = max(0.0, -along_m, along_m - length_m)
    beyond_m = max(0.0, past_m - reach_m)
    angle_rad = atan2(aside_m, past_m) if past_m > 1e-9 else 0.0
    return Recoil(aside_m, past_m, hypot(aside_m, beyond_m), angle_rad)


def in_recoil_cone(place: Point, start: Point, end: Point, reach_m: float, half_angle_rad: float) -> bool:
    """Whether a place lies in the cone that opens past either end of a leg.

    Equation: past the end, within the reach and within the half angle of the line
    Units: points and reach [m], half angle [rad]
    Range: finite points, start apart from end, reach >= 0, 0 <= half angle <= pi/2
    Source: derivation (geometry); the half angle is the caller's, no citable figure was found
    Raises: ValueError outside the range
    """
    if not 0.0 <= half_angle_rad <= pi / 2:
        raise refuse("half_angle_rad", half_angle_rad, "0 to pi/2")
    seen = recoil(place, start, end, reach_m)
    near_m = hypot(seen.aside_m, seen.past_end_m)
    return seen.past_end_m > 0.0 and near_m <= reach_m and seen.off_line_rad <= half_angle_rad


def _side(place: Solid, start: Solid, end: Solid) -> float:
    """Twice the area of the triangle, seen from above; the sign says on which side the place lies."""
    return (end[0] - start[0]) * (place[1] - start[1]) - (end[1] - start[1]) * (place[0] - start[0])


def in_wedge(place: Point, before: Point, seat: Point, after: Point) -> bool:
    """Whether a place lies within the angle that a turning line opens, however far out, seen from above.

    Equation: on the inner side of both legs, or on a leg
    Units: points [m]; height is left out
    Range: finite points
    Source: derivation (geometry); nobody in the bight: MGN 308 2.2, read second hand
    Raises: ValueError for points that are not finite or not alike
    """
    return _in_wedge(*_plan(place, before, seat, after))


def _plan(place: Point, before: Point, seat: Point, after: Point) -> tuple[Solid, Solid, Solid, Solid]:
    """The four points seen from above."""
    _alike(place, before, seat, after)
    a, b = _solid("place", place), _solid("before", before)
    c, d = _solid("seat", seat), _solid("after", after)
    return (a[0], a[1], 0.0), (b[0], b[1], 0.0), (c[0], c[1], 0.0), (d[0], d[1], 0.0)


def _in_wedge(place: Solid, before: Solid, seat: Solid, after: Solid) -> bool:
    turn = _side(after, before, seat)
    if turn == 0.0:
        return False
    return turn * _side(place, before, seat) >= 0.0 and turn * _side(place, seat, after) >= 0.0


def bight_depth_m(place: Point, before: Point, seat: Point, after: Point) -> float:
    """How deep a place lies inside the triangle of a turn, seen from above; outside, minus the distance.

    Equation: distance to the nearest side of the triangle before-seat-after, positive inside
    Units: points and depth [m]; height is left out, for people stand on the ground
    Range: finite points. Legs in one line open no triangle: never positive
    Source: derivation (geometry); nobody in the bight: MGN 308 2.2, read second hand
    Raises: ValueError for points that are not finite or not alike
    """
    at, one, turn, other = _plan(place, before, seat, after)
    inside = _in_wedge(at, one, turn, other) and _side(other, one, turn) * _side(at, other, one) >= 0.0
    near_m = min(_to_segment(at, one, turn), _to_segment(at, turn, other), _to_segment(at, other, one))
    return near_m if inside else -near_m


def flight(place: Point, seat: Point, before: Point, after: Point, *, before_n: float, after_n: float) -> Flight | None:
    """How a place lies to the way a redirect flies if what holds it fails; None where nothing drives it.

    Equation: direction = (T1 u1 + T2 u2) / |T1 u1 + T2 u2|, u from the seat along each leg
    Units: points [m]; T1, T2 tensions towards `before` and `after` [N]; distances [m], angle [rad]
    Range: finite points, legs with a length, tensions >= 0. `along` is negative behind the redirect
    Source: derivation (statics); a flung block: FM 4-30.31 safety, read second hand
    Raises: ValueError outside the range
    """
    _alike(place, seat, before, after)
    if not 0.0 <= before_n < inf:
        raise refuse("before_n", before_n, "finite and not negative")
    if not 0.0 <= after_n < inf:
        raise refuse("after_n", after_n, "finite and not negative")
    where, start = _solid("place", place), _solid("seat", seat)
    ax, ay, az, _ = _direction("before", start, _solid("before", before))
    bx, by, bz, _ = _direction("after", start, _solid("after", after))
    x, y, z = before_n * ax + after_n * bx, before_n * ay + after_n * by, before_n * az + after_n * bz
    size_n = sqrt(x * x + y * y + z * z)
    if size_n <= 1e-9 * (before_n + after_n):
        return None
    along_m, aside_m = _split(where, start, x / size_n, y / size_n, z / size_n)
    return Flight(along_m, aside_m, atan2(aside_m, along_m))


def stand_off_m(length_m: float, multiple_factor: float) -> float:
    """How far off to stand from a line of this length.

    Equation: s = k L
    Units: L length payed out, or the longest span of the rigging [m], k multiple (1 floor, 2 strict)
    Range: L >= 0, k >= 1: nothing below the floor of the sources
    Source: FM 4-30.31 safety (1 and 2), FM 21-305 ch. 22 (1), read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 <= length_m < inf:
        raise refuse("length_m", length_m, "finite and not negative")
    if not 1.0 <= multiple_factor < inf:
        raise refuse("multiple_factor", multiple_factor, "finite and at least 1")
    return length_m * multiple_factor
