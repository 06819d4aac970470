"""Where along the travel something happens: roots of functions that are convex in the travel.

A path length is a convex function of the travel (`balance`), so it falls to one minimum and then rises: it meets a
given length nowhere, once or twice. Which of these is told by its values and slopes at the two ends; roots are
then bracketed and found, never stepped for. Source: derivation; root finding by bracketed interpolation (Illinois),
textbooks of numerical analysis.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from riglint.mechanics._refuse import refuse

Function = Callable[[float], float]

CLOSE = 1e-6  # metres of path, or of travel, that are as good as none
ROUNDING = 1e-9  # metres of path that are rounding, and none
GOLDEN = 0.3819660112501051


def root_between(f: Function, low_m: float, high_m: float, at_low: float, at_high: float) -> float:
    """The root of f between two places where it has opposite signs, to within a micrometre.

    Equation: f(x) = 0, by Illinois steps with bisection where they stall. Units: x travel [m], f any.
    Range: at_low * at_high <= 0. Source: textbooks of numerical analysis. Raises: ValueError for equal signs.
    """
    if at_low == 0.0:
        return low_m
    if at_high == 0.0:
        return high_m
    if not at_low * at_high < 0.0:
        raise refuse("at_low, at_high", (at_low, at_high), "of opposite signs")
    a, b, fa, fb = low_m, high_m, at_low, at_high
    for turn in range(200):
        x = (a * fb - b * fa) / (fb - fa)
        if not min(a, b) < x < max(a, b) or turn % 8 == 7:
            x = 0.5 * (a + b)
        fx = f(x)
        if abs(fx) < CLOSE or abs(b - a) < CLOSE:
            return x
        if fx * fb < 0.0:
            a, fa = b, fb
        else:
            fa *= 0.5
        b, fb = x, fx
    return b


def lowest(f: Function, low_m: float, high_m: float) -> tuple[float, float]:
    """Where a convex f is least between two places, and its value there, stopping early once it is below zero.

    Equation: min f, by golden section. Units: x travel [m]. Range: low <= high. Source: textbooks.
    """
    a, b = low_m, high_m
    x = a + GOLDEN * (b - a)
    y = b - GOLDEN * (b - a)
    fx, fy = f(x), f(y)
    while b - a > 1e-7:
        if min(fx, fy) < 0.0:
            break
        if fx <= fy:
            b, y, fy = y, x, fx
            x = a + GOLDEN * (b - a)
            fx = f(x)
        else:
            a, x, fx = x, y, fy
            y = b - GOLDEN * (b - a)
            fy = f(y)
    return (x, fx) if fx <= fy else (y, fy)


def convex_roots(
    f: Function, end_m: float, slopes: Callable[[], tuple[float, float]], steepest_ratio: float = inf
) -> tuple[float, ...]:
    """All roots from 0 to `end_m` of a convex function, in order: none, one or two.

    Equation: f(s) = 0. Units: s travel [m]. Range: end >= 0. `slopes` gives f's at the two ends, and is asked only
    where the values there leave it open; `steepest_ratio` bounds its slope everywhere. A start or end exactly on the
    root counts. Source: derivation.
    """
    at_start, at_end = (0.0 if abs(value) < ROUNDING else value for value in (f(0.0), f(end_m)))
    if at_start * at_end < 0.0:
        return (root_between(f, 0.0, end_m, at_start, at_end),)
    if at_start > 0.0 and at_start + at_end > steepest_ratio * end_m:
        return ()  # too high at both ends to come down to nothing in between
    on_ends = {s for s, value in ((0.0, at_start), (end_m, at_end)) if value == 0.0}
    if at_start < 0.0 or at_end < 0.0 or end_m <= 0.0 or not _dips(slopes()):
        return tuple(sorted(on_ends))
    low, at_low = lowest(f, 0.0, end_m)
    if at_low > 0.0:
        return tuple(sorted(on_ends))
    first = root_between(f, 0.0, low, at_start, at_low)
    last = root_between(f, low, end_m, at_low, at_end)
    return (first,) if first == last else (first, last)


def _dips(slopes: tuple[float, float]) -> bool:
    """Whether a convex function with these slopes at its ends is lower in between."""
    return slopes[0] < 0.0 < slopes[1]
