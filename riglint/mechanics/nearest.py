"""How near two things come that pass each other."""

from math import inf
from typing import NamedTuple

from riglint.mechanics._refuse import refuse
from riglint.mechanics.vectors import Vec, add, dot, norm, scale, sub


class Nearest(NamedTuple):
    """The shortest distance, and at what share of the way it is reached."""

    length_m: float
    share: float


def nearest(start: Vec, end: Vec) -> Nearest:
    """The shortest distance of two things that move evenly past each other.

    Equation: d = min |a + s (b - a)| over 0 <= s <= 1
    Units: a, b what lies between the two at the start and at the end [m]; s share of the way
    Range: finite vectors
    Source: derivation (geometry)
    Raises: ValueError for a vector that is not finite
    """
    for name, vector in (("start", start), ("end", end)):
        if not norm(vector) < inf:
            raise refuse(name, norm(vector), "finite")
    change = sub(end, start)
    size = dot(change, change)
    share = min(1.0, max(0.0, -dot(start, change) / size)) if size > 0.0 else 0.0
    return Nearest(norm(add(start, scale(change, share))), share)
