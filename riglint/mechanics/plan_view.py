"""A person's place against legs and turns, seen from above: people stand on the ground, whatever the line's height.

Quick forms for many places and legs; `danger` has them in three dimensions. Only x and y of a place count.
"""

from math import cos, hypot, inf, isfinite, pi
from typing import Literal

from riglint.mechanics._refuse import refuse
from riglint.mechanics.vectors import Vec

_ON_LINE = 1e-12  # twice an area, over the square of the sides: below this three places lie in one line


def _checked(**places: Vec) -> None:
    for name, place in places.items():
        if not (isfinite(place[0]) and isfinite(place[1])):
            raise refuse(name, place, "finite in x and y")


def plan_distance_m(place: Vec, start: Vec, end: Vec) -> float:
    """How far a place lies from a straight leg, seen from above.

    Equation: distance to the nearest point of the segment
    Units: places and distance [m]; height is left out, so that it never makes a place seem farther off
    Range: finite places; start and end may coincide
    Source: derivation (geometry)
    Raises: ValueError for a place that is not finite
    """
    way_x, way_y = end[0] - start[0], end[1] - start[1]
    x, y = place[0] - start[0], place[1] - start[1]
    square = way_x * way_x + way_y * way_y
    share = min(1.0, max(0.0, (x * way_x + y * way_y) / square)) if square > 0.0 else 0.0
    found = hypot(x - share * way_x, y - share * way_y)
    if not found < inf:
        _checked(place=place, start=start, end=end)
    return found


def cone_reach_m(place: Vec, tip: Vec, way: Vec, half_angle_rad: float) -> float:
    """How far a cone must reach from its tip to cover a place, seen from above; infinite if it lies beside the cone.

    Equation: r = |p - t| if (p - t) . u > |p - t| cos(a), else infinite; 0 at the tip
    Units: places [m], `way` the cone's axis, of any length; a half angle [rad]
    Range: finite places, 0 < a <= pi/2; a place on the cone's edge lies beside it. An axis straight up or down
        sweeps no ground: infinite
    Source: derivation (geometry)
    Raises: ValueError outside the range
    """
    if not 0.0 < half_angle_rad <= pi / 2:
        raise refuse("half_angle_rad", half_angle_rad, "above 0 and at most pi/2")
    x, y = place[0] - tip[0], place[1] - tip[1]
    away, size = hypot(x, y), hypot(way[0], way[1])
    if not away < inf or not size < inf:
        _checked(place=place, tip=tip, way=way)
    if away == 0.0:
        return 0.0
    within = x * way[0] + y * way[1] > away * size * cos(half_angle_rad) * (1.0 + _ON_LINE)
    return away if within else inf


def inside_turn(place: Vec, before: Vec, seat: Vec, beyond: Vec) -> Literal["triangle", "angle", ""]:
    """Whether a place lies inside a turn, seen from above: within its triangle, or farther out in its angle.

    Equation: on the inner side of both legs; in the triangle if also on the seat's side of the line between their
        far ends
    Units: places [m]
    Range: finite places; legs in one line have no inside. A place on an edge counts as inside
    Source: derivation (geometry); nobody in the bight: MGN 308 2.2, read second hand
    Raises: ValueError for a place that is not finite
    """
    _checked(place=place, before=before, seat=seat, beyond=beyond)
    ax, ay, bx, by = before[0] - seat[0], before[1] - seat[1], beyond[0] - seat[0], beyond[1] - seat[1]
    x, y = place[0] - seat[0], place[1] - seat[1]
    turn = ax * by - ay * bx
    if abs(turn) <= _ON_LINE * (ax * ax + ay * ay + bx * bx + by * by):
        return ""
    # place = seat + s (before - seat) + t (beyond - seat)
    s, t = (x * by - y * bx) / turn, (ax * y - ay * x) / turn
    if min(s, t) < -_ON_LINE:
        return ""
    return "triangle" if s + t <= 1.0 + _ON_LINE else "angle"
