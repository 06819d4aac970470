"""Deadman anchors: holding power of the ground by depth and slope, and the timber that it asks for."""

from math import atan, inf, pi
from typing import Final, Literal

from riglint.mechanics._refuse import refuse, unknown
from riglint.mechanics.constants import M_PER_FOOT, PA_PER_PSF
from riglint.mechanics.provenance import FM_5_125, TM_5_5420_278_10, Figure, Trust

_DEPTHS_FT: Final = (3.0, 4.0, 5.0, 6.0, 7.0)
# Angle of the pull from level: 1:4, 1:3, 1:2, 1:1 and vertical.
_SLOPES_RAD: Final = (atan(1 / 4), atan(1 / 3), atan(1 / 2), atan(1.0), pi / 2)
# lb per square foot of face in loam; the vertical column from memory.
# The scan prints 700 at 7 ft, 1:2; 7,000 is the manual's value (from memory), and the row shows it.
_LOAM_PSF: Final = (
    (1500.0, 1450.0, 1300.0, 950.0, 600.0),
    (2700.0, 2600.0, 2200.0, 1750.0, 1050.0),
    (4100.0, 4000.0, 3600.0, 2800.0, 1700.0),
    (6000.0, 5800.0, 5100.0, 3800.0, 2400.0),
    (8400.0, 8000.0, 7000.0, 5100.0, 3200.0),
)
SOIL_FACTORS: Final = {
    "loam": Figure(1.0, TM_5_5420_278_10, "table 9, the table's own ground", "read"),
    "rock or hardpan": Figure(5.0, TM_5_5420_278_10, "table 9, notes", "read"),
    "wet fine-grained or sandy": Figure(0.5, TM_5_5420_278_10, "table 9, notes", "read"),
}
SLENDERNESS: Final = {
    "timber": Figure(9.0, TM_5_5420_278_10, "p. 0035 00-23, length over thickness", "read"),
    "log": Figure(5.0, TM_5_5420_278_10, "p. 0035 00-23, length over diameter", "read"),
}
TRENCH_TM: Final = Figure(1.0 * M_PER_FOOT, TM_5_5420_278_10, "p. 0035 00-22, 1 ft", "read")
# From memory: the older manual takes the trench's own width, 1 or 2 ft.
TRENCH_FM: Final = Figure(2.0 * M_PER_FOOT, FM_5_125, "ch. 4, trench width up to 2 ft", "from memory")

_EDGE = 1e-9

Kind = Literal["timber", "log"]


def _cell(grid: tuple[float, ...], value: float) -> tuple[int, float] | None:
    """Index of the interval that holds a value, and how far along it; None outside the grid."""
    if not grid[0] - _EDGE <= value <= grid[-1] + _EDGE:
        return None
    index = 0
    while index < len(grid) - 2 and value > grid[index + 1]:
        index += 1
    along = (value - grid[index]) / (grid[index + 1] - grid[index])
    return index, min(1.0, max(0.0, along))


def deadman_holding_pa(depth_m: float, slope_rad: float, soil: str) -> Figure | None:
    """Holding power of the ground on a deadman's face; None outside the table.

    Equation: bilinear between the printed depths and slopes, times the soil factor
    Units: mean depth of the face [m], slope of the pull from level [rad], result [Pa]
    Range: 3 to 7 ft (0.914 to 2.134 m) deep, from 1:4 to vertical; steeper than 1:1 is from memory,
        and so is what rests on the cell of 7 ft at 1:2
    Source: TM 5-5420-278-10 table 9 p. 0035 00-22, read; its vertical column and that cell FM 5-125, from memory
    Raises: ValueError for NaN, a negative or infinite depth or slope, or an unknown soil
    """
    if not 0.0 <= depth_m < inf:
        raise refuse("depth_m", depth_m, "finite and not negative")
    if not 0.0 <= slope_rad <= pi / 2:
        raise refuse("slope_rad", slope_rad, "0 to pi/2")
    factor = SOIL_FACTORS.get(soil)
    if factor is None:
        raise unknown("soil", soil, SOIL_FACTORS)
    row, column = _cell(_DEPTHS_FT, depth_m / M_PER_FOOT), _cell(_SLOPES_RAD, slope_rad)
    if row is None or column is None:
        return None
    (i, down), (j, along) = row, column
    upper = _LOAM_PSF[i][j] * (1.0 - along) + _LOAM_PSF[i][j + 1] * along
    lower = _LOAM_PSF[i + 1][j] * (1.0 - along) + _LOAM_PSF[i + 1][j + 1] * along
    value = (upper * (1.0 - down) + lower * down) * factor.value * PA_PER_PSF
    steep = slope_rad > _SLOPES_RAD[3] + _EDGE
    garbled = i == 3 and down > _EDGE and (along > _EDGE if j == 1 else j == 2 and along < 1.0)  # by 7 ft and 1:2
    trust: Trust = "from memory" if steep or garbled else "read"
    return Figure(value, TM_5_5420_278_10, "table 9 p. 0035 00-22", trust)


def deadman_capacity_n(holding_pa: float, face_m: float, effective_m: float) -> float:
    """Force that the ground stands on a deadman's face.

    Equation: F = HP h l
    Units: HP holding power [Pa], h height of the face (a log's diameter) [m], l length that bears [m]
    Range: all > 0
    Source: FM 5-125 ch. 4 (area = breaking strength / HP), from memory
    Raises: ValueError outside the range
    """
    for name, value in (("holding_pa", holding_pa), ("face_m", face_m), ("effective_m", effective_m)):
        if not 0.0 < value < inf:
            raise refuse(name, value, "finite and above 0")
    return holding_pa * face_m * effective_m


def deadman_length_m(breaking_n: float, holding_pa: float, face_m: float, trench_m: float) -> float:
    """Length of a deadman for a rope of this breaking strength.

    Equation: L = BS / (HP h) + t
    Units: BS breaking strength [N], HP holding power [Pa], h height of the face (a log's diameter) [m],
        t width of the trench that the rope runs in [m]
    Range: BS, HP, h > 0, t >= 0
    Source: TM 5-5420-278-10 p. 0035 00-22 (t = 1 ft), read; FM 5-125 ch. 4 (t 1 or 2 ft), from memory
    Raises: ValueError outside the range
    """
    for name, value in (("breaking_n", breaking_n), ("holding_pa", holding_pa), ("face_m", face_m)):
        if not 0.0 < value < inf:
            raise refuse(name, value, "finite and above 0")
    if not 0.0 <= trench_m < inf:
        raise refuse("trench_m", trench_m, "finite and not negative")
    return breaking_n / (holding_pa * face_m) + trench_m


def deadman_slenderness_ratio(length_m: float, thickness_m: float) -> float:
    """Length over thickness (timber) or over diameter (log): past `SLENDERNESS` it breaks as a beam.

    Equation: L / t, at most 9 for timber and 5 for a log
    Units: [m]
    Range: both > 0
    Source: TM 5-5420-278-10 p. 0035 00-23, read
    Raises: ValueError outside the range
    """
    if not 0.0 < length_m < inf:
        raise refuse("length_m", length_m, "finite and above 0")
    if not 0.0 < thickness_m < inf:
        raise refuse("thickness_m", thickness_m, "finite and above 0")
    return length_m / thickness_m
