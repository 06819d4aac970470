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
