"""Where along the travel rope that ran over a seat one way begins to run the other way."""

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from riglint.mechanics.travel import root_between
from riglint.solve.geometry import Walk
from riglint.solve.mark import Mark
from riglint.solve.wiring import WiredTurn, Wiring


def reversals(wiring: Wiring, walk: Walk, places: list[float]) -> tuple[Mark, ...]:
    """The places between those given, in order, at which rope turns back over a seat.

    There friction changes sides, and what lies beyond the seat goes from the least to the most that it can carry at
    one and the same line pull: a jump, which stations on either side of it don't show.

    Equation: d(path beyond the seat)/ds = 0. Units: travel s [m]. Range: places in order. Raises NoBalance.
    Source: derivation (friction acts against slip).
    """
    return tuple(found for turn in wiring.turns for found in _of(wiring, walk, turn, places))


def _of(wiring: Wiring, walk: Walk, turn: WiredTurn, places: list[float]) -> Iterator[Mark]:
    slip = partial(_slip, wiring, walk, turn, places[-1])
    rates = [slip(place) for place in places]
    for (low_m, at_low), (high_m, at_high) in pairwise(zip(places, rates, strict=True)):
        if at_low * at_high < 0.0:
            place = root_between(slip, low_m, high_m, at_low, at_high)
            yield Mark(place, "the rope turns back over {}", turn.turn.redirect)


def _slip(wiring: Wiring, walk: Walk, turn: WiredTurn, end_m: float, travel_m: float) -> float:
    """How fast the path beyond a seat grows, in metres a metre of travel."""
    rates = walk.rates(travel_m, end_m)
    return sum(rates[turn.beyond : wiring.line_legs[turn.line].stop])
