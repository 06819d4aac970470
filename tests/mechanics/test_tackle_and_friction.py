"""Tackle by doctrine and by the tables; rope over seats, sheaves and drums."""

from math import exp, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics import friction, tackle

losses = st.floats(0.0, 0.95)
mus = st.floats(0.0, 1.0)
forces = st.floats(0.0, 1e7)


@given(st.floats(1.0, 1e6), st.floats(1.0, 1e6))
def test_doctrine_finds_the_first_ratio_that_serves(load_n: float, winch_n: float) -> None:
    found = tackle.doctrine_tackle(load_n, winch_n)
    if found is None:
        assert winch_n <= 0.10 * load_n
        return
    assert found.fall_line_n < winch_n
    least = tackle.required_ratio_count(load_n, winch_n)
    assert found.ratio_count >= least
    if found.ratio_count > least:  # one part fewer would not have done
        fewer = found.ratio_count - 1
        assert tackle.fall_line_n(tackle.total_resistance_n(load_n, fewer - 1), fewer) >= winch_n * (1 - 1e-6)


def test_no_tackle_helps_a_winch_of_a_tenth_of_the_load() -> None:
    assert tackle.doctrine_tackle(10.0, 1.0) is None
    assert tackle.doctrine_tackle(10.0, 1.1) is not None


@pytest.mark.parametrize(("load_n", "ratio"), [(0.0, 1), (99.0, 1), (100.0, 1), (101.0, 2), (200.0, 2)])
def test_ratio_is_rounded_up(load_n: float, ratio: int) -> None:
    assert tackle.required_ratio_count(load_n, 100.0) == ratio


def test_rounding_of_units_adds_no_part() -> None:
    assert tackle.required_ratio_count(3 * 0.1, 0.1) == 3  # 3 * 0.1 / 0.1 is 3.0000000000000004


@given(st.integers(1, 12), st.floats(1.0, 1.5))
def test_lead_line_and_ratio_are_one_law(parts: int, sheave: float) -> None:
    assert tackle.lead_line_factor(parts, sheave) * tackle.tackle_ratio(parts, sheave) == pytest.approx(1.0)
    assert tackle.tackle_ratio(parts, sheave) == pytest.approx(sum(sheave**-i for i in range(1, parts + 1)), rel=1e-6)


@given(st.integers(1, 12), st.floats(1.0, 1.5), st.floats(1.0, 1.5))
def test_a_stiffer_sheave_never_helps(parts: int, one: float, other: float) -> None:
    free, stiff = sorted((one, other))
    assert tackle.tackle_ratio(parts, stiff) <= tackle.tackle_ratio(parts, free) * (1 + 1e-6) <= parts * (1 + 2e-6)


@given(losses)
def test_loss_and_coefficient_are_inverses(loss: float) -> None:
    assert friction.half_turn_loss_fraction(friction.mu_from_half_turn_loss(loss)) == pytest.approx(loss, abs=1e-12)


@given(losses)
def test_slide_and_sheave_agree_at_half_a_turn(loss: float) -> None:
    mu = friction.mu_from_half_turn_loss(loss)
    assert friction.sliding_ratio(mu, pi) == pytest.approx(1 - loss)
    assert friction.turning_ratio(loss, pi) == pytest.approx(1 - loss)


@given(mus, st.floats(0.0, 10.0), st.floats(0.0, 10.0))
def test_wraps_one_after_another_multiply(mu: float, one: float, other: float) -> None:
    apart = friction.sliding_ratio(mu, one) * friction.sliding_ratio(mu, other)
    assert friction.sliding_ratio(mu, one + other) == pytest.approx(apart)


@given(losses, st.floats(0.0, 2 * pi), st.floats(0.0, 2 * pi))
def test_more_wrap_never_loses_less(loss: float, one: float, other: float) -> None:
    small, large = sorted((one, other))
    assert friction.turning_ratio(loss, large) <= friction.turning_ratio(loss, small) + 1e-15
    mu = friction.mu_from_half_turn_loss(loss)
    assert friction.sliding_ratio(mu, large) <= friction.sliding_ratio(mu, small)


def test_nothing_is_lost_without_a_turn() -> None:
    assert friction.turning_ratio(0.3, 0.0) == 1.0
    assert friction.sliding_ratio(0.3, 0.0) == 1.0


def test_past_half_a_turn_a_sheave_keeps_its_loss() -> None:
    assert friction.turning_ratio(0.1, 1.5 * pi) == pytest.approx(0.9)


@given(forces, mus, st.floats(0.0, 20.0))
def test_wraps_never_add_to_what_reaches_the_fastening(tension_n: float, mu: float, wraps: float) -> None:
    left_n = friction.fastening_tension_n(tension_n, mu, wraps)
    assert left_n <= tension_n
    assert left_n == pytest.approx(tension_n * exp(-2 * pi * mu * wraps))


