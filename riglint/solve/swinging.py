"""Where along the travel to look at a body that may tip over, so that no pull swings far from one place to the next."""

from collections.abc import Iterator
from itertools import pairwise

from riglint.mechanics.vectors import distance
from riglint.rig.model import Body
from riglint.solve.geometry import Walk
from riglint.solve.mark import Mark
from riglint.solve.wiring import Wiring

FAR_RAD = 0.15  # a pull that swings by less than this is, half way, within 0.3 % of what the nearer end tells
PLACES = 3  # decimals of a metre, the same on every machine


def swings(wiring: Wiring, walk: Walk, places: list[float]) -> tuple[Mark, ...]:
    """Places between those given, so close that legs on bodies whose centre of gravity is stated turn by little.

    A lesser pull across a body may tip it over where the greatest, along it, doesn't: its resultant peaks elsewhere.

    Units: travel s [m]. Range: places in order. Source: derivation (geometry). Raises NoBalance.
    """
    return tuple(
        Mark(place, "the pull on {} turns", component.name)
        for component, number in zip(wiring.components, wiring.sum_of, strict=True)
        if isinstance(component.item, Body) and component.item.facts.centre_of_gravity is not None
        for low_m, high_m in pairwise(places)
        for place in _between(walk, [leg for leg, _ in wiring.sums[number]], low_m, high_m)
    )


def _between(walk: Walk, legs: list[int], low_m: float, high_m: float) -> Iterator[float]:
    low, high = walk.at(low_m), walk.at(high_m)
    middle_m = round(0.5 * (low_m + high_m), PLACES)
    if low_m < middle_m < high_m and any(distance(low.ways[leg], high.ways[leg]) > FAR_RAD for leg in legs):
        yield from _between(walk, legs, low_m, middle_m)
        yield middle_m
        yield from _between(walk, legs, middle_m, high_m)
