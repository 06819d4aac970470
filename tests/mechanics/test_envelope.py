"""Loads over the corners of friction, by hand: statics of two and three pulls, caps, and pulls that cancel."""

from math import inf, sqrt
from typing import Any

import pytest

from riglint.mechanics.envelope import Envelope, Term
from riglint.mechanics.envelope import envelope as by_leg
from riglint.mechanics.vectors import Vec

EAST, NORTH, WEST = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)
NOTHING = (0.0, 0.0, 0.0)


def envelope(rows: list[list[float]], *others: Any) -> Envelope:
    """Of tensions given corner by corner."""
    return by_leg(list(zip(*rows, strict=True)), *others)


def told(found: Envelope, element: int = 0) -> tuple[float, Vec, float, Vec]:
    """The greatest load at the resistance and per unit of line pull, each with its force."""
    load_n, unit_load, _, _ = found.elements[element]
    return load_n, found.force(element), unit_load, found.unit_force(element)


def test_two_pulls_at_a_right_angle() -> None:
    """Pythagoras: 1 and 0.75 give 1.25; 750 N at the far end of the line asks 1,000 N of the winch."""
    found = envelope([[1.0, 0.75]], [[(0, *EAST), (1, *NORTH)]], [(1, 1.0)], 750.0, inf)
    assert found.legs == [pytest.approx((1000.0, 1.0)), pytest.approx((750.0, 0.75))]
    load_n, force, unit, unit_force = told(found)
    assert (load_n, unit) == pytest.approx((1250.0, 1.25))
    assert force == pytest.approx((1000.0, 750.0, 0.0))
    assert unit_force == pytest.approx((1.0, 0.75, 0.0))
    assert (found.pull_least, found.pull_most) == (0.75, 0.75)


@pytest.mark.parametrize("turned", [0, 1, 2])
def test_two_pulls_in_space(turned: int) -> None:
    """(0.6, 0, 0.8) + 0.5 (0, 0.6, 0.8) = (0.6, 0.3, 1.2), of length sqrt(1.89); axes turned about."""

    def axes(x: float, y: float, z: float) -> tuple[float, float, float]:
        one, two, three = (x, y, z)[turned:] + (x, y, z)[:turned]
        return one, two, three

    terms = [(0, *axes(0.6, 0.0, 0.8)), (1, *axes(0.0, 0.6, 0.8))]
    found = envelope([[1.0, 0.5]], [terms], [(0, 1.0)], 100.0, inf)
    assert found.elements[0].unit_load == pytest.approx(sqrt(1.89))
    assert found.elements[0].load_n == pytest.approx(100.0 * sqrt(1.89))
    assert found.force(0) == pytest.approx(axes(60.0, 30.0, 120.0))


def test_three_pulls() -> None:
    """1 east, 2 north and 2 up: of length 3 (1 + 4 + 4 = 9)."""
    terms = [(0, *EAST), (1, *NORTH), (2, 0.0, 0.0, 1.0)]
    found = envelope([[1.0, 2.0, 2.0]], [terms], [(0, 0.5), (1, 0.25)], 300.0, inf)
    assert (found.elements[0].load_n, found.elements[0].unit_load) == pytest.approx((900.0, 3.0))
    assert found.force(0) == pytest.approx((300.0, 600.0, 600.0))
    assert found.unit_force(0) == (1.0, 2.0, 2.0)


def test_the_worst_corner_counts_at_the_load_and_by_unit() -> None:
    """Less tension beyond a seat is less pull on the load, so more line pull: 1,000 / 0.5 against 1,000 / 1."""
    found = envelope([[1.0, 0.5], [1.0, 1.0]], [[(0, *EAST)], [(1, *NORTH)]], [(1, 1.0)], 1000.0, inf)
    assert found.legs == [(2000.0, 1.0), (1000.0, 1.0)]
    assert told(found) == (2000.0, (2000.0, 0.0, 0.0), 1.0, EAST)
    assert (found.pull_least, found.pull_most) == (0.5, 1.0)


@pytest.mark.parametrize("count", [1, 2, 3])
def test_a_cap_holds_every_load(count: int) -> None:
    """10,000 N would ask 10,000 N of a winch that stalls at 800 N."""
    terms = [(0, *EAST), (1, *NORTH), (2, 0.0, 0.0, 1.0)][:count]
    found = envelope([[1.0, 1.0, 1.0]], [terms], [(0, 1.0)], 10_000.0, 800.0)
    assert found.elements[0].load_n == pytest.approx(800.0 * sqrt(count))
    assert found.force(0) == pytest.approx((800.0, 800.0 * (count > 1), 800.0 * (count > 2)))
    assert found.legs == [(800.0, 1.0)] * 3


@pytest.mark.parametrize("share", [0.0, -0.2, 1e-9])
@pytest.mark.parametrize("resistance_n", [1e-7, 1000.0])
def test_where_hauling_gets_nowhere_any_resistance_stalls_the_winch(share: float, resistance_n: float) -> None:
    found = envelope([[1.0]], [[(0, *EAST)]], [(0, share)], resistance_n, 800.0)
    assert found.legs[0][0] == found.elements[0].load_n == 800.0


