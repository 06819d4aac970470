"""How near two things come that pass each other."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics.nearest import nearest

PLACE = st.tuples(*[st.floats(-1e3, 1e3)] * 3)


def test_passing_by_at_three_metres() -> None:
    found = nearest((-4.0, 3.0, 0.0), (8.0, 3.0, 0.0))
    assert found.length_m == pytest.approx(3.0)
    assert found.share == pytest.approx(1 / 3)


def test_drawing_away_is_nearest_at_the_start() -> None:
    assert nearest((1.0, 0.0, 0.0), (5.0, 0.0, 0.0)) == (1.0, 0.0)


def test_standing_still() -> None:
    assert nearest((3.0, 4.0, 0.0), (3.0, 4.0, 0.0)) == (5.0, 0.0)


@given(PLACE, PLACE, st.floats(0.0, 1.0))
def test_nowhere_on_the_way_is_nearer(start, end, share) -> None:  # type: ignore[no-untyped-def]
    between = [a + share * (b - a) for a, b in zip(start, end, strict=True)]
    assert nearest(start, end).length_m <= sum(x * x for x in between) ** 0.5 + 1e-9


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_what_is_not_finite_is_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="end"):
        nearest((0.0, 0.0, 0.0), (bad, 0.0, 0.0))


def test_drawing_near_is_nearest_at_the_end() -> None:
    assert nearest((5.0, 0.0, 0.0), (1.0, 0.0, 0.0)) == (1.0, 1.0)


def test_a_short_way_has_a_nearest_place_too() -> None:
    assert nearest((0.05, 0.0, 0.0), (-0.04, 0.0, 0.0)) == (pytest.approx(0.0, abs=1e-12), pytest.approx(5 / 9))
