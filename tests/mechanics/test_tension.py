"""Ratios at seats and the worst over their corners."""

from __future__ import annotations

from itertools import accumulate, product
from math import exp, log, pi
from operator import mul

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics.envelope import envelope
from riglint.mechanics.tension import Ratio, corner_tensions, ratio_range, seat_ratio

WRAPS = st.floats(0.0, pi)
LOSSES = st.floats(0.0, 0.6)


def test_sliding_half_turn_loses_the_stated_loss() -> None:
    assert seat_ratio(False, pi, 0.1) == pytest.approx(0.9)


@given(wrap=WRAPS, loss=LOSSES)
def test_sliding_seat_is_the_capstan_law(wrap: float, loss: float) -> None:
    """T2/T1 = exp(mu beta) (capstan law, textbooks of mechanics), mu from the half-turn loss."""
    mu = -log(1.0 - loss) / pi
    assert seat_ratio(False, wrap, loss) == pytest.approx(exp(-mu * wrap))


@given(loss=LOSSES)
def test_sheave_loses_with_its_resultant(loss: float) -> None:
    assert seat_ratio(True, pi, loss) == pytest.approx(1.0 - loss)
    assert seat_ratio(True, 0.0, loss) == 1.0


@given(rolls=st.booleans(), wrap=WRAPS, loss=LOSSES)
def test_slip_the_other_way_is_the_reciprocal(rolls: bool, wrap: float, loss: float) -> None:
    hauling = ratio_range(rolls, wrap, 0.0, loss, loss, 1)
    paying = ratio_range(rolls, wrap, 0.0, loss, loss, -1)
    resting = ratio_range(rolls, wrap, 0.0, loss, loss, 0)
    assert paying.low == pytest.approx(1.0 / hauling.high)
    assert paying.high == pytest.approx(1.0 / hauling.low)
    assert (resting.low, resting.high) == (hauling.low, pytest.approx(paying.high))
    assert resting.stated == 1.0


def test_ratio_range_by_hand() -> None:
    """1 - loss over a half turn, and its reciprocal the other way: losses of 10, 20 (stated) and 50 %."""
    for rolls in (False, True):
        assert ratio_range(rolls, pi, 0.1, 0.5, 0.2, 1) == pytest.approx((0.5, 0.9, 0.8))
        assert ratio_range(rolls, pi, 0.1, 0.5, 0.2, -1) == pytest.approx((1 / 0.9, 2.0, 1.25))
        assert ratio_range(rolls, pi, 0.1, 0.5, 0.2, 0) == pytest.approx((0.5, 2.0, 1.0))
        assert ratio_range(rolls, pi, 0.0, 0.5, 0.2, 1) == pytest.approx((0.5, 1.0, 0.8))
        assert ratio_range(rolls, pi, 0.1, 0.5, 0.5, -1) == pytest.approx((1 / 0.9, 2.0, 2.0))


@pytest.mark.parametrize("loss", [-0.01, 1.0, float("nan")])
def test_a_loss_that_cannot_be_is_refused(loss: float) -> None:
    with pytest.raises(ValueError, match="loss_fraction"):
        seat_ratio(False, pi, loss)


def test_a_half_turn_that_rounding_lengthened_is_one() -> None:
    assert seat_ratio(False, pi + 1e-9, 0.1) == pytest.approx(0.9)


@pytest.mark.parametrize("wrap", [-0.1, 4.0, pi + 2e-9, float("nan")])
def test_a_wrap_that_cannot_be_is_refused(wrap: float) -> None:
    with pytest.raises(ValueError, match="wrap_rad"):
        seat_ratio(False, wrap, 0.1)


def test_corners_leave_out_what_has_no_range() -> None:
    ratios = [Ratio(0.9, 1.0, 0.9), Ratio(0.8, 0.8, 0.8)]
    assert corner_tensions(ratios) == [[1.0], [0.9, 1.0], pytest.approx([0.72, 0.8])]