def test_the_least_gain_is_one() -> None:
    found = envelope([[1.0]], [[(0, *EAST)]], [(0, 1.005e-9)], 1e-7, 800.0)
    assert found.elements[0].load_n == pytest.approx(1e-7 / 1.005e-9)


@pytest.mark.parametrize("share", [0.0, 1.0])
@pytest.mark.parametrize("count", [1, 2, 3])
def test_with_nothing_to_move_nothing_is_loaded(share: float, count: int) -> None:
    terms = [(0, *EAST), (1, *NORTH), (2, 0.0, 0.0, 1.0)][:count]
    found = envelope([[1.0, 1.0, 1.0]], [terms], [(0, share)], 0.0, 800.0)
    assert found.legs == [(0.0, 1.0)] * 3
    assert told(found)[:2] == (0.0, NOTHING)
    assert found.elements[0].unit_load == pytest.approx(sqrt(count))
    assert found.unit_force(0) == pytest.approx((1.0, 1.0 * (count > 1), 1.0 * (count > 2)))


def test_a_slack_leg_carries_nothing_whatever_the_line_pull() -> None:
    """No cap and no gain: the line pull has no bound, and 0 times that is still 0."""
    slack = [[(1, *EAST)], [(1, *EAST), (2, *NORTH)], [(1, *EAST), (2, *NORTH), (1, *WEST)]]
    found = envelope([[1.0, 0.0, 0.0]], slack, [(0, 0.0)], 1000.0, inf)
    assert found.legs == [(inf, 1.0), (0.0, 0.0), (0.0, 0.0)]
    assert [told(found, i) for i in range(3)] == [(0.0, NOTHING, 0.0, NOTHING)] * 3


def test_a_leg_of_little_tension_carries_its_share() -> None:
    terms = [[(1, *EAST)], [(1, *EAST), (2, *NORTH)], [(1, *EAST), (2, *NORTH), (3, *WEST)]]
    found = envelope([[1.0, 0.003, 0.004, 0.0]], terms, [(0, 1.0)], 1.0, inf)
    assert found.legs[1] == pytest.approx((0.003, 0.003))
    assert [one.load_n for one in found.elements] == pytest.approx([0.003, 0.005, 0.005])
    assert [one.unit_load for one in found.elements] == pytest.approx([0.003, 0.005, 0.005])


@pytest.mark.parametrize("more", [[], [(2, *NORTH)]])
def test_a_corner_where_pulls_cancel_and_hauling_gets_nowhere_is_not_the_worst(more: list[Term]) -> None:
    terms: list[Term] = [(0, *EAST), (1, *WEST), *more]
    for resistance_n in (0.001, 1000.0):
        found = envelope([[1.0, 1.0, 0.0], [1.0, 0.5, 0.0]], [terms], [(0, 1.0), (1, -1.0)], resistance_n, inf)
        assert told(found) == (resistance_n, (resistance_n, 0.0, 0.0), 0.5, (0.5, 0.0, 0.0))


def test_a_cap_on_a_load_below_the_line_pull() -> None:
    """0.3 and 0.4 of the line at a right angle are 0.5 of it: at 600 / 0.3 N it were 1,000 N, at the cap it is 400."""
    found = envelope([[1.0, 0.3, 0.4]], [[(1, *EAST), (2, *NORTH)]], [(1, 1.0)], 600.0, 800.0)
    assert found.elements[0].load_n == pytest.approx(400.0)
    assert found.force(0) == pytest.approx((240.0, 320.0, 0.0))


@pytest.mark.parametrize("more", [[], [(2, *NORTH)]])
@pytest.mark.parametrize(("apart", "left"), [(1.99e-6, 0.0), (2.01e-6, 2.01e-6)])
def test_what_is_left_of_pulls_that_cancel(apart: float, left: float, more: list[Term]) -> None:
    """Two pulls of 1, so that a millionth of their sum is 2e-6: less of it left is rounding."""
    terms: list[Term] = [(0, *EAST), (1, *WEST), *more]
    found = envelope([[1.0, 1.0 - apart, 0.0]], [terms], [(0, 1.0)], 1000.0, inf)
    assert found.elements[0].unit_load == pytest.approx(left, rel=1e-6)
    assert found.unit_force(0) == pytest.approx((left, 0.0, 0.0), rel=1e-6, abs=1e-15)


@pytest.mark.parametrize(("more", "force"), [(1e-12, (1000.0, 750.0, 0.0)), (1e-6, (750.0, 1000.0, 0.0))])
def test_of_corners_that_are_equal_but_for_rounding_the_first_gives_the_direction(
    more: float, force: tuple[float, float, float]
) -> None:
    """1 and 0.75 at a right angle give 1.25 whichever of the two legs has which; the last leg pulls the load."""
    rows = [[1.0, 0.75, 1.0], [0.75, 1.0 + more, 1.0]]
    found = envelope(rows, [[(0, *EAST), (1, *NORTH)]], [(2, 1.0)], 1000.0, inf)
    assert found.elements[0].load_n == pytest.approx(1250.0)
    assert found.force(0) == pytest.approx(force, rel=1e-5)
    assert found.unit_force(0) == pytest.approx(tuple(part / 1000.0 for part in force), rel=1e-5)
