"""Where along the travel a redirect turns its rope the most, and so is loaded most at one and the same line pull."""

from collections.abc import Iterator
from functools import partial
from itertools import pairwise
from typing import NamedTuple

from riglint.mechanics.travel import root_between
from riglint.mechanics.vectors import distance
from riglint.solve.geometry import Walk
from riglint.solve.wiring import WiredTurn, Wiring

STILL = 1e-9  # per metre of travel: a cosine that changes less doesn't change
WORTH = 1e-3  # of a redirect's load: what is less is worth no station


class Sharpest(NamedTuple):
    """A place of the travel, in metres, and the redirect that turns its rope most there."""

    travel_m: float
    redirect: str


def sharpest(wiring: Wiring, walk: Walk, places: list[float]) -> tuple[Sharpest, ...]:
    """The places between those given, in order, at which a redirect's turn is sharper than at those on either side.

    Equation: |u_beyond - u_before|, the resultant over the tension, is greatest where d(u_before . u_beyond)/ds = 0.
    Units: travel s [m]. Range: places in order. Raises NoBalance. Source: derivation (geometry).
    """
    return tuple(found for turn in wiring.turns for found in _of(walk, turn, places))


def _of(walk: Walk, turn: WiredTurn, places: list[float]) -> Iterator[Sharpest]:
    opening = partial(walk.opening, before=turn.before, beyond=turn.beyond)
    rates = [opening(place) for place in places]
    for (low_m, at_low), (high_m, at_high) in pairwise(zip(places, rates, strict=True)):
        if at_low < -STILL and at_high > STILL:
            place = root_between(opening, low_m, high_m, at_low, at_high)
            ends = max(_resultant(walk, turn, low_m), _resultant(walk, turn, high_m))
            if _resultant(walk, turn, place) > ends * (1.0 + WORTH):
                yield Sharpest(place, turn.turn.redirect)


def _resultant(walk: Walk, turn: WiredTurn, travel_m: float) -> float:
    """The pull on a redirect over the tension of its rope, lost nothing."""
    ways = walk.at(travel_m).ways
    return distance(ways[turn.before], ways[turn.beyond])
