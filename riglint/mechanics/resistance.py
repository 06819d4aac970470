"""What the load resists with: mire, overturning, rolling and grade, by doctrine and by engineering.

Doctrine's multiples are upper bounds for planning; the engineering law is for a vehicle that rolls.
"""

from math import inf, pi, sin
from typing import Final, NamedTuple

from riglint.mechanics._refuse import refuse, unknown
from riglint.mechanics.constants import M_PER_INCH
from riglint.mechanics.provenance import (
    DERIVATION,
    EARTHMOVING_TEXT,
    FM_4_30_31,
    FM_5_434,
    FM_9_43_2,
    FM_20_22,
    Band,
    Figure,
    Trust,
)

MIRE_MULTIPLES: Final = {
    # All three from memory of the manual's table.
    "wheel depth": Figure(1.0, FM_9_43_2, "ch. 2, mire resistance", "from memory"),
    "fender depth": Figure(2.0, FM_9_43_2, "ch. 2, mire resistance", "from memory"),
    "cab depth": Figure(3.0, FM_9_43_2, "ch. 2, mire resistance", "from memory"),
}
OVERTURN_MULTIPLE: Final = Figure(0.5, FM_9_43_2, "ch. 2, overturning resistance", "from memory")
GRADE_MULTIPLE: Final = Figure(1.0, FM_20_22, "grade resistance, any slope", "from memory")

# From memory; for tracked vehicles only, never for wheeled ones.
BACKWARDS_REDUCTION: Final = Figure(0.10, FM_4_30_31, "reduction, pulled opposite to travel", "from memory")
POWER_REDUCTION: Final = Figure(0.40, FM_4_30_31, "reduction, power to the tracks", "from memory")
BOTH_REDUCTION: Final = Figure(0.50, FM_4_30_31, "reduction, both", "from memory")
NO_REDUCTION: Final = Figure(0.0, DERIVATION, "no reduction claimed", "derivation")

_TABLE = "rolling resistance factors, table 4-1"
ROLLING: Final = {
    # From memory: printed as lb per ton of 2,000 lb, here as a fraction of the weight.
    "hard road": Band(0.020, 0.020, EARTHMOVING_TEXT, _TABLE, "from memory"),
    "firm track": Band(0.032, 0.0325, EARTHMOVING_TEXT, _TABLE, "from memory"),
    "rutted track": Band(0.050, 0.050, EARTHMOVING_TEXT, _TABLE, "from memory"),
    "soft rutted track": Band(0.075, 0.075, EARTHMOVING_TEXT, _TABLE, "from memory"),
    "loose sand": Band(0.100, 0.100, EARTHMOVING_TEXT, _TABLE, "from memory"),
    "loose gravel": Band(0.100, 0.100, EARTHMOVING_TEXT, _TABLE, "from memory"),
    # Gravel without a word on how firm it lies is taken as loose, the harder of the two.
    "gravel": Band(0.100, 0.100, EARTHMOVING_TEXT, _TABLE, "from memory"),
    # The text says 15 to 20 %, the manual 10 to 20 %: the wider band holds both.
    "deep mud": Band(0.100, 0.200, FM_5_434, "ch. 1, rolling resistance", "from memory"),
}


class ResistancePart(NamedTuple):
    """One share of the resistance and where its figure is from."""

    kind: str
    force_n: float
    source: str
    locator: str
    trust: Trust


class Resistance(NamedTuple):
    """Resistance as a sum of named parts."""

    total_n: float
    parts: tuple[ResistancePart, ...]


def mire_multiple_factor(depth: str) -> Figure:
    """Mire resistance as a multiple of the weight, by how deep the vehicle is in.

    Equation: wheel depth (to the hub) 1, fender depth (over the hub) 2, cab depth (over the fender) 3
    Units: dimensionless; depth is one of the three words
    Source: FM 9-43-2 ch. 2 and FM 4-30.31 ch. 2, from memory
    Raises: ValueError for a depth that is not one of the three
    """
    figure = MIRE_MULTIPLES.get(depth)
    if figure is None:
        raise unknown("depth", depth, MIRE_MULTIPLES)
    return figure


