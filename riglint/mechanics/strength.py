"""What wire rope of a size can break at, by published tables: to tell a stated strength that's impossible."""

from math import inf
from typing import Final

from riglint.mechanics._refuse import refuse
from riglint.mechanics.constants import M_PER_INCH, N_PER_LBF
from riglint.mechanics.provenance import EN_12385_4, WIRE_STRENGTH_TABLE, Figure

# 6x19, improved plow steel, fibre core: inches -> lb.
_NOMINAL: Final = {
    1 / 4: 5_480.0,
    5 / 16: 8_520.0,
    3 / 8: 12_200.0,
    7 / 16: 16_540.0,
    1 / 2: 21_400.0,
    9 / 16: 27_000.0,
    5 / 8: 33_400.0,
    3 / 4: 47_600.0,
    7 / 8: 64_400.0,
    1.0: 83_600.0,
    1.125: 105_200.0,
    1.25: 129_200.0,
    1.375: 155_400.0,
    1.5: 184_000.0,
    2.0: 320_000.0,
}
_SIZE_SLACK = 1e-3  # inches; 0.025 mm, a size told to the tenth of a millimetre still finds its row

# From memory: share of d^2 Rr for 6x19 and 6x36.
INDEPENDENT_CORE: Final = Figure(0.356, EN_12385_4, "6x19, 6x36, steel core", "from memory")
FIBRE_CORE: Final = Figure(0.330, EN_12385_4, "6x19, 6x36, fibre core", "from memory")


def nominal_wire_strength_n(diameter_m: float) -> Figure | None:
    """Printed nominal strength of 6x19 improved plow steel, fibre core; None for a size not in the table.

    Equation: table lookup
    Units: rope diameter [m] (printed: inches), result [N] (printed: lb)
    Range: D > 0; the printed sizes 1/4 to 2 in only
    Source: published 6x19 wire strength table, read
    Raises: ValueError outside the range
    """
    if not 0.0 < diameter_m < inf:
        raise refuse("diameter_m", diameter_m, "finite and above 0")
    inches = diameter_m / M_PER_INCH
    for size, pounds in _NOMINAL.items():
        if abs(inches - size) <= _SIZE_SLACK:
            locator = "6x19 improved plow steel, fibre core"
            return Figure(pounds * N_PER_LBF, WIRE_STRENGTH_TABLE, locator, "read")
    return None


def wire_breaking_n(diameter_m: float, grade_pa: float, *, fibre_core: bool) -> Figure:
    """Minimum breaking force of six-strand wire rope by its grade.

    Equation: MBF = K d^2 R_r
    Units: d rope diameter [m], R_r rope grade [Pa] (1770 N/mm2 is 1.77e9), K 0.356 steel core, 0.330 fibre
    Range: d > 0, R_r > 0
    Source: EN 12385-4, from memory
    Raises: ValueError outside the range
    """
    if not 0.0 < diameter_m < inf:
        raise refuse("diameter_m", diameter_m, "finite and above 0")
    if not 0.0 < grade_pa < inf:
        raise refuse("grade_pa", grade_pa, "finite and above 0")
    figure = FIBRE_CORE if fibre_core else INDEPENDENT_CORE
    return figure._replace(value=figure.value * diameter_m**2 * grade_pa)
