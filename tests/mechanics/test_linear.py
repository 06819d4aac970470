"""Small linear systems, held against numpy's."""

from __future__ import annotations

from math import isnan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics.linear import solve_linear


@st.composite
def systems(draw: st.DrawFn) -> tuple[list[list[float]], list[float]]:
    """Up to seven unknowns, many coefficients nothing, as in the balance of a rig."""
    n = draw(st.integers(0, 7))
    number = st.one_of(st.just(0.0), st.integers(-50, 50).map(float))
    row = st.lists(number, min_size=n, max_size=n)
    return draw(st.lists(row, min_size=n, max_size=n)), draw(row)


@given(systems())
def test_it_finds_what_numpy_finds(system: tuple[list[list[float]], list[float]]) -> None:
    matrix, right = system
    before = [row[:] for row in matrix], right[:]
    found = solve_linear(matrix, right)
    assert (matrix, right) == before
    if not right or abs(np.linalg.det(matrix)) > 0.5:
        expected = np.linalg.solve(matrix, right) if right else []
        assert found == pytest.approx(list(expected), rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("matrix", [[[0.0]], [[1.0, 2.0], [2.0, 4.0]], [[0.0, 0.0], [0.0, 1.0]]])
def test_what_has_no_one_answer_gives_none(matrix: list[list[float]]) -> None:
    assert all(map(isnan, solve_linear(matrix, [1.0] * len(matrix))))


def test_the_smallest_pivot_is_one() -> None:
    assert solve_linear([[1e-300]], [1e-300]) == [1.0]
    assert solve_linear([[-1.005e-300]], [1.005e-300]) == [-1.0]
    assert isnan(solve_linear([[0.995e-300]], [1e-300])[0])


def test_two_unknowns_by_hand() -> None:
    """2 x + y = 5, x - 3 y = -8: x = 1, y = 3."""
    assert solve_linear([[2.0, 1.0], [1.0, -3.0]], [5.0, -8.0]) == pytest.approx([1.0, 3.0])
