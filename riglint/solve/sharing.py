"""Tensions of all legs for one choice of what friction is, and for every corner of what it may be."""

from __future__ import annotations

from math import isfinite

from riglint.mechanics.compound import NoBalance
from riglint.mechanics.linear import solve_linear
from riglint.mechanics.tension import Ratio, corner_tensions
from riglint.mechanics.vectors import Vec
from riglint.solve.geometry import Geometry
from riglint.solve.wiring import Wiring


def leg_tensions(wiring: Wiring, geometry: Geometry, ratios: list[float]) -> list[float]:
    """Tension of every leg per unit of the first leg's, for one choice of ratios."""
    own = len(wiring.line_legs[0])
    tension = [1.0]
    for ratio in ratios[: own - 1]:
        tension.append(tension[-1] * ratio)
    if wiring.strings:
        _share(wiring, geometry, tension, ratios[own - 1 :])
    return tension


def _share(wiring: Wiring, geometry: Geometry, tension: list[float], ratios: list[float]) -> None:
    """Tensions of the other lines and of bridles' legs, from the balance of forces at what floats.

    The balance is taken along the directions in which it holds without friction, where it is exact. With friction,
    what is left over lies across the lines: the redirect would shift by centimetres to balance it.
    """
    base = [0.0] * len(wiring.legs)
    even = [0.0] * len(wiring.legs)  # the same without friction
    at = 0
    for legs, slack in zip(wiring.strings, geometry.balance.string_ratios, strict=True):
        along = taut = 1.0 if slack > 0.0 else 0.0
        turning = any(t.before == legs[0] for t in wiring.turns)
        for k, leg in enumerate(legs):
            if k and turning:
                along *= ratios[at]
                at += 1
            base[leg], even[leg] = along, taut
    tension.extend([0.0] * (len(wiring.legs) - len(tension)))
    shares = _shares(wiring, geometry, tension, base, even)
    if not all(map(isfinite, shares)):
        raise NoBalance("how the lines share the load can't be told: nothing floats between them")
    for legs, share in zip(wiring.strings, shares, strict=True):
        for leg in legs:
            tension[leg] = max(0.0, share) * base[leg]


def _shares(
    wiring: Wiring, geometry: Geometry, known: list[float], base: list[float], even: list[float]
) -> list[float]:
    """Each string's tension: sum over the floating nodes of test_i . (sum_j tau_j column_j + known) = 0.

    Every ratio stands in one column, to the first power, so that each tension rises or falls steadily with each
    ratio, and the worst lies at a corner of their ranges.
    """
    string_of = {leg: j for j, legs in enumerate(wiring.strings) for leg in legs}
    size = len(wiring.strings)
    # Three legs of a bridle in one plane share as they please: the least sum of squares is as good as any.
    matrix = [[1e-9 if i == j else 0.0 for j in range(size)] for i in range(size)]
    right = [0.0] * size
    for ends in wiring.balances:
        columns = [[0.0, 0.0, 0.0] for _ in range(size)]
        tests = [[0.0, 0.0, 0.0] for _ in range(size)]
        fixed = [0.0, 0.0, 0.0]
        for leg, sign in ends:
            way = geometry.ways[leg]
            if leg in string_of:
                _add_to(columns[string_of[leg]], way, sign * base[leg])
                _add_to(tests[string_of[leg]], way, sign * even[leg])
            else:
                _add_to(fixed, way, sign * known[leg])
        for i, test in enumerate(tests):
            right[i] -= sum(a * b for a, b in zip(test, fixed, strict=True))
            for j, column in enumerate(columns):
                matrix[i][j] += sum(a * b for a, b in zip(test, column, strict=True))
    return solve_linear(matrix, right)


def _add_to(vector: list[float], way: Vec, amount: float) -> None:
    for axis in range(3):
        vector[axis] += amount * way[axis]


def corners(wiring: Wiring, geometry: Geometry, ratios: list[Ratio]) -> list[list[float]]:
    if not wiring.strings:
        return list(corner_tensions(ratios))
    choices: list[list[float]] = [[]]
    for low, high, _ in ratios:
        ends = (low, high) if high - low > 1e-12 else (low,)
        choices = [[*c, q] for c in choices for q in ends]
    return [leg_tensions(wiring, geometry, choice) for choice in choices]
