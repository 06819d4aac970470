"""What fibre weighs and how much heat it takes up, for the warming of rope that slides."""

from typing import Final, NamedTuple

from riglint.mechanics.provenance import COMMON_PRACTICE, Figure

FILL_FRACTION: Final = Figure(0.6, COMMON_PRACTICE, "share of a braid's section that is fibre, low end", "from memory")


class Fibre(NamedTuple):
    """A fibre's density [kg/m3] and specific heat [J/(kg K)]."""

    density: Figure
    specific_heat: Figure


def _figure(value: float, locator: str) -> Figure:
    return Figure(value, COMMON_PRACTICE, locator, "from memory")


# From memory, at room temperature; heat capacity rises with warmth, so these err to the hot side.
_FIBRES: Final = {
    "hmpe": Fibre(_figure(970.0, "polyethylene fibre"), _figure(1850.0, "polyethylene")),
    "polypropylene": Fibre(_figure(910.0, "polypropylene fibre"), _figure(1700.0, "polypropylene")),
    "nylon": Fibre(_figure(1140.0, "polyamide fibre"), _figure(1500.0, "polyamide")),
    "polyester": Fibre(_figure(1380.0, "polyester fibre"), _figure(1000.0, "polyester")),
}


def fibre(kind: str) -> Fibre | None:
    """Density and specific heat of a fibre; None where no figure is known.

    Equation: table lookup
    Units: kg/m3, J/(kg K)
    Range: hmpe, polypropylene, nylon, polyester
    Source: from memory
    """
    return _FIBRES.get(kind)
