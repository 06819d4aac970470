"""What angles do to forces: redirects, slings and bridles."""

from math import cos, hypot, inf, pi, sin
from typing import NamedTuple

from riglint.mechanics._refuse import refuse

_STRAIGHT_RAD = 1e-9  # closer than this two legs are one line


class LegLoads(NamedTuple):
    """Loads in the two legs of a bridle."""

    first_n: float
    second_n: float


def redirect_factor(included_rad: float) -> float:
    """Load on a redirect for a tension of 1 in both parts.

    Equation: k = 2 cos(theta / 2)
    Units: theta angle between the two parts [rad]; 0 parallel, pi straight through
    Range: 0 <= theta <= pi
    Source: dealers' redirect tables, read second hand; derivation (vector sum)
    Raises: ValueError outside the range
    """
    if not 0.0 <= included_rad <= pi:
        raise refuse("included_rad", included_rad, "0 to pi")
    return 2.0 * cos(included_rad / 2.0)


def resultant_n(first_n: float, second_n: float, included_rad: float) -> float:
    """Sum of two tensions that pull away from one point.

    Equation: R = sqrt(((T1 + T2) cos(theta / 2))^2 + ((T1 - T2) sin(theta / 2))^2)
    Units: T1, T2 tensions [N], theta angle between them [rad]
    Range: T1, T2 >= 0, 0 <= theta <= pi
    Source: derivation (law of cosines in the form that keeps its digits at both ends)
    Raises: ValueError outside the range
    """
    if not 0.0 <= first_n < inf:
        raise refuse("first_n", first_n, "finite and not negative")
    if not 0.0 <= second_n < inf:
        raise refuse("second_n", second_n, "finite and not negative")
    if not 0.0 <= included_rad <= pi:
        raise refuse("included_rad", included_rad, "0 to pi")
    half_rad = included_rad / 2.0
    return hypot((first_n + second_n) * cos(half_rad), (first_n - second_n) * sin(half_rad))


def sling_leg_factor(from_level_rad: float) -> float:
    """Load in one of two slanting legs over its load when vertical.

    Equation: k = 1 / sin(a)
    Units: a angle of the leg from level, across the pull [rad]
    Range: 0 < a <= pi/2
    Source: NAVEDTRA 14080 (90 and 30 deg), read; derivation
    Raises: ValueError outside the range
    """
    if not 0.0 < from_level_rad <= pi / 2:
        raise refuse("from_level_rad", from_level_rad, "above 0 and at most pi/2")
    return 1.0 / sin(from_level_rad)


def sling_leg_tension_n(load_n: float, length_m: float, height_m: float) -> float:
    """Load in a leg of an even bridle by its length and height; three or four legs count as two.

    Equation: T = W L / (2 H)
    Units: W load [N], L leg length [m], H height from the load's points to the hook [m]
    Range: W >= 0, 0 < H <= L
    Source: NAVEDTRA Equipment Operator (bridle SWL = 2 SWL H/L, for 3 and 4 legs as well), read
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    if not 0.0 < length_m < inf:
        raise refuse("length_m", length_m, "finite and above 0")
    if not 0.0 < height_m <= length_m:
        raise refuse("height_m", height_m, f"above 0 and at most length_m {length_m!r}")
    return load_n * length_m / (2.0 * height_m)


def equalised_leg_n(load_n: float, included_rad: float) -> float:
    """Load in each leg of a bridle whose legs equalise: the pull halves the angle between them.

    Equation: T = F / (2 cos(theta / 2))
    Units: F pull on the bridle [N], theta angle between its legs [rad]
    Range: F >= 0, 0 <= theta < pi
    Source: derivation (statics)
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    if not 0.0 <= included_rad < pi - _STRAIGHT_RAD:
        raise refuse("included_rad", included_rad, "at least 0 and below pi")
    return load_n / (2.0 * cos(included_rad / 2.0))


def bridle_loads(load_n: float, first_rad: float, second_rad: float) -> LegLoads:
    """Loads in two legs of fixed length, one on either side of the line of pull.

    Equation: T1 = F sin(b) / sin(a + b), T2 = F sin(a) / sin(a + b)
    Units: F pull [N]; a, b angles of the first and the second leg from the line of pull [rad]
    Range: F >= 0, a >= 0, b >= 0, 0 < a + b < pi. Both 0 is refused: statics does not fix the shares
    Source: derivation (statics)
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_n < inf:
        raise refuse("load_n", load_n, "finite and not negative")
    if not 0.0 <= first_rad < pi:
        raise refuse("first_rad", first_rad, "at least 0 and below pi")
    if not 0.0 <= second_rad < pi:
        raise refuse("second_rad", second_rad, "at least 0 and below pi")
    both_rad = first_rad + second_rad
    if not _STRAIGHT_RAD < both_rad < pi - _STRAIGHT_RAD:
        raise refuse("first_rad + second_rad", both_rad, "above 0 and below pi")
    across = load_n / sin(both_rad)
    return LegLoads(across * sin(second_rad), across * sin(first_rad))


def bridle_worst_leg_n(load_n: float, first_rad: float, second_rad: float) -> float:
    """Load that a leg must be fit for when nothing equalises the bridle.

    Equation: T = max(F, T1, T2)
    Units: F pull [N]; a, b angles of the legs from the line of pull [rad]
    Range: F >= 0, a >= 0, b >= 0, a + b < pi
    Source: derivation: one leg alone may carry the pull, and a wide bridle puts more than that in both
    Raises: ValueError outside the range
    """
    if first_rad == 0.0 and second_rad == 0.0:
        return equalised_leg_n(load_n, 0.0) * 2.0
    return max(load_n, *bridle_loads(load_n, first_rad, second_rad))
