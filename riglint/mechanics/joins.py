"""What a join or an end fitting leaves of the rope's strength."""

from math import inf
from typing import Final

from riglint.mechanics._refuse import refuse, unknown
from riglint.mechanics.constants import M_PER_INCH
from riglint.mechanics.provenance import (
    COMMON_PRACTICE,
    CORDAGE_INSTITUTE,
    FM_5_125,
    TM_5_3810_305_10,
    WIRE_ROPE_SLING_MANUAL,
    Band,
    Trust,
)
from riglint.mechanics.rounding import surpasses

_TM = "table 4 p. 4-36, terminal efficiency"


def _flat(value: float, source: str, locator: str, trust: Trust) -> Band:
    return Band(value, value, source, locator, trust)


def _wire(low: float, high: float) -> Band:
    return Band(low, high, TM_5_3810_305_10, _TM, "read")


_LOOPS = _flat(0.85, COMMON_PRACTICE, "parallel legs, 15 % lost", "common practice")

# Fibre rope. `low` is what a check uses; `high` is what it might be.
_FIBRE: Final = {
    "loop-to-loop square knot": _LOOPS,
    "bowline": Band(0.67, 0.75, CORDAGE_INSTITUTE, "retained strength, as quoted", "read second hand"),
    # From memory: general use leaves a knotted rope half its strength or less.
    "knot": _flat(0.50, FM_5_125, "knots in general use, half or less", "from memory"),
    "spliced eye": _flat(0.90, COMMON_PRACTICE, "buried or tucked eye splice", "from memory"),
}
# HMPE is slippery and a knot costs it more: from memory, low confidence, so only ever to make things worse.
_SLIPPERY: Final = {
    "bowline": Band(0.35, 0.50, COMMON_PRACTICE, "knot in HMPE single braid", "from memory, low confidence"),
    "knot": Band(0.35, 0.50, COMMON_PRACTICE, "knot in HMPE single braid", "from memory, low confidence"),
    "girth hitch": Band(0.60, 0.85, COMMON_PRACTICE, "soft eyes girthed", "from memory, low confidence"),
}
_WIRE_INDEPENDENT_CORE: Final = {
    "poured socket": _wire(1.00, 1.00),
    "swaged socket": _wire(0.95, 0.95),
    "pressed sleeve": _wire(0.95, 0.95),
    "hand-tucked thimble splice": _wire(0.86, 0.86),
    "wedge socket": _wire(0.75, 0.95),
    "clips": _wire(0.80, 0.80),
}
# The table gives no swaged socket on a fibre core: there is none to look up.
_WIRE_FIBRE_CORE: Final = {
    "poured socket": _wire(1.00, 1.00),
    "pressed sleeve": _wire(0.925, 0.925),
    "hand-tucked thimble splice": _wire(0.86, 0.86),
    "wedge socket": _wire(0.75, 0.95),
    "clips": _wire(0.80, 0.80),
}
# What a pressed sleeve leaves of thicker rope, by the size up to which it holds in metres and for either core; for the
# thickest on a fibre core none is established. The first row is the other source's, too.
_THICK_SLEEVES: Final = ((2.0 * M_PER_INCH, 0.925, 0.90), (inf, 0.90, None))
_SLEEVES_TO_M: Final = 1.0 * M_PER_INCH
_TUCKED_TO_M: Final = 0.5 * M_PER_INCH  # the size that the figure was seen for; what thicker rope keeps was not read
SIZED: Final = frozenset({"pressed sleeve", "hand-tucked thimble splice"})
"""Ends whose figures go by the size of the rope."""

_TABLES: Final = {
    "fibre": _FIBRE,
    "hmpe": _FIBRE | _SLIPPERY,
    "wire": _WIRE_FIBRE_CORE,  # core not stated: the lower of the two columns
    "wire, independent core": _WIRE_INDEPENDENT_CORE,
    "wire, fibre core": _WIRE_FIBRE_CORE,
}


def join_factor(kind: str, rope: str, *, parallel_legs: bool | None = None, twisted: bool | None = None) -> Band | None:
    """Share of the rope's strength that a join or an end leaves; None where there is no figure.

    Equation: table lookup
    Units: fraction of the rope's breaking strength; `low` is the end that a check uses
    Range: rope is fibre, hmpe, wire, or wire with its core. Loop to loop only where it is known that the
        legs lie parallel (True) and nothing is twisted (False): no figure for another setting or an
        unstated one. Those that are `SIZED` hold for thin rope: `end_factor` has them by size
    Source: TM 5-3810-305-10 table 4 (wire), read; Cordage Institute (bowline), read second hand;
        FM 5-125 (knots) and the spliced eye, from memory; loop to loop, common practice, no source;
        knots in HMPE, from memory with low confidence, used only to make a verdict worse
    Raises: ValueError for an unknown rope
    """
    table = _TABLES.get(rope)
    if table is None:
        raise unknown("rope", rope, _TABLES)
    if kind == "loop-to-loop square knot" and not (parallel_legs is True and twisted is False):
        return None
    return table.get(kind)


def end_factor(kind: str, rope: str, diameter_m: float) -> Band | None:
    """As `join_factor`, for an end in rope of a size; None where there is no figure for it.

    Equation: table lookup. Units: diameter [m]; fraction of the rope's breaking strength
    Range: diameter > 0. Pressed sleeves up to 1 in, 2 in and above; hand-tucked splices up to 1/2 in
    Source: as `join_factor`; sleeves over 1 in: Wire Rope Sling Users Manual, nominal splice efficiencies of
        mechanically spliced slings, read second hand
    Raises: ValueError for an unknown rope or a diameter outside the range
    """
    if not diameter_m > 0.0:
        raise refuse("diameter_m", diameter_m, "above 0")
    if kind == "pressed sleeve" and surpasses(diameter_m, _SLEEVES_TO_M):
        steel, fibre = next((row[1], row[2]) for row in _THICK_SLEEVES if not surpasses(diameter_m, row[0]))
        value = steel if rope == "wire, independent core" else fibre
        return (
            None
            if value is None
            else _flat(value, WIRE_ROPE_SLING_MANUAL, "nominal splice efficiencies", "read second hand")
        )
    if kind == "hand-tucked thimble splice" and surpasses(diameter_m, _TUCKED_TO_M):
        return None
    return join_factor(kind, rope)
