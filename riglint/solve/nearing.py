"""Where along the travel redirects, line's ends and the fairlead that pass each other are nearest."""

from collections.abc import Iterator
from itertools import pairwise

from riglint.mechanics.travel import root_between
from riglint.rig.model import RigStage
from riglint.solve.geometry import Walk
from riglint.solve.mark import Mark
from riglint.solve.rope import stands_between
from riglint.solve.wiring import Wiring

WORTH_M = 1e-3  # of a leg's length: what is less is worth no station
PLACES = 3  # decimals of a metre: a length is flat where it is least, and every machine shall find the same place


def nearings(stage: RigStage, wiring: Wiring, walk: Walk, places: list[float]) -> tuple[Mark, ...]:
    """The places between those given at which a leg is shorter than on either side.

    Equation: d|leg|/ds = 0, redirects swinging as they do. Units: travel s [m]. Range: places in order.
    Source: derivation (geometry). Raises NoBalance.
    """
    return tuple(
        found
        for number, leg in enumerate(wiring.legs)
        if leg.line >= 0
        for found in _of(stage, wiring, walk, number, places)
    )


def _of(stage: RigStage, wiring: Wiring, walk: Walk, number: int, places: list[float]) -> Iterator[Mark]:
    leg = wiring.legs[number]
    index = number - wiring.line_legs[leg.line].start
    names = stands_between(stage.lines[leg.line], index, wiring.names[leg.begin], wiring.names[leg.end])
    if names[0] == names[1]:
        return

    def rate(travel_m: float) -> float:
        return walk.rates(travel_m, places[-1])[number]

    for low_m, high_m in pairwise(places):
        at_low, at_high = rate(low_m), rate(high_m)
        if at_low < 0.0 < at_high:
            place = round(root_between(rate, low_m, high_m, at_low, at_high), PLACES)
            least_m = min(walk.at(low_m).lengths[number], walk.at(high_m).lengths[number])
            if low_m < place < high_m and walk.at(place).lengths[number] < least_m - WORTH_M:
                yield Mark(place, f"{names[0]} and {names[1]} are nearest")
