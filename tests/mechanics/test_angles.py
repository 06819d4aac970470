"""Redirects, slings and bridles."""

from math import cos, hypot, pi, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from riglint.mechanics import angles

forces = st.floats(0.0, 1e7)
included = st.floats(0.0, pi)
leg_angles = st.floats(0.01, 1.5)


@given(forces, forces, included)
def test_resultant_is_the_vector_sum(first_n: float, second_n: float, included_rad: float) -> None:
    by_vectors = hypot(first_n + second_n * cos(included_rad), second_n * sin(included_rad))
    ours = angles.resultant_n(first_n, second_n, included_rad)
    assert ours == pytest.approx(by_vectors, rel=1e-9, abs=1e-9 * (first_n + second_n) + 1e-300)
    assert ours == pytest.approx(angles.resultant_n(second_n, first_n, included_rad))


@given(forces, forces, included, included)
def test_a_closer_angle_never_loads_less(first_n: float, second_n: float, one: float, other: float) -> None:
    close, wide = sorted((one, other))
    assert angles.resultant_n(first_n, second_n, wide) <= angles.resultant_n(first_n, second_n, close) * (1 + 1e-12)


@given(forces, included)
def test_equal_parts_follow_the_redirect_factor(tension_n: float, included_rad: float) -> None:
    expected = tension_n * angles.redirect_factor(included_rad)
    assert angles.resultant_n(tension_n, tension_n, included_rad) == pytest.approx(expected)


def test_straight_through_carries_nothing() -> None:
    assert angles.resultant_n(1e4, 1e4, pi) == pytest.approx(0.0, abs=1e-9)


@given(st.floats(1.0, 1e6), leg_angles, leg_angles)
def test_bridle_legs_balance_the_pull(load_n: float, first_rad: float, second_rad: float) -> None:
    assume(first_rad + second_rad < 3.1)
    legs = angles.bridle_loads(load_n, first_rad, second_rad)
    along = legs.first_n * cos(first_rad) + legs.second_n * cos(second_rad)
    across = legs.first_n * sin(first_rad) - legs.second_n * sin(second_rad)
    assert along == pytest.approx(load_n, rel=1e-6)
    assert across == pytest.approx(0.0, abs=1e-6 * max(legs))


@given(st.floats(1.0, 1e6), st.floats(0.01, 1.5))
def test_even_bridle_is_an_equalised_one(load_n: float, half_rad: float) -> None:
    legs = angles.bridle_loads(load_n, half_rad, half_rad)
    assert legs.first_n == pytest.approx(legs.second_n)
    assert legs.first_n == pytest.approx(angles.equalised_leg_n(load_n, 2 * half_rad))


@given(st.floats(1.0, 1e6), leg_angles, leg_angles)
def test_worst_leg_carries_the_whole_pull_or_more(load_n: float, first_rad: float, second_rad: float) -> None:
    assume(first_rad + second_rad < 3.1)
    worst = angles.bridle_worst_leg_n(load_n, first_rad, second_rad)
    assert worst >= load_n
    assert worst >= max(angles.bridle_loads(load_n, first_rad, second_rad))


def test_wide_bridle_loads_a_leg_with_more_than_the_pull() -> None:
    assert angles.bridle_worst_leg_n(1.0, 1.3, 1.3) > 1.8


def test_parallel_legs_have_no_share_by_statics() -> None:
    with pytest.raises(ValueError, match="first_rad"):
        angles.bridle_loads(1e4, 0.0, 0.0)
    assert angles.bridle_worst_leg_n(1e4, 0.0, 0.0) == pytest.approx(1e4)


def test_legs_in_one_line_are_refused() -> None:
    with pytest.raises(ValueError, match="included_rad"):
        angles.equalised_leg_n(1e4, pi)


@given(st.floats(0.01, pi / 2), st.floats(0.01, pi / 2))
def test_a_flatter_sling_never_carries_less(one: float, other: float) -> None:
    flat, steep = sorted((one, other))
    assert angles.sling_leg_factor(flat) >= angles.sling_leg_factor(steep) >= 1.0


def test_a_sling_as_long_as_its_height_hangs_straight() -> None:
    assert angles.sling_leg_tension_n(1e4, 2.0, 2.0) == pytest.approx(5e3)


def test_a_sling_shorter_than_its_height_is_refused() -> None:
    with pytest.raises(ValueError, match="height_m"):
        angles.sling_leg_tension_n(1e4, 2.0, 2.1)


def test_nothing_equalises_a_bridle_of_one_line() -> None:
    """Two legs along the line of pull: either may have to carry it all."""
    assert angles.bridle_worst_leg_n(1e4, 0.0, 0.0) == 1e4
    assert angles.bridle_worst_leg_n(1e4, 0.0, 0.3) == pytest.approx(1e4)
    assert angles.bridle_worst_leg_n(1e4, 0.3, 0.0) == pytest.approx(1e4)
    with pytest.raises(ValueError, match="first_rad"):
        angles.bridle_loads(1e4, 0.0, 0.0)


def test_a_leg_along_the_pull_excuses_no_other() -> None:
    with pytest.raises(ValueError, match=r"^second_rad must be"):
        angles.bridle_worst_leg_n(1e4, 0.0, 4.0)
    with pytest.raises(ValueError, match=r"^first_rad must be"):
        angles.bridle_worst_leg_n(1e4, 4.0, 0.0)


def test_a_bridle_by_hand() -> None:
    """30 and 60 deg off the pull: legs at a right angle, so they carry its cosines, 0.8660 and 0.5000."""
    assert angles.bridle_loads(1e4, pi / 6, pi / 3) == pytest.approx((8660.254, 5000.0))
    assert angles.bridle_worst_leg_n(1e4, pi / 6, pi / 3) == 1e4
    assert angles.bridle_loads(1e4, pi / 3, pi / 3) == pytest.approx((1e4, 1e4))  # 120 deg apart
    assert angles.bridle_worst_leg_n(1e4, 0.4 * pi, 0.4 * pi) == pytest.approx(16180.34)  # F / (2 cos 72 deg)


@pytest.mark.parametrize(("apart", "good"), [(0.9e-9, False), (1e-9, False), (1.1e-9, True)])
def test_legs_all_but_in_one_line(apart: float, good: bool) -> None:
    calls = (
        lambda: angles.equalised_leg_n(1e4, pi - apart),
        lambda: angles.bridle_loads(1e4, apart / 2, apart / 2),
        lambda: angles.bridle_loads(1e4, pi / 2, pi / 2 - apart),
    )
    for call in calls:
        if good:
            call()
        else:
            with pytest.raises(ValueError, match="_rad"):
                call()


def test_resultant_by_hand() -> None:
    """3 and 4 at a right angle make 5; at 60 deg sqrt(9 + 16 + 12) (law of cosines)."""
    assert angles.resultant_n(3.0, 4.0, pi / 2) == pytest.approx(5.0)
    assert angles.resultant_n(3.0, 4.0, pi / 3) == pytest.approx(6.0827625)
