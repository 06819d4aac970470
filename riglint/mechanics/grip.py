"""How well rope grips what it is wound on: the low end, for wraps that must hold by friction."""

from typing import Final

from riglint.mechanics._refuse import unknown
from riglint.mechanics.provenance import COMMON_PRACTICE, Figure

_TEXTBOOK = "low end for rope on steel, textbooks of mechanics"

# From memory: HMPE slides at 0.05 to 0.10. Steel on steel is printed as 0.1 to 0.3, natural fibre on steel as 0.2.
_LOW: Final = {
    "hmpe": Figure(0.05, COMMON_PRACTICE, "HMPE on steel, low end of 0.05-0.10", "from memory"),
    "aramid": Figure(0.10, COMMON_PRACTICE, _TEXTBOOK, "from memory"),
    "polyester": Figure(0.10, COMMON_PRACTICE, _TEXTBOOK, "from memory"),
    "nylon": Figure(0.10, COMMON_PRACTICE, _TEXTBOOK, "from memory"),
    "polypropylene": Figure(0.10, COMMON_PRACTICE, _TEXTBOOK, "from memory"),
    "manila": Figure(0.10, COMMON_PRACTICE, _TEXTBOOK, "from memory"),
    "wire": Figure(0.10, COMMON_PRACTICE, "steel on steel, low end of 0.1-0.3, greased", "from memory"),
}


def rope_on_drum_mu(rope: str) -> Figure:
    """Coefficient of friction that rope on a steel drum has at the least.

    Equation: table lookup
    Units: dimensionless
    Range: hmpe, aramid, polyester, nylon, polypropylene, manila, wire; wire with its core named counts as wire.
        New rope on a bare drum grips better; wet, greased or coated rope is why the low end is taken
    Source: steel on steel 0.1 to 0.3 in textbooks of mechanics; the rest from memory, low end of each
    Raises: ValueError for another rope
    """
    figure = _LOW.get("wire" if rope.startswith("wire,") else rope)
    if figure is None:
        raise unknown("rope", rope, _LOW)
    return figure