def mire_resistance_n(weight_n: float, depth: str, reduction_fraction: float = 0.0) -> float:
    """Pull that a mired vehicle resists with, by doctrine.

    Equation: R = k W (1 - r)
    Units: W weight with cargo [N], k multiple by depth, r reduction (tracked vehicles only)
    Range: W >= 0, 0 <= r <= 0.5
    Source: FM 9-43-2 ch. 2 and FM 4-30.31 ch. 2, from memory
    Raises: ValueError outside the range or for an unknown depth
    """
    if not 0.0 <= weight_n < inf:
        raise refuse("weight_n", weight_n, "finite and not negative")
    if not 0.0 <= reduction_fraction <= BOTH_REDUCTION.value:
        raise refuse("reduction_fraction", reduction_fraction, "0 to 0.5")
    return mire_multiple_factor(depth).value * weight_n * (1.0 - reduction_fraction)


def tracked_reduction_fraction(*, pulled_backwards: bool, power_applied: bool) -> Figure:
    """What may come off the mire resistance of a TRACKED vehicle; a wheeled one gets none.

    Equation: 0.10 pulled opposite to its travel, 0.40 with power to the tracks, 0.50 with both
    Units: fraction of the mire resistance
    Source: FM 4-30.31, from memory
    """
    if pulled_backwards and power_applied:
        return BOTH_REDUCTION
    if power_applied:
        return POWER_REDUCTION
    return BACKWARDS_REDUCTION if pulled_backwards else NO_REDUCTION


def overturn_resistance_n(weight_n: float) -> float:
    """Pull that rights an overturned vehicle, by doctrine.

    Equation: R = W / 2
    Units: W weight with cargo [N]
    Range: W >= 0
    Source: FM 9-43-2 and FM 4-30.31, from memory
    Raises: ValueError outside the range
    """
    if not 0.0 <= weight_n < inf:
        raise refuse("weight_n", weight_n, "finite and not negative")
    return OVERTURN_MULTIPLE.value * weight_n


def doctrine_grade_resistance_n(weight_n: float) -> float:
    """Pull up a grade by doctrine: the whole weight whatever the slope, rolling included.

    Equation: R = W
    Units: W weight with cargo [N]
    Range: W >= 0
    Source: FM 20-22 (1970) and FM 9-43-2, from memory
    Raises: ValueError outside the range
    """
    if not 0.0 <= weight_n < inf:
        raise refuse("weight_n", weight_n, "finite and not negative")
    return GRADE_MULTIPLE.value * weight_n


def rolling_fraction(surface: str) -> Band | None:
    """Rolling resistance as a band of fractions of the weight; None where no source names the surface.

    Equation: R = f W
    Units: fraction of the weight
    Range: the surfaces of the table; grass is not among them, no citable figure was found
    Source: construction methods text, table 4-1, and FM 5-434 ch. 1, from memory
    """
    return ROLLING.get(surface)


def rolling_fraction_by_penetration(penetration_m: float) -> float:
    """Rolling resistance by how deep the tyre sinks in.

    Equation: f = 0.02 + 0.015 p / 0.0254
    Units: p penetration of the tyre [m]; f fraction of the weight
    Range: p >= 0; the law is for wheels that roll, past about 0.2 m the vehicle is mired
    Source: Civil Engineering Formulas, earthmoving (printed: 2 % + 1.5 % per inch), read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 <= penetration_m < inf:
        raise refuse("penetration_m", penetration_m, "finite and not negative")
    return 0.02 + 0.015 * penetration_m / M_PER_INCH


def grade_component_n(weight_n: float, slope_rad: float) -> float:
    """Share of the weight along the slope; negative where the way of the pull goes down.

    Equation: G = W sin(a)
    Units: W weight [N], a slope [rad], up the way of the pull positive
    Range: W >= 0, -pi/2 <= a <= pi/2
    Source: derivation (statics); the printed 1 % of W for 1 % of grade is its small-angle form
    Raises: ValueError outside the range
    """
    if not 0.0 <= weight_n < inf:
        raise refuse("weight_n", weight_n, "finite and not negative")
    if not -pi / 2 <= slope_rad <= pi / 2:
        raise refuse("slope_rad", slope_rad, "-pi/2 to pi/2")
    return weight_n * sin(slope_rad)


def rolling_resistance_n(weight_n: float, friction_fraction: float) -> float:
    """Rolling resistance at a known fraction, without the cosine of the slope, as the sources print it.

    Equation: R = f W
    Units: W weight [N], f fraction
    Range: W >= 0, f >= 0. Leaving out cos(slope) errs high, the safe way for what must be pulled
    Source: Civil Engineering Formulas, earthmoving, read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 <= weight_n < inf:
        raise refuse("weight_n", weight_n, "finite and not negative")
    if not 0.0 <= friction_fraction < inf:
        raise refuse("friction_fraction", friction_fraction, "finite and not negative")
    return friction_fraction * weight_n
