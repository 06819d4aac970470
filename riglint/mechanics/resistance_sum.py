"""The parts of the resistance put together, with the source of each kept beside it."""

from math import fsum

from riglint.mechanics.provenance import CIVIL_FORMULAS, DERIVATION, Figure
from riglint.mechanics.resistance import (
    GRADE_MULTIPLE,
    OVERTURN_MULTIPLE,
    Resistance,
    ResistancePart,
    doctrine_grade_resistance_n,
    grade_component_n,
    mire_multiple_factor,
    mire_resistance_n,
    overturn_resistance_n,
    rolling_fraction,
    rolling_fraction_by_penetration,
    rolling_resistance_n,
)


def _sum(parts: list[ResistancePart]) -> Resistance:
    return Resistance(fsum(part.force_n for part in parts), tuple(parts))


def _part(kind: str, force_n: float, figure: Figure) -> ResistancePart:
    return ResistancePart(kind, force_n, figure.source, figure.locator, figure.trust)


def doctrine_resistance(
    weight_n: float,
    *,
    depth: str | None = None,
    reduction_fraction: float = 0.0,
    overturned: bool = False,
    uphill: bool = False,
) -> Resistance:
    """Resistance by recovery doctrine, its parts added.

    Equation: R = k W (1 - r) + W/2 if overturned + W if uphill
    Units: W weight with cargo [N], k multiple by depth, r reduction (tracked vehicles only)
    Range: W >= 0, 0 <= r <= 0.5. With nothing mired, overturned or uphill there are no parts and R = 0
    Source: FM 9-43-2, FM 4-30.31, FM 20-22, from memory; that parts add is ours, the safer reading
        (a class formula multiplies the overturning resistance by the mire multiple instead)
    Raises: ValueError outside the range or for an unknown depth
    """
    parts = []
    overturn_n = overturn_resistance_n(weight_n)  # refuses a bad weight even when no part applies
    if depth is not None:
        force_n = mire_resistance_n(weight_n, depth, reduction_fraction)
        parts.append(_part("mire", force_n, mire_multiple_factor(depth)))
    if overturned:
        parts.append(_part("overturning", overturn_n, OVERTURN_MULTIPLE))
    if uphill:
        parts.append(_part("grade", doctrine_grade_resistance_n(weight_n), GRADE_MULTIPLE))
    return _sum(parts)


def _grade_part(weight_n: float, slope_rad: float) -> ResistancePart:
    force_n = grade_component_n(weight_n, slope_rad)
    return ResistancePart("grade", force_n, DERIVATION, "W sin(slope)", "derivation")


def surface_resistance(weight_n: float, slope_rad: float, surface: str, *, upper: bool = True) -> Resistance | None:
    """Rolling resistance by surface, plus grade; None where no source names the surface.

    Equation: R = f W + W sin(a), f the upper or the lower end of the surface's band
    Units: W weight [N], a slope [rad], up the way of the pull positive
    Range: W >= 0, -pi/2 <= a <= pi/2. The total is negative where the load would run away by itself
    Source: construction methods text, table 4-1, and FM 5-434 ch. 1, from memory; grade by statics
    Raises: ValueError outside the range
    """
    grade = _grade_part(weight_n, slope_rad)
    band = rolling_fraction(surface)
    if band is None:
        return None
    force_n = rolling_resistance_n(weight_n, band.high if upper else band.low)
    return _sum([ResistancePart("rolling", force_n, band.source, band.locator, band.trust), grade])


def penetration_resistance(weight_n: float, slope_rad: float, penetration_m: float) -> Resistance:
    """Rolling resistance by how deep the tyres sink in, plus grade.

    Equation: R = (0.02 + 0.015 p / 0.0254) W + W sin(a)
    Units: W weight [N], a slope [rad], p penetration [m]
    Range: W >= 0, -pi/2 <= a <= pi/2, p >= 0
    Source: Civil Engineering Formulas, earthmoving, read second hand; grade by statics
    Raises: ValueError outside the range
    """
    grade = _grade_part(weight_n, slope_rad)
    force_n = rolling_resistance_n(weight_n, rolling_fraction_by_penetration(penetration_m))
    locator = "earthmoving, 2 % + 1.5 % per inch of penetration"
    return _sum([ResistancePart("rolling", force_n, CIVIL_FORMULAS, locator, "read second hand"), grade])