def test_flat_groove_is_no_groove() -> None:
    assert friction.v_groove_mu(0.2, pi / 2) == pytest.approx(0.2)


@pytest.mark.parametrize("loss", [1.0, -0.01, 1.5])
def test_a_loss_that_takes_all_is_refused(loss: float) -> None:
    with pytest.raises(ValueError, match="half_turn_loss_fraction"):
        friction.mu_from_half_turn_loss(loss)


def test_a_tackle_has_at_least_one_part() -> None:
    with pytest.raises(ValueError, match="parts_count"):
        tackle.ideal_pull_n(1e4, 0)
    with pytest.raises(ValueError, match="ratio_count"):
        tackle.fall_line_n(1e4, 0)
    with pytest.raises(ValueError, match="lines_count"):
        tackle.dead_line_n(1e4, 0)
    with pytest.raises(ValueError, match="ratio_count"):
        tackle.effort_available_n(1e4, 0)
    with pytest.raises(ValueError, match="parts_count"):
        tackle.tackle_ratio(0, 1.04)
    assert tackle.fall_line_n(1e4, 1) == tackle.dead_line_n(1e4, 1) == tackle.ideal_pull_n(1e4, 1) == 1e4


def test_sheaves_are_not_negative() -> None:
    assert tackle.tackle_resistance_n(1e4, 0) == 0.0
    with pytest.raises(ValueError, match="sheave_count"):
        tackle.tackle_resistance_n(1e4, -1)
    with pytest.raises(ValueError, match="lead_sheaves_count"):
        tackle.lead_line_factor(4, 1.04, -1)


@pytest.mark.parametrize(
    ("load_n", "winch_n", "steps"),
    [  # the lesson's rule by hand: each sheave adds a tenth of the load, and the fall line must be LESS than the winch
        (0.0, 100.0, (1, 0, 0.0, 0.0, 0.0)),
        (99.0, 100.0, (1, 0, 0.0, 99.0, 99.0)),
        (100.0, 100.0, (2, 1, 10.0, 110.0, 55.0)),
        (300.0, 100.0, (4, 3, 90.0, 390.0, 97.5)),
        (1000.0, 400.0, (4, 3, 300.0, 1300.0, 325.0)),  # 3 parts: 1,200 / 3 = 400, which is not less
        (1000.0, 401.0, (3, 2, 200.0, 1200.0, 400.0)),
        (1000.0, 130.0, (31, 30, 3000.0, 4000.0, 4000.0 / 31)),  # 30 parts: 3,900 / 30 = 130
    ],
)
def test_doctrine_by_hand(load_n: float, winch_n: float, steps: tuple[float, ...]) -> None:
    found = tackle.doctrine_tackle(load_n, winch_n)
    assert found is not None
    assert tuple(found) == pytest.approx(steps)


def test_a_winch_of_just_over_a_tenth_gets_there() -> None:
    assert tackle.doctrine_tackle(1000.0, 100.0) is None
    found = tackle.doctrine_tackle(1000.0, 100.005)
    assert found is not None
    assert found.fall_line_n < 100.005


def test_lead_line_of_four_parts() -> None:
    """Wire Rope Users Manual pp. 86-88: 0.309 plain (read); 0.275 on rollers by its law, and 1.04 more by a lead."""
    assert tackle.lead_line_factor(4, tackle.PLAIN_SHEAVE.value) == pytest.approx(0.309, abs=0.0005)
    assert tackle.lead_line_factor(4, tackle.ROLLER_SHEAVE.value) == pytest.approx(0.2755, abs=0.0001)
    assert tackle.lead_line_factor(4, 1.04, 1) == pytest.approx(0.2755 * 1.04, abs=0.0001)
    assert tackle.lead_line_factor(4, 1.0) == 0.25
    assert tackle.tackle_ratio(4, 2.0) == 0.9375  # 1/2 + 1/4 + 1/8 + 1/16


def test_one_part_brings_what_the_winch_does() -> None:
    assert tackle.effort_available_n(1e4, 1) == 1e4
    assert tackle.effort_available_n(1e4, 3) == 3e4


def test_a_sheave_that_costs_half_a_percent() -> None:
    """1/1.005 + 1/1.005^2 + ... of four parts, by hand."""
    assert tackle.tackle_ratio(4, 1.005) == pytest.approx(3.950496, abs=1e-6)


def test_doctrine_leads_to_the_first_ratio_even_where_it_takes_many_parts() -> None:
    """By hand: 10 (0.9 + 0.1 m) / m < 1.055 from m = 9 / 0.055 = 163.6 on; 164 parts need 1.05488, 163 need 1.05521."""
    found = tackle.doctrine_tackle(10.0, 1.055)
    assert found is not None
    assert found[0] == 164
