"""Friction heat that a sliding seat puts into rope, and what a fibre bears."""

from math import inf, pi
from typing import Final, NamedTuple

from riglint.mechanics._refuse import refuse
from riglint.mechanics.constants import KELVIN_AT_0_C
from riglint.mechanics.provenance import (
    COMMON_PRACTICE,
    OSHA_GUIDANCE,
    TB_55_1900_232_10,
    Figure,
)


class FibreHeat(NamedTuple):
    """What a fibre bears: keep below `keep_below`, ruined from `softens`; None where no figure is known."""

    keep_below: Figure
    softens: Figure | None


def _celsius(value: float, source: str, locator: str, *, memory: bool) -> Figure:
    return Figure(KELVIN_AT_0_C + value, source, locator, "from memory" if memory else "read")


_SYNTHETIC = Figure(KELVIN_AT_0_C + 82.0, OSHA_GUIDANCE, "synthetics above 180 F are damaged", "read second hand")
FIBRES: Final = {
    # From memory: keep below 65 to 70 C, melts at 144 to 152 C; the lower ends are used.
    "hmpe": FibreHeat(
        _celsius(65.0, COMMON_PRACTICE, "HMPE, lower end of 65-70 C", memory=True),
        _celsius(144.0, COMMON_PRACTICE, "HMPE, lower end of melting", memory=True),
    ),
    "polypropylene": FibreHeat(
        _SYNTHETIC, _celsius(148.8, TB_55_1900_232_10, "App. C, softens at 300 F", memory=False)
    ),
    "nylon": FibreHeat(_SYNTHETIC, None),
    "polyester": FibreHeat(_SYNTHETIC, None),
}


def fibre_heat(fibre: str) -> FibreHeat | None:
    """Temperatures that a fibre bears [K]; None where no figure is known.

    Equation: table lookup
    Units: kelvin
    Range: hmpe, polypropylene, nylon, polyester
    Source: TB 55-1900-232-10 App. C (polypropylene softens), read; OSHA guidance (82 C), read second hand;
        HMPE from memory
    """
    return FIBRES.get(fibre)


def slip_heat_j_m(incoming_n: float, outgoing_n: float) -> float:
    """Friction heat for each metre of rope that slides over a seat, in rope and seat together.

    Equation: q = |T_in - T_out|
    Units: tensions either side of the seat [N], heat [J per metre of slip]
    Range: T >= 0
    Source: derivation (work of friction over 1 m of slip)
    Raises: ValueError outside the range
    """
    if not 0.0 <= incoming_n < inf:
        raise refuse("incoming_n", incoming_n, "finite and not negative")
    if not 0.0 <= outgoing_n < inf:
        raise refuse("outgoing_n", outgoing_n, "finite and not negative")
    return abs(incoming_n - outgoing_n)


def slip_heat_j(incoming_n: float, outgoing_n: float, slip_m: float) -> float:
    """Friction heat of a slip, in rope and seat together: a seat that stands still gets its share of it all.

    Equation: Q = |T_in - T_out| s
    Units: tensions [N], s rope that slides over the seat [m]
    Range: T >= 0, s >= 0
    Source: derivation (work of friction)
    Raises: ValueError outside the range
    """
    if not 0.0 <= slip_m < inf:
        raise refuse("slip_m", slip_m, "finite and not negative")
    return slip_heat_j_m(incoming_n, outgoing_n) * slip_m


def rope_mass_kg_m(diameter_m: float, density_kg_m3: float, fill_fraction: float) -> float:
    """Mass of fibre in a metre of rope.

    Equation: m' = rho f pi d^2 / 4
    Units: d rope diameter [m], rho density of the fibre [kg/m3], f share of the section that is fibre
    Range: d > 0, rho > 0, 0 < f <= 1. A low f errs safe: less fibre gets hotter
    Source: derivation (geometry)
    Raises: ValueError outside the range
    """
    if not 0.0 < diameter_m < inf:
        raise refuse("diameter_m", diameter_m, "finite and above 0")
    if not 0.0 < density_kg_m3 < inf:
        raise refuse("density_kg_m3", density_kg_m3, "finite and above 0")
    if not 0.0 < fill_fraction <= 1.0:
        raise refuse("fill_fraction", fill_fraction, "above 0 and at most 1")
    return density_kg_m3 * fill_fraction * pi * diameter_m**2 / 4.0


def temperature_rise_k(heat_j_m: float, mass_kg_m: float, specific_heat_j_kgk: float) -> float:
    """Upper bound of the mean rise of the rope's section over one pass: all heat stays in the rope.

    Equation: dT = q / (m' c)
    Units: q heat per metre [J/m], m' mass per metre [kg/m], c specific heat [J/(kg K)]
    Range: q >= 0, m' > 0, c > 0. A mean over the section: the fibres that rub are hotter for a moment
    Source: derivation (heat balance without loss)
    Raises: ValueError outside the range
    """
    if not 0.0 <= heat_j_m < inf:
        raise refuse("heat_j_m", heat_j_m, "finite and not negative")
    if not 0.0 < mass_kg_m < inf:
        raise refuse("mass_kg_m", mass_kg_m, "finite and above 0")
    if not 0.0 < specific_heat_j_kgk < inf:
        raise refuse("specific_heat_j_kgk", specific_heat_j_kgk, "finite and above 0")
    return heat_j_m / (mass_kg_m * specific_heat_j_kgk)
