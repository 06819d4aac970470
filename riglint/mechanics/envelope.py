"""The worst load of each component over the corners of what friction may be. Source: derivation.

Quantities that differ from corner to corner are lists. A list is only as long as it takes to tell its corners apart:
each of its values stands for as many corners, one after another, as the longest list is times as long.
"""

from collections.abc import Sequence
from math import inf, sqrt
from typing import NamedTuple, TypeVar

from riglint.mechanics.rounding import place_of
from riglint.mechanics.vectors import ZERO, Vec

Term = tuple[int, float, float, float]  # a leg's number and the unit vector along which its tension pulls
Corners = Sequence[float]
T = TypeVar("T")

CANCELS = 1e-6  # of the pulls in a sum: a resultant below that share of them is rounding, and none
NO_GAIN = 1e-9  # pull per unit of line pull below which hauling gets nowhere


class Extreme(NamedTuple):
    """The greatest load at the resistance and per unit of line pull, and both of them corner by corner."""

    load_n: float
    unit_load: float
    loads: Corners
    unit_loads: Corners


class Envelope(NamedTuple):
    """Extremes of legs and of elements, and the least and most pull per unit of line pull."""

    legs: list[tuple[float, float]]  # greatest tension [N] at the resistance, and per unit of line pull
    elements: list[Extreme]
    pull_least: float
    pull_most: float
    terms: Sequence[Sequence[Term]]
    tensions: Sequence[Corners]
    cap_n: float

    def force(self, element: int) -> Vec:
        """The force [N] that goes with an element's greatest load. Of corners that are equal the first gives it."""
        load_n, unit_load, loads, unit_loads = self.elements[element]
        if load_n <= 0.0:
            return ZERO
        if load_n == self.cap_n * unit_load < inf:
            return self.unit_force(element, self.cap_n)
        at = place_of(load_n, loads)
        return self._pull(element, at, len(loads), loads[at] / unit_loads[at])

    def unit_force(self, element: int, line_n: float = 1.0) -> Vec:
        """The force [N] at a line pull that goes with an element's greatest load per unit of line pull."""
        _, unit_load, _, unit_loads = self.elements[element]
        if unit_load <= 0.0:
            return ZERO
        return self._pull(element, place_of(unit_load, unit_loads), len(unit_loads), line_n)

    def _pull(self, element: int, corner: int, count: int, line_n: float) -> Vec:
        x = y = z = 0.0
        for leg, ux, uy, uz in self.terms[element]:
            own = self.tensions[leg]
            tension = own[corner * len(own) // count]
            x, y, z = x + tension * ux, y + tension * uy, z + tension * uz
        return (line_n * x, line_n * y, line_n * z)


def envelope(
    tensions: Sequence[Corners],
    elements: Sequence[Sequence[Term]],
    pull: Sequence[tuple[int, float]],
    resistance_n: float,
    cap_n: float,
) -> Envelope:
    """Greatest loads over all corners of leg tensions per unit of line pull.

    Equation: load = |sum t_i u_i| R / sum(t_i c_i), and no more than |sum t_i u_i| cap. Symbols: tensions, of each leg
    its t per unit of the first's, corner by corner; elements, terms (leg, ux, uy, uz); pull, (leg, c) with c the share
    of the leg's tension along the travel; resistance R in newtons (0 for none); cap, the most line pull in newtons
    (inf for none known). Range: R >= 0, cap > 0. Where hauling gets nowhere the line pull is the cap. The cap is
    put on the greatest load, not on each corner: of the lesser of two loads the worst may lie between corners.
    Pulls that cancel out to within a millionth leave nothing: 0.05 N in a line at 50 kN is what rounding leaves.
    Source: derivation; vector sums.
    """
    gains: Corners = [0.0]
    for leg, share in sorted(pull):
        own = tensions[leg]
        gains = [gain + share * t for gain, t in zip(_spread(gains, len(own)), own, strict=True)]
    blocked_n = cap_n if resistance_n > 0.0 else 0.0
    lines_n = [resistance_n / gain if gain > NO_GAIN else blocked_n for gain in gains]
    by_count: dict[int, Corners] = {len(lines_n): lines_n}
    singles = [_extreme(own, lines_n, by_count, cap_n) for own in tensions]
    found = [
        singles[terms[0][0]] if len(terms) == 1 else _extreme(_sizes(terms, tensions), lines_n, by_count, cap_n)
        for terms in elements
    ]
    legs = [(load_n, unit) for load_n, unit, _, _ in singles]
    return Envelope(legs, found, min(gains), max(gains), elements, tensions, cap_n)


def _extreme(sizes: Corners, lines_n: Corners, by_count: dict[int, Corners], cap_n: float) -> Extreme:
    """The extreme of what carries so much per unit of line pull; what is slack carries nothing at any line pull.

    `by_count` keeps the line pulls as so many corners.
    """
    unit = max(sizes)
    if unit <= 0.0:
        return Extreme(0.0, 0.0, sizes, sizes)
    count = len(sizes)
    if count not in by_count:
        by_count[count] = _most(lines_n, count)
    loads = [size * n if size > 0.0 else 0.0 for size, n in zip(sizes, by_count[count], strict=True)]
    return Extreme(min(max(loads), cap_n * unit), unit, loads, sizes)


def _most(own: Corners, count: int) -> Corners:
    """As so many corners, the most of those that each of them stands for."""
    each = len(own) // count
    return [max(own[i : i + each]) for i in range(0, len(own), each)] if each else _spread(own, count)


def _spread(own: Sequence[T], count: int) -> Sequence[T]:
    """The same values as so many corners."""
    if len(own) == count:
        return own
    each = range(count // len(own))
    return [value for value in own for _ in each]


def _sizes(terms: Sequence[Term], tensions: Sequence[Corners]) -> Corners:
    """The resultant of several legs' pulls per unit of line pull; none where they cancel out."""
    if len(terms) == 2:
        (a, ax, ay, az), (b, bx, by, bz) = terms
        count = max(len(tensions[a]), len(tensions[b]))
        first, second = _spread(tensions[a], count), _spread(tensions[b], count)
        # |t_a u_a + t_b u_b|^2 = (t_a - t_b)^2 + t_a t_b |u_a + u_b|^2, which keeps its digits where the two cancel.
        both = (ax + bx) ** 2 + (ay + by) ** 2 + (az + bz) ** 2
        return [
            size if (size := sqrt((s - t) ** 2 + s * t * both)) >= CANCELS * (s + t) else 0.0
            for s, t in zip(first, second, strict=True)
        ]
    sums: Sequence[tuple[float, float, float, float]] = [(0.0, 0.0, 0.0, 0.0)]
    for leg, ux, uy, uz in sorted(terms):  # legs further in are told apart by fewer corners
        own = tensions[leg]
        alike = _spread(sums, len(own))
        sums = [(x + t * ux, y + t * uy, z + t * uz, pull + t) for (x, y, z, pull), t in zip(alike, own, strict=True)]
    return [size if (size := sqrt(x * x + y * y + z * z)) >= CANCELS * pull else 0.0 for x, y, z, pull in sums]
