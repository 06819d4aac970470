"""How sharp a bend may be: the strength a bend leaves wire, and the diameters that a load asks for.

The bend ratio is tread diameter over rope diameter. What a bend must be grows with the load: a bend
that is too sharp for the load carried is worse than one too sharp for the breaking load alone.
"""

from math import inf
from typing import Final, Literal

from riglint.mechanics._refuse import refuse, unknown
from riglint.mechanics.provenance import (
    COMMON_PRACTICE,
    NAVEDTRA_14081,
    TB_43_0142,
    UFGS_14636N,
    WIRE_ROPE_MANUAL,
    Figure,
)

# Bend ratio -> share of strength left, wire rope over a sheave or pin that stands still.
_WIRE_CURVE: Final = (
    (1.0, 0.50),
    (2.0, 0.65),
    (4.0, 0.75),
    (6.0, 0.79),
    (8.0, 0.83),
    (10.0, 0.86),
    (15.0, 0.89),
    (20.0, 0.91),
    (30.0, 0.93),
    (40.0, 0.95),
)
_TB = "table A-1, critical sheave; the least is larger"
_WIRE_RUNNING: Final = {
    "6x19": Figure(20.0, NAVEDTRA_14081, "p. 13-8, sheave at least 20 d", "read"),
    "6x19 seale": Figure(20.0, TB_43_0142, _TB, "read"),
    "6x19 warrington": Figure(16.0, TB_43_0142, _TB, "read"),
    "6x16": Figure(16.0, TB_43_0142, _TB, "read"),
    "8x19": Figure(16.0, TB_43_0142, _TB, "read"),
    "8x19 warrington": Figure(14.0, TB_43_0142, _TB, "read"),
    "6x37": Figure(14.0, TB_43_0142, _TB, "read"),
}
_WIRE_GENERAL: Final = _WIRE_RUNNING["6x19"]
_WIRE_STANDING: Final = Figure(12.0, UFGS_14636N, "2.3.3, equalizer sheave 12 d", "read")

# Fibre: ends of a straight line of bend ratio against load over breaking strength.
# Moving: 8 at the breaking load is common practice; 3 at no load is the least that a thimble is made to.
FIBRE_MOVING: Final = (3.0, 8.0)
# Standing: 5 at the breaking load is from memory; 1 at no load is a rope bent round its own like.
FIBRE_STANDING: Final = (1.0, 5.0)

Rope = Literal["fibre", "wire"]


def wire_bend_efficiency_fraction(bend_ratio: float) -> float:
    """Strength that a standing bend leaves wire rope.

    Equation: straight lines between the printed points, 50 % at 1 to 95 % at 40
    Units: bend ratio D/d; fraction of the breaking strength
    Range: D/d >= 1; past 40 the curve's last 95 % is held, no more is claimed
    Source: Wire Rope Users Manual, strength over stationary sheaves or pins, read second hand
    Raises: ValueError below 1, NaN or infinite
    """
    if not 1.0 <= bend_ratio < inf:
        raise refuse("bend_ratio", bend_ratio, "finite and at least 1")
    low_ratio, low = _WIRE_CURVE[0]
    for ratio, share in _WIRE_CURVE[1:]:
        if bend_ratio <= ratio:
            return low + (share - low) * (bend_ratio - low_ratio) / (ratio - low_ratio)
        low_ratio, low = ratio, share
    return low


def wire_bend_for_efficiency_ratio(efficiency_fraction: float) -> float | None:
    """Least bend ratio at which the curve leaves so much strength; None above the curve's 95 %.

    Equation: inverse of `wire_bend_efficiency_fraction`
    Units: fraction of the breaking strength; bend ratio D/d
    Range: 0 <= fraction <= 1; up to 50 % any bend from 1 serves
    Source: Wire Rope Users Manual, strength over stationary sheaves or pins, read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 <= efficiency_fraction <= 1.0:
        raise refuse("efficiency_fraction", efficiency_fraction, "0 to 1")
    low_ratio, low = _WIRE_CURVE[0]
    if efficiency_fraction <= low:
        return low_ratio
    for ratio, share in _WIRE_CURVE[1:]:
        if efficiency_fraction <= share:
            return low_ratio + (ratio - low_ratio) * (efficiency_fraction - low) / (share - low)
        low_ratio, low = ratio, share
    return None


def fibre_bend_demand(load_ratio: float, *, moving: bool) -> Figure:
    """Bend ratio that fibre rope asks for at a load.

    Equation: moving D/d = 3 + 5 u, standing D/d = 1 + 4 u
    Units: u load over breaking strength
    Range: u >= 0; past 1 the line goes on, a worse load never asks for less. At half the breaking load a
        moving bend asks for 5.5, the least sheave of fibre rope blocks in ILO dock work 12.1.2
    Source: 8 at the breaking load and less below it: common practice, no source; 3 at no load: DOE-STD-1090
        11.3.2.3 (thimbles of wire slings), read; standing 5: from memory; the straight line between is ours
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_ratio < inf:
        raise refuse("load_ratio", load_ratio, "finite and not negative")
    at_none, at_breaking = FIBRE_MOVING if moving else FIBRE_STANDING
    value = at_none + (at_breaking - at_none) * load_ratio
    locator = "moving bend, 3 + 5 u" if moving else "standing bend, 1 + 4 u"
    return Figure(value, COMMON_PRACTICE, locator, "common practice")


def wire_bend_demand(load_ratio: float, *, moving: bool, construction: str | None = None) -> Figure:
    """Bend ratio that wire rope asks for at a load.

    Equation: moving: the critical sheave by construction, at any load; standing: the least D/d
        whose efficiency is u, and no more than 12
    Units: u load over breaking strength
    Range: u >= 0. An unstated or unknown construction takes 20. TB 43-0142 prints two diameters, a least one of
        18 to 34 d and a critical one of 14 to 20 d; the critical one is used, milder than the least
    Source: NAVEDTRA 14081 p. 13-8 and TB 43-0142 table A-1 (moving), UFGS 14636N 2.3.3 (12 for an
        equalizer), read; Wire Rope Users Manual (standing), read second hand
    Raises: ValueError outside the range
    """
    if not 0.0 <= load_ratio < inf:
        raise refuse("load_ratio", load_ratio, "finite and not negative")
    if moving:
        return _WIRE_RUNNING.get(construction or "", _WIRE_GENERAL)
    needed = wire_bend_for_efficiency_ratio(min(load_ratio, 1.0))
    if needed is None or needed >= _WIRE_STANDING.value:
        return _WIRE_STANDING
    return Figure(needed, WIRE_ROPE_MANUAL, "strength over stationary pins", "read second hand")


def bend_demand(rope: Rope, load_ratio: float, *, moving: bool, construction: str | None = None) -> Figure:
    """Bend ratio that a rope asks for at a load; it never falls as the load rises.

    Equation: `fibre_bend_demand` or `wire_bend_demand`
    Units: load over breaking strength; bend ratio D/d
    Range: load ratio >= 0; for the demand of the breaking load pass 1
    Source: as the two functions name; where they say common practice, no published source was found
    Raises: ValueError outside the range or for another rope
    """
    if rope == "fibre":
        return fibre_bend_demand(load_ratio, moving=moving)
    if rope == "wire":
        return wire_bend_demand(load_ratio, moving=moving, construction=construction)
    raise unknown("rope", rope, ("fibre", "wire"))
