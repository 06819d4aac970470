"""Roots along the travel against dense sampling and a general-purpose root finder."""

from __future__ import annotations

from math import hypot

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from riglint.mechanics.travel import CLOSE, convex_roots, lowest, root_between


@st.composite
def paths(draw: st.DrawFn) -> tuple[list[tuple[float, float]], float]:
    """A path length less a given length: sums of distances from points to a point that moves along x."""
    legs = [(draw(st.floats(-2.0, 12.0)), draw(st.floats(0.1, 5.0))) for _ in range(draw(st.integers(1, 4)))]
    return legs, draw(st.floats(0.5, 40.0))


@given(path=paths(), end=st.floats(0.5, 12.0))
def test_every_root_is_found_and_no_other(path: tuple[list[tuple[float, float]], float], end: float) -> None:
    legs, length = path

    def f(s: float) -> float:
        return sum(hypot(x - s, y) for x, y in legs) - length

    def slopes() -> tuple[float, float]:
        low, high = (sum((s - x) / hypot(x - s, y) for x, y in legs) for s in (0.0, end))
        return low, high

    found = convex_roots(f, end, slopes)
    grid = np.linspace(0.0, end, 4001)
    values = [f(s) for s in grid]
    expected = [brentq(f, a, b) for a, b, u, v in zip(grid, grid[1:], values, values[1:], strict=False) if u * v < 0.0]
    assert all(abs(f(s)) <= CLOSE for s in found)
    assert list(found) == sorted(found)
    for root in expected:
        # Where the path only just comes down to the length, a micrometre of path is some millimetres of travel.
        assert any(abs(root - s) < 5e-3 for s in found)


def test_equal_signs_are_refused() -> None:
    with pytest.raises(ValueError, match="opposite signs"):
        root_between(lambda s: s + 1.0, 0.0, 1.0, 1.0, 2.0)


def test_a_root_at_either_end_counts() -> None:
    assert convex_roots(lambda s: -s, 2.0, lambda: (-1.0, -1.0)) == (0.0,)
    assert convex_roots(lambda s: s - 2.0, 2.0, lambda: (1.0, 1.0)) == (2.0,)
    assert convex_roots(lambda s: (s - 1.0) ** 2 - 1.0, 2.0, lambda: (-2.0, 2.0)) == (0.0, 2.0)


def test_no_travel_has_a_root_only_where_it_stands() -> None:
    assert convex_roots(lambda s: 0.0, 0.0, lambda: (0.0, 0.0)) == (0.0,)
    assert convex_roots(lambda s: 1.0, 0.0, lambda: (0.0, 0.0)) == ()


def test_the_lowest_place_of_a_dip() -> None:
    place, value = lowest(lambda s: (s - 1.3) ** 2 + 0.5, 0.0, 4.0)
    assert place == pytest.approx(1.3, abs=1e-3)
    assert value == pytest.approx(0.5, abs=1e-6)


def test_a_known_end_is_the_root_and_nothing_is_asked() -> None:
    def never(_: float) -> float:
        raise AssertionError("asked")

    assert root_between(never, 1.0, 3.0, 0.0, 5.0) == 1.0
    assert root_between(never, 1.0, 3.0, -5.0, 0.0) == 3.0
    assert convex_roots(lambda s: s - 0.5, 1.0, lambda: (1.0, 1.0)) == pytest.approx((0.5,), abs=2e-6)


@pytest.mark.parametrize("power", [1, 3, 9, 31])
@pytest.mark.parametrize("root", [0.001, 0.3, 1.9])
def test_a_root_is_found_to_a_micrometre_in_few_steps(power: int, root: float) -> None:
    """Odd powers are flat at the root and steep beyond: a plain secant would creep."""
    asked = []

    def f(s: float) -> float:
        asked.append(s)
        return 1e7 * (s - root) ** power

    found = root_between(f, 0.0, 2.0, f(0.0), f(2.0))
    assert abs(found - root) < CLOSE or abs(f(found)) < CLOSE
    assert all(0.0 <= s <= 2.0 for s in asked)
    assert len(asked) <= 100


def test_too_high_at_both_ends_asks_no_slopes() -> None:
    """A path of two legs shortens by no more than 2 m a metre: from 3 m and 3 m over 2 m it can't reach 0."""

    def never() -> tuple[float, float]:
        raise AssertionError("asked")

    assert convex_roots(lambda s: 3.0, 2.0, never, 2.0) == ()
    # at 2 m and 2 m it could just come down to 0, so the slopes tell
    asked = []

    def slopes() -> tuple[float, float]:
        asked.append(1)
        return -2.0, 2.0

    convex_roots(lambda s: 2.0 * abs(s - 1.0), 2.0, slopes, 2.0)
    assert asked == [1]
    # 1.9 m and 1.9 m: 0.95 m from either end
    found = convex_roots(lambda s: 2.0 * abs(s - 1.0) - 0.1, 2.0, lambda: (-2.0, 2.0), 2.0)
    assert found == pytest.approx((0.95, 1.05), abs=2e-6)


def test_a_dip_between_two_ends_is_met_twice() -> None:
    """(s - 1)^2 = 0.25 at 0.5 and 1.5."""
    found = convex_roots(lambda s: (s - 1.0) ** 2 - 0.25, 2.0, lambda: (-2.0, 2.0))
    assert found == pytest.approx((0.5, 1.5), abs=1e-5)


@pytest.mark.parametrize("slopes", [(0.0, 2.0), (-2.0, 0.0), (1.0, 2.0), (-2.0, -1.0)])
def test_what_only_rises_or_only_falls_has_no_dip(slopes: tuple[float, float]) -> None:
    assert convex_roots(lambda s: 1.0, 2.0, lambda: slopes) == ()
    assert convex_roots(lambda s: s, 2.0, lambda: slopes) == (0.0,)
    assert convex_roots(lambda s: 2.0 - s, 2.0, lambda: slopes) == (2.0,)


def test_below_at_an_end_there_is_one_root_or_none() -> None:
    assert convex_roots(lambda s: -1.0, 2.0, lambda: (-1.0, 1.0)) == ()
    assert convex_roots(lambda s: s - 2.0, 2.0, lambda: (-1.0, 1.0)) == (2.0,)
    assert convex_roots(lambda s: -s, 2.0, lambda: (-1.0, 1.0)) == (0.0,)


def test_a_dip_that_stays_above_has_no_root() -> None:
    assert convex_roots(lambda s: (s - 1.0) ** 2 + 0.004, 2.0, lambda: (-2.0, 2.0)) == ()


@pytest.mark.parametrize("at", [0.0, 0.2, 1.7, 3.9, 4.0])
def test_the_lowest_place_is_found_wherever_it_lies(at: float) -> None:
    asked = []

    def f(s: float) -> float:
        asked.append(s)
        return abs(s - at) + 0.5

    place, value = lowest(f, 0.0, 4.0)
    assert place == pytest.approx(at, abs=2e-7)
    assert value == f(place)
    assert all(0.0 <= s <= 4.0 for s in asked)
    # golden section: each step leaves 0.618 of the way, so 4 m come down to a tenth of a micrometre in 37
    assert len(asked) <= 2 + 37 + 1


def test_below_nothing_the_search_for_the_lowest_ends() -> None:
    asked = []

    def f(s: float) -> float:
        asked.append(s)
        return abs(s - 1.6) - 1.0

    assert lowest(f, 0.0, 4.0)[1] < 0.0
    assert len(asked) == 2