@st.composite
def boxes(draw: st.DrawFn) -> tuple[list[Ratio], list[float]]:
    """Ratio ranges, and one choice within each."""
    ranges, choice = [], []
    for _ in range(draw(st.integers(1, 4))):
        low = draw(st.floats(0.5, 1.0))
        high = draw(st.floats(low, 1.0))
        ranges.append(Ratio(low, high, high))
        choice.append(draw(st.floats(low, high)))
    return ranges, choice


@given(box=boxes(), data=st.data())
def test_no_choice_of_ratios_is_worse_than_the_worst_corner(
    box: tuple[list[Ratio], list[float]], data: st.DataObject
) -> None:
    ranges, choice = box
    legs = len(ranges) + 1
    unit = st.floats(-1.0, 1.0)
    elements = [[(leg, data.draw(unit), data.draw(unit), data.draw(unit)) for leg in range(legs)] for _ in range(2)]
    pull = [(leg, data.draw(st.floats(0.0, 1.0))) for leg in range(legs)]
    pull[0] = (0, 1.0)
    tension = [1.0]
    for q in choice:
        tension.append(tension[-1] * q)
    inside = envelope([[own] for own in tension], elements, pull, 1000.0, 800.0)
    worst = envelope(corner_tensions(ranges), elements, pull, 1000.0, 800.0)
    for a, b in zip(inside.elements, worst.elements, strict=True):
        assert a.load_n <= b.load_n * (1 + 1e-9)
        assert a.unit_load <= b.unit_load * (1 + 1e-9)
    for (a_n, a_unit), (b_n, b_unit) in zip(inside.legs, worst.legs, strict=True):
        assert a_n <= b_n * (1 + 1e-9)
        assert a_unit <= b_unit * (1 + 1e-9)
    assert worst.pull_least - 1e-9 <= inside.pull_least <= worst.pull_most + 1e-9


@given(box=boxes(), data=st.data())
def test_corners_that_are_not_told_apart_change_nothing(
    box: tuple[list[Ratio], list[float]], data: st.DataObject
) -> None:
    """The same as with every leg's tension written out for each of the 2^n corners."""
    ranges, _ = box
    legs = len(ranges) + 1
    unit = st.floats(-1.0, 1.0)
    leg = st.integers(0, legs - 1)
    elements = data.draw(st.lists(st.lists(st.tuples(leg, unit, unit, unit), min_size=1, max_size=legs), min_size=1))
    pull = data.draw(st.lists(st.tuples(leg, st.floats(-0.2, 1.0)), min_size=1, max_size=legs))
    rows = []
    for choice in product(*[(low, high) for low, high, _ in ranges]):
        rows.append(list(accumulate(choice, mul, initial=1.0)))
    short = envelope(corner_tensions(ranges), elements, pull, 1000.0, 800.0)
    whole = envelope(list(zip(*rows, strict=True)), elements, pull, 1000.0, 800.0)
    assert short.legs == [pytest.approx(own, rel=1e-12) for own in whole.legs]
    assert (short.pull_least, short.pull_most) == pytest.approx((whole.pull_least, whole.pull_most), abs=1e-12)
    for i in range(len(elements)):
        assert short.elements[i].load_n == pytest.approx(whole.elements[i].load_n, rel=1e-9)
        assert short.elements[i].unit_load == pytest.approx(whole.elements[i].unit_load, rel=1e-12)
        assert short.unit_force(i) == pytest.approx(whole.unit_force(i), rel=1e-9, abs=1e-9)


def test_where_hauling_gets_nowhere_the_line_pull_is_the_cap() -> None:
    found = envelope([[1.0]], [[(0, 1.0, 0.0, 0.0)]], [(0, 0.0)], 1000.0, 800.0)
    assert found.legs == [(800.0, 1.0)]
    assert found.elements[0].load_n == 800.0


def test_with_nothing_to_pull_there_is_no_load() -> None:
    found = envelope([[1.0]], [[(0, 1.0, 0.0, 0.0)]], [(0, 1.0)], 0.0, 800.0)
    assert found.elements[0].load_n == 0.0
