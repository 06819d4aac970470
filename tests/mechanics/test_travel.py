"""Roots along the travel against dense sampling and a general-purpose root finder."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, hypot, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from riglint.mechanics.travel import CLOSE, GOLDEN, convex_roots, lowest, root_between


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


class Asked:
    """A function that notes where it was asked."""

    def __init__(self, f: Callable[[float], float]) -> None:
        self.f = f
        self.at: list[float] = []

    def __call__(self, s: float) -> float:
        self.at.append(s)
        return self.f(s)


def never() -> tuple[float, float]:
    raise AssertionError("asked")


@pytest.mark.parametrize("values", [(1.0, 2.0), (-1.0, -2.0), (0.05, 0.1), (-0.05, -0.1)])
def test_equal_signs_are_refused(values: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="opposite signs"):
        root_between(lambda s: s + 1.0, 0.0, 1.0, *values)


@pytest.mark.parametrize(("low", "high"), [(0.0, 2.0), (-3.0, 1.5)])
def test_a_straight_line_is_met_at_the_first_step(low: float, high: float) -> None:
    """The secant of a straight line is the line."""
    f = Asked(lambda s: 3.0 * s - 1.5)
    assert root_between(f, low, high, 3.0 * low - 1.5, 3.0 * high - 1.5) == pytest.approx(0.5, abs=1e-12)
    assert len(f.at) == 1


def test_steps_are_those_of_illinois() -> None:
    """By hand on s^2 - 1 from 0 to 2: the secant of (0, -1) and (2, 3) meets 0 at 1/2, where s^2 - 1 = -3/4.

    That of (2, 3) and (1/2, -3/4) meets it at 0.8, where s^2 - 1 = -0.36. Twice on the same side, so the 3 at 2 is
    halved: (2, 1.5) and (0.8, -0.36) meet it at 1.92/1.86. Source: the Illinois method, textbooks.
    """
    f = Asked(lambda s: s * s - 1.0)
    assert root_between(f, 0.0, 2.0, -1.0, 3.0) == pytest.approx(1.0, abs=1e-6)
    assert f.at[:3] == pytest.approx([0.5, 0.8, 1.92 / 1.86], rel=1e-12)
    assert len(f.at) <= 7


def test_where_a_secant_creeps_halving_helps() -> None:
    """exp(30 s) = 2 at ln 2 / 30: the far end is 1e26 high, so that Illinois alone takes 86 steps."""
    f = Asked(lambda s: exp(30.0 * s) - 2.0)
    assert root_between(f, 0.0, 2.0, -1.0, exp(60.0) - 2.0) == pytest.approx(log(2.0) / 30.0, abs=1e-6)
    assert len(f.at) <= 50


def test_a_step_is_found_though_it_has_no_value_of_nothing() -> None:
    f = Asked(lambda s: -1.0 if s < 1.2345 else 1.0)
    assert root_between(f, 0.0, 2.0, -1.0, 1.0) == pytest.approx(1.2345, abs=1e-6)
    assert len(f.at) <= 30


def test_a_micrometre_is_near_enough_and_more_is_not() -> None:
    near = Asked(lambda s: 0.995e-6 if s == 1.0 else 0.0)
    assert root_between(near, 0.0, 2.0, -1.0, 1.0) == 1.0
    for off in (CLOSE, 1.005e-6):
        far = Asked(lambda s, off=off: off if s == 1.0 else 0.0)
        assert root_between(far, 0.0, 2.0, -1.0, 1.0) < 1.0
        assert (len(near.at), len(far.at)) == (1, 2)


def test_a_way_of_a_micrometre_is_halved_once_more() -> None:
    f = Asked(lambda s: -1.0 if s < 0.7e-6 else 1.0)
    root_between(f, 0.0, CLOSE, -1.0, 1.0)
    assert len(f.at) == 2


@pytest.mark.parametrize("values", [(-1e-5, 1e300), (-1e300, 1e-5)])
def test_a_secant_that_meets_nothing_at_the_end_itself_is_no_step(values: tuple[float, float]) -> None:
    """In floats 1e300 and a hundred-thousandth meet 0 where the latter stands, which is known to be no root."""
    f = Asked(lambda s: s - 1.5)
    assert root_between(f, 1.0, 2.0, *values) == 1.5
    assert f.at == [1.5]


def test_where_floats_cannot_tell_a_micrometre_the_search_ends() -> None:
    """At 3e11 m two floats that are neighbours lie 6e-5 m apart."""
    f = Asked(lambda s: -1.0 if s < 3e11 else 1.0)
    assert root_between(f, 0.0, 1e12, -1.0, 1.0) == pytest.approx(3e11, abs=1e-4)
    assert len(f.at) == 200


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


@pytest.mark.parametrize("at", [3.0, 4.1, 6.9])
def test_the_lowest_place_is_looked_for_between_the_two_places(at: float) -> None:
    f = Asked(lambda s: (s - at) ** 2 + 0.5)
    assert lowest(f, 3.0, 7.0)[0] == pytest.approx(at, abs=1e-3)
    assert all(3.0 <= s <= 7.0 for s in f.at)


@pytest.mark.parametrize("above", [0.0, 0.005])
def test_at_nothing_or_just_above_the_search_for_the_lowest_goes_on(above: float) -> None:
    """Five centimetres past the first place that golden section asks, it is five centimetres lower than there."""
    first = GOLDEN * 4.0
    place, value = lowest(lambda s: above + max(first - s, 3.0 * (s - first) - 0.2), 0.0, 4.0)
    assert value < 0.0
    assert place > first


def test_a_root_at_the_end_and_another_within_are_both_found() -> None:
    """(s - 1)^2 = 1 at 0 and 2; (s - 2)^2 = 1 at 1 and 3."""
    assert convex_roots(lambda s: (s - 1.0) ** 2 - 1.0, 3.0, lambda: (-2.0, 4.0)) == pytest.approx((0.0, 2.0), abs=2e-6)
    assert convex_roots(lambda s: (s - 2.0) ** 2 - 1.0, 3.0, lambda: (-4.0, 2.0)) == pytest.approx((1.0, 3.0), abs=2e-6)


def test_a_dip_just_within_the_ends_is_found() -> None:
    """From half a centimetre of path above at one end, and within the first centimetre of the travel."""
    for low in (1.0, 2.0):
        found = convex_roots(lambda s, low=low: (s - low) ** 2 - 0.995, 3.0, lambda: (-2.0, 2.0))
        assert found == pytest.approx((low - 0.995**0.5, low + 0.995**0.5), abs=2e-6)
    for end in (0.005, 2.0):
        found = convex_roots(lambda s: abs(s - 0.003) - 0.001, end, lambda: (-1.0, 1.0))
        assert found == pytest.approx((0.002, 0.004), abs=2e-6)


def test_a_root_in_the_first_centimetre_is_found() -> None:
    assert convex_roots(lambda s: s - 0.004, 2.0, never) == pytest.approx((0.004,), abs=2e-6)


def test_a_dip_that_only_just_comes_down_is_met_once() -> None:
    place = GOLDEN * 4.0  # the first that golden section asks
    assert convex_roots(lambda s: abs(s - place), 4.0, lambda: (-1.0, 1.0)) == (place,)


def test_without_a_way_no_slopes_are_asked() -> None:
    assert convex_roots(lambda s: 1.0, 0.0, never) == ()


def test_a_little_above_at_the_start_and_steep_is_too_high() -> None:
    """From 5 mm above at 2 m a metre it is 4.005 m above after 2 m: 4.01 m in all, and 4 m could be lost."""
    assert convex_roots(lambda s: 0.005 + 2.0 * s, 2.0, never, 2.0) == ()


@pytest.mark.parametrize("slopes", [(0.0, 2.0), (0.005, 2.0), (-2.0, 0.0), (-2.0, 0.005), (1.0, 2.0)])
def test_what_does_not_dip_is_asked_at_its_ends_only(slopes: tuple[float, float]) -> None:
    f = Asked(lambda s: 1.0)
    convex_roots(f, 2.0, lambda: slopes)
    dips = slopes[0] < 0.0 < slopes[1]
    assert (len(f.at) > 2) == dips


def test_a_flat_bottom_is_told_by_its_first_place() -> None:
    f = Asked(lambda s: 0.5)
    place, _ = lowest(f, 1.0, 4.0)
    assert place == min(f.at)
    assert place == pytest.approx(1.0, abs=1e-7)


@pytest.mark.parametrize(("way", "steps"), [(1e-7, 0), (1.005e-7, 1)])
def test_a_tenth_of_a_micrometre_is_narrow_enough(way: float, steps: int) -> None:
    f = Asked(lambda s: s + 0.5)
    lowest(f, 0.0, way)
    assert len(f.at) == 2 + steps


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_an_end_that_rounding_keeps_off_the_root_is_on_it(sign: float) -> None:
    """A billionth of a metre of path is rounding; two are not, and there is no root where it only grows from there."""
    near, far = sign * 0.98e-9, sign * 2e-9
    assert convex_roots(lambda s: near + sign * s, 2.0, lambda: (sign, sign)) == (0.0,)
    assert convex_roots(lambda s: near + sign * (2.0 - s), 2.0, lambda: (-sign, -sign)) == (2.0,)
    assert convex_roots(lambda s: far + sign * s, 2.0, lambda: (sign, sign)) == ()
    assert convex_roots(lambda s: far + sign * (2.0 - s), 2.0, lambda: (-sign, -sign)) == ()
