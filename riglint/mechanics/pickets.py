"""Picket holdfasts: what the manuals give each arrangement, in force."""

from typing import Final, Literal

from riglint.mechanics._refuse import unknown
from riglint.mechanics.constants import N_PER_KGF, N_PER_LBF
from riglint.mechanics.provenance import AU_DISASTER_RESCUE, FM_5_125, NAVEDTRA_14251, Figure

# Wood, 3 in by 5 ft, driven 3 to 4 ft, leaning back 15 deg, undisturbed loam.
_US: Final = {
    "1": Figure(700.0 * N_PER_LBF, NAVEDTRA_14251, "single picket, 700 lb", "read"),
    # From memory: the two arrangements in between.
    "1-1": Figure(1400.0 * N_PER_LBF, FM_5_125, "ch. 4, 1-1, 1,400 lb", "from memory"),
    "2-1": Figure(2000.0 * N_PER_LBF, FM_5_125, "ch. 4, 2-1, 2,000 lb", "from memory"),
    "1-1-1": Figure(1800.0 * N_PER_LBF, NAVEDTRA_14251, "1-1-1, 1,800 lb", "read"),
    "3-2-1": Figure(4000.0 * N_PER_LBF, NAVEDTRA_14251, "3-2-1, 4,000 lb", "read"),
}
# Steel, 25 mm by 1.5 m, driven two thirds at 45 deg, at least 1 m apart, good ground.
_AU_EACH = 350.0 * N_PER_KGF
_AU_MOST = 2000.0 * N_PER_KGF

# From memory.
SOIL_FACTORS: Final = {
    "undisturbed loam": Figure(1.0, NAVEDTRA_14251, "the table's own ground", "read"),
    "wet clay and gravel": Figure(0.9, FM_5_125, "ch. 4, wet earth", "from memory"),
    "wet river clay and sand": Figure(0.5, FM_5_125, "ch. 4, wet earth", "from memory"),
}

Tradition = Literal["us", "au"]


def _figure(arrangement: str, tradition: Tradition) -> Figure:
    if arrangement not in _US:
        raise unknown("arrangement", arrangement, _US)
    if tradition == "us":
        return _US[arrangement]
    if tradition != "au":
        raise unknown("tradition", tradition, ("us", "au"))
    pickets = sum(int(row) for row in arrangement.split("-"))
    value = min(pickets * _AU_EACH, _AU_MOST)
    return Figure(value, AU_DISASTER_RESCUE, "8.3, 350 kg each, to 2 t in all", "read")


def picket_holdfast(arrangement: str, tradition: Tradition, soil: str) -> Figure:
    """Force that a picket holdfast stands [N].

    Equation: table by arrangement (us), or 350 kgf for each picket up to 2,000 kgf in all (au); times the
        soil factor
    Units: result [N]
    Range: arrangements 1, 1-1, 2-1, 1-1-1, 3-2-1; wood pickets (us), steel pickets (au)
    Source: NAVEDTRA 14251 (us) and Australian Disaster Rescue manual 8.3 (au), read; 1-1, 2-1 and the soil
        factors FM 5-125 ch. 4, from memory
    Raises: ValueError for an unknown arrangement, tradition or soil
    """
    factor = SOIL_FACTORS.get(soil)
    if factor is None:
        raise unknown("soil", soil, SOIL_FACTORS)
    figure = _figure(arrangement, tradition)
    if factor.value == 1.0:
        return figure
    locator = f"{figure.locator}; {soil} x {factor.value}"
    return Figure(figure.value * factor.value, figure.source, locator, "from memory")


def safer_picket_holdfast(arrangement: str, soil: str) -> Figure:
    """The lower of what the two traditions give [N]: for a plan that does not say which pickets it uses.

    Equation: min over the traditions
    Units: result [N]
    Range: as `picket_holdfast`
    Source: as `picket_holdfast`; taking the lower is ours
    Raises: ValueError for an unknown arrangement or soil
    """
    us = picket_holdfast(arrangement, "us", soil)
    au = picket_holdfast(arrangement, "au", soil)
    return us if us.value <= au.value else au
