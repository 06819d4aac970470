"""Tensions of all legs for one choice of what friction is, and for every corner of what it may be."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import isfinite

from riglint.mechanics.compound import TAUT, NoBalance
from riglint.mechanics.envelope import CANCELS, Corners
from riglint.mechanics.linear import solve_linear
from riglint.mechanics.tension import NO_RANGE, Ratio, corner_tensions
from riglint.mechanics.vectors import ZERO, Vec, along, dot, sub, unit
from riglint.solve.geometry import Geometry
from riglint.solve.wiring import LegEnds, Wiring


class Sharing:
    """How the legs of a rig share the pull in one geometry.

    Other lines' and bridles' tensions follow from the balance of forces at what floats, taken along the directions in
    which it holds without friction, where it is exact. With friction, what is left over lies across the lines: the
    redirect would shift by centimetres to balance it. A line that pulls on no more than what hangs from a tether
    shares with the tether: its balance is taken square to that.

    For each string i: sum over the floating nodes of test_i . (sum_j tau_j column_j + known) = 0. Every ratio stands
    in one column, to the first power, so that each tension rises or falls steadily with each ratio, and the worst
    lies at a corner of their ranges. Here is kept what does not depend on the ratios.
    """

    def __init__(self, wiring: Wiring, geometry: Geometry) -> None:
        self._own = len(wiring.line_legs[0])
        self._legs = len(wiring.legs)
        self._strings = wiring.strings
        with_turns = {turn.before for turn in wiring.turns}
        self._turning = [legs[0] in with_turns for legs in wiring.strings]
        taut = [ratio > TAUT for ratio in geometry.balance.string_ratios]
        self._taut = [j for j, so in enumerate(taut) if so]
        self._string_of = {leg: j for j, legs in enumerate(wiring.strings) for leg in legs}
        self._into: list[tuple[int, int, int, float]] = []  # equation, string, leg and its share
        self._given: list[tuple[int, int, float]] = []  # equation, leg of the hauling line and its share
        for ends in wiring.balances:
            self._add(ends, geometry.ways, taut, ZERO)
        for number, ends in wiring.held:
            self._add(ends, geometry.ways, taut, _tether(wiring, geometry, number))

    def _add(self, ends: LegEnds, ways: tuple[Vec, ...], taut: list[bool], tether: Vec) -> None:
        """The balance at one node, square to the tether that holds it."""
        tests: dict[int, Vec] = {}
        for leg, sign in ends:
            string = self._string_of.get(leg)
            if string is not None and taut[string]:
                (x, y, z), (dx, dy, dz) = tests.get(string, (0.0, 0.0, 0.0)), ways[leg]
                tests[string] = (x + sign * dx, y + sign * dy, z + sign * dz)
        for i, along_it in tests.items():
            test = along(along_it, tether, -dot(along_it, tether))
            for leg, sign in ends:
                string = self._string_of.get(leg)
                if string is None:
                    self._given.append((i, leg, sign * dot(test, ways[leg])))
                elif taut[string]:
                    self._into.append((i, string, leg, sign * dot(test, ways[leg])))

    def tensions(self, ratios: list[float]) -> list[float]:
        """Of every leg per unit of the first leg's, for one choice of ratios. Raises NoBalance."""
        tension = [1.0]
        for ratio in ratios[: self._own - 1]:
            tension.append(tension[-1] * ratio)
        if self._strings:
            tension.extend([0.0] * (self._legs - len(tension)))
            self._share(tension, ratios)
        return tension

    def _share(self, tension: list[float], ratios: list[float]) -> None:
        base = self._along(ratios)
        size = len(self._strings)
        # Three legs of a bridle in one plane share as they please: the least sum of squares is as good as any.
        matrix = [[1e-9 if i == j else 0.0 for j in range(size)] for i in range(size)]
        right = [0.0] * size
        for i, j, leg, share in self._into:
            matrix[i][j] += share * base[leg]
        for i, leg, share in self._given:
            right[i] -= share * tension[leg]
        shares = solve_linear(matrix, right)
        if not all(map(isfinite, shares)):
            raise NoBalance("how the lines share the load can't be told: nothing floats between them")
        for j in self._taut:
            share = shares[j] if shares[j] > CANCELS else 0.0
            for leg in self._strings[j]:
                tension[leg] = share * base[leg]

    def _along(self, ratios: list[float]) -> dict[int, float]:
        """Each string's tensions over its own first leg's."""
        base: dict[int, float] = {}
        at = self._own - 1
        for legs, turning in zip(self._strings, self._turning, strict=True):
            along = 1.0
            for k, leg in enumerate(legs):
                if k and turning:
                    along *= ratios[at]
                    at += 1
                base[leg] = along
        return base

    def corners(self, ratios: list[Ratio]) -> Sequence[Corners]:
        """Of each leg its tensions at every corner of the ratios' ranges. Raises NoBalance."""
        if not self._strings:
            return corner_tensions(ratios)
        ends = [(low, high) if high - low > NO_RANGE else (low,) for low, high, _ in ratios]
        return list(zip(*[self.tensions(list(choice)) for choice in product(*ends)], strict=True))


def _tether(wiring: Wiring, geometry: Geometry, number: int) -> Vec:
    """The way of a tether; none where it hangs slack, which holds nothing."""
    whole, tether = geometry.balance.whole, wiring.net.tethers[number]
    if whole is None or whole.ratios[number] <= TAUT:
        return ZERO
    return unit(sub(geometry.places[tether.anchor], geometry.places[tether.node]))
