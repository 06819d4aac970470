"""Rules of thumb for gear: to judge whether a stated rating can be right, never to replace one.

Tons are of 2,000 lb and diameters in inches as printed; here all is SI.
"""

from math import ceil, inf
from typing import Final

from riglint.mechanics._refuse import refuse
from riglint.mechanics.constants import M_PER_INCH, N_PER_LBF, N_PER_SHORT_TON
from riglint.mechanics.provenance import (
    FM_5_125,
    NAVEDTRA_14026,
    NAVEDTRA_14251,
    NAVEDTRA_BUILDER,
    Figure,
)

_BY_DIAMETER: Final = {
    # tons per square inch of diameter
    "wire": Figure(8.0, NAVEDTRA_14026, "p. 1-7, 8 D^2 tons", "read"),
    "shackle": Figure(3.0, NAVEDTRA_14251, "ch. 6, 3 D^2 tons", "read"),
    # Sources differ by half as much again; the lower one is used. From memory.
    "hook": Figure(2.0 / 3.0, NAVEDTRA_14251, "ch. 6, 2/3 D^2 tons", "from memory"),
    "chain": Figure(8.0, FM_5_125, "ch. 2, 8 D^2 tons", "from memory"),
    "manila": Figure(1.0, FM_5_125, "ch. 1, D^2 tons", "from memory"),
}
_BY_GIRTH: Final = {
    # lb per square inch of circumference, breaking
    "manila": Figure(900.0, NAVEDTRA_BUILDER, "ch. 4, 900 C^2 lb", "read"),
    "nylon": Figure(2400.0, NAVEDTRA_BUILDER, "ch. 4, 2,400 C^2 lb", "read"),
}
# 29 CFR 1918 App II table 1: rope in inches -> clips (drop forged, other).
_CLIPS: Final = {
    0.5: (3, 4),
    0.625: (3, 4),
    0.75: (4, 5),
    0.875: (4, 5),
    1.0: (5, 6),
    1.125: (6, 6),
    1.25: (6, 7),
    1.375: (7, 7),
    1.5: (7, 8),
}
_SIZE_SLACK = 1e-6  # inches


def _inches(name: str, size_m: float) -> float:
    if not 0.0 < size_m < inf:
        raise refuse(name, size_m, "finite and above 0")
    return size_m / M_PER_INCH


def thumb_working_n(item: str, diameter_m: float) -> Figure | None:
    """Safe working load by the rule of thumb; None for an item without one.

    Equation: SWL = k D^2 tons: wire 8, shackle 3, hook 2/3, chain 8, manila 1
    Units: D diameter [m] (printed: inches), result [N] (printed: tons of 2,000 lb)
    Range: D > 0
    Source: NAVEDTRA 14026 p. 1-7 (wire) and 14251 ch. 6 (shackle), read; the rest from memory
    Raises: ValueError outside the range
    """
    inches = _inches("diameter_m", diameter_m)
    rule = _BY_DIAMETER.get(item)
    if rule is None:
        return None
    return rule._replace(value=rule.value * inches**2 * N_PER_SHORT_TON)


def thumb_breaking_n(fibre: str, girth_m: float) -> Figure | None:
    """Breaking strength of fibre rope by its girth; None for a fibre without a rule.

    Equation: BS = k C^2 lb: manila 900, nylon 2,400
    Units: C circumference [m] (printed: inches), result [N] (printed: lb)
    Range: C > 0
    Source: NAVEDTRA Builder ch. 4, read
    Raises: ValueError outside the range
    """
    inches = _inches("girth_m", girth_m)
    rule = _BY_GIRTH.get(fibre)
    if rule is None:
        return None
    return rule._replace(value=rule.value * inches**2 * N_PER_LBF)


def clips_count(diameter_m: float) -> int:
    """U-bolt clips for a wire rope eye by the rule of thumb.

    Equation: n = ceil(3 D + 1)
    Units: D rope diameter [m] (printed: inches)
    Range: D > 0. From 1 in up the table of `clips_by_table_count` asks for more
    Source: NAVEDTRA 14026 p. 1-8, read
    Raises: ValueError outside the range
    """
    return ceil(3.0 * _inches("diameter_m", diameter_m) + 1.0 - _SIZE_SLACK)


def clips_by_table_count(diameter_m: float, *, forged: bool) -> int | None:
    """U-bolt clips by the table for the size or the next above it; None outside the table.

    Equation: table lookup
    Units: rope diameter [m] (printed: inches)
    Range: 0 < D <= 1 1/2 in; below 1/2 in the row of 1/2 in holds
    Source: 29 CFR 1918 App II table 1, read
    Raises: ValueError outside the range
    """
    inches = _inches("diameter_m", diameter_m)
    for size, (drop_forged, other) in _CLIPS.items():
        if inches <= size + _SIZE_SLACK:
            return drop_forged if forged else other
    return None


def clip_spacing_m(diameter_m: float) -> float:
    """Distance from clip to clip.

    Equation: s = 6 D
    Units: D rope diameter [m]
    Range: D > 0
    Source: NAVEDTRA 14026 p. 1-8, and 29 CFR 1918 App II table 1, which agrees, read
    Raises: ValueError outside the range
    """
    if not 0.0 < diameter_m < inf:
        raise refuse("diameter_m", diameter_m, "finite and above 0")
    return 6.0 * diameter_m
