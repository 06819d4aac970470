"""Places seen from above: quick forms against those of `danger`, and both sides of every edge."""

from collections.abc import Callable
from math import cos, inf, nan, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics.danger import bight_depth_m, distance_to_leg_m, in_wedge
from riglint.mechanics.plan_view import cone_reach_m, inside_turn, plan_distance_m
from riglint.mechanics.vectors import Vec

METRES = st.floats(-50.0, 50.0).map(lambda x: round(x, 9))  # nobody tapes finer
PLACES = st.tuples(METRES, METRES, METRES)
HALF = radians(15.0)


def at(bearing_deg: float, away_m: float) -> Vec:
    return (away_m * cos(radians(bearing_deg)), away_m * sin(radians(bearing_deg)), 0.0)


@given(PLACES, PLACES, PLACES)
def test_distance_agrees_with_the_general_one(place: Vec, start: Vec, end: Vec) -> None:
    expected = distance_to_leg_m(place[:2], start[:2], end[:2])
    assert plan_distance_m(place, start, end) == pytest.approx(expected, abs=1e-9)


@given(PLACES, PLACES, PLACES)
def test_height_never_makes_a_place_seem_farther_off(place: Vec, start: Vec, end: Vec) -> None:
    assert plan_distance_m(place, start, end) <= distance_to_leg_m(place, start, end) + 1e-9


def test_distance_of_a_leg_without_length() -> None:
    assert plan_distance_m((3.0, 4.0, 9.0), (0.0, 0.0, 0.0), (0.0, 0.0, 5.0)) == 5.0


@pytest.mark.parametrize(
    ("bearing", "covered"), [(0.0, True), (14.99, True), (-14.99, True), (15.01, False), (180.0, False)]
)
def test_cone_on_both_sides_of_its_edge(bearing: float, covered: bool) -> None:
    reach = cone_reach_m(at(bearing, 8.0), (0.0, 0.0, 0.0), (2.0, 0.0, 0.0), HALF)
    assert reach == (pytest.approx(8.0) if covered else inf)


def test_cone_at_its_tip_and_with_an_axis_straight_up() -> None:
    tip = (1.0, 2.0, 3.0)
    assert cone_reach_m((1.0, 2.0, 0.0), tip, (1.0, 0.0, 0.0), HALF) == 0.0
    assert cone_reach_m((5.0, 2.0, 0.0), tip, (0.0, 0.0, 1.0), HALF) == inf


@given(PLACES, PLACES, PLACES, PLACES)
def test_inside_of_a_turn_agrees_with_the_general_one(place: Vec, before: Vec, seat: Vec, beyond: Vec) -> None:
    depth = bight_depth_m(place, before, seat, beyond)
    if abs(depth) < 1e-6:
        return  # on an edge, where rounding may decide either way
    found = inside_turn(place, before, seat, beyond)
    assert (found == "triangle") == (depth > 0.0) or not found
    if found:
        assert in_wedge(place, before, seat, beyond)


def test_inside_of_a_right_angle() -> None:
    before, seat, beyond = (10.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 10.0, 0.0)
    assert inside_turn((4.99, 5.0, 0.0), before, seat, beyond) == "triangle"
    assert inside_turn((5.01, 5.0, 0.0), before, seat, beyond) == "angle"
    assert inside_turn((-0.01, 5.0, 0.0), before, seat, beyond) == ""
    assert inside_turn((5.0, -0.01, 0.0), before, seat, beyond) == ""
    assert inside_turn((5.0, 0.0, 0.0), before, seat, beyond) == "triangle"


@given(st.floats(0.0, 360.0), st.floats(1.0, 50.0), st.floats(0.0, 1.0))
def test_a_place_on_any_edge_counts_as_inside_however_it_is_rounded(
    bearing: float, side_m: float, share: float
) -> None:
    """Both legs and the line between their far ends, of a turn of 100 degrees that looks any way."""
    corners = [(3.0, 7.0, 0.0), *((3.0 + x, 7.0 + y, 0.0) for x, y, _ in (at(bearing, side_m), at(bearing + 100, 9.0)))]
    seat, before, beyond = corners
    for start, end in ((seat, before), (seat, beyond), (before, beyond)):
        x, y = (a + share * (b - a) for a, b in zip(start[:2], end[:2], strict=True))
        assert inside_turn((x, y, 0.0), before, seat, beyond) == "triangle"


def test_legs_in_one_line_have_no_inside() -> None:
    assert inside_turn((5.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 0.0, 0.0), (-10.0, 0.0, 0.0)) == ""
    assert inside_turn((5.0, 0.0, 0.0), (10.0, 0.0, 0.0), (0.0, 0.0, 0.0), (20.0, 0.0, 0.0)) == ""


@pytest.mark.parametrize("bad", [nan, inf])
def test_places_must_be_finite(bad: float) -> None:
    with pytest.raises(ValueError, match="place"):
        plan_distance_m((bad, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    with pytest.raises(ValueError, match="place"):
        plan_distance_m((0.0, bad, 0.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    with pytest.raises(ValueError, match="beyond"):
        inside_turn((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, bad, 0.0))
    with pytest.raises(ValueError, match="way"):
        cone_reach_m((1.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, bad, 0.0), HALF)
    with pytest.raises(ValueError, match="place"):
        cone_reach_m((bad, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), HALF)
    with pytest.raises(ValueError, match="seat"):
        inside_turn((0.0, 0.0, 0.0), (0.0, 0.0, 0.0), (bad, 0.0, 0.0), (1.0, 0.0, 0.0))


@pytest.mark.parametrize("bad", [0.0, -0.1, pi / 2 + 0.01, nan])
def test_half_angle_has_a_range(bad: float) -> None:
    with pytest.raises(ValueError, match="half_angle_rad"):
        cone_reach_m((1.0, 0.0, 0.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), bad)


@pytest.mark.parametrize("length", [0.005, 1.0, 300.0])
def test_the_axis_may_be_of_any_length(length: float) -> None:
    assert cone_reach_m((3.0, 4.0, 0.0), (0.0, 0.0, 0.0), (0.6 * length, 0.8 * length, 0.0), HALF) == 5.0


@given(half_rad=st.floats(0.001, 1.5), length=st.floats(0.1, 100.0), side=st.sampled_from([1.0, -1.0]))
def test_a_place_on_the_edge_lies_beside_the_cone(half_rad: float, length: float, side: float) -> None:
    place = (length * cos(half_rad), side * length * sin(half_rad), 0.0)
    assert cone_reach_m(place, (0.0, 0.0, 0.0), (2.0, 0.0, 0.0), half_rad) == inf
    inside = (length * cos(half_rad * 0.99), side * length * sin(half_rad * 0.99), 0.0)
    assert cone_reach_m(inside, (0.0, 0.0, 0.0), (2.0, 0.0, 0.0), half_rad) == pytest.approx(length)


def test_the_widest_cone_is_a_half_plane() -> None:
    assert cone_reach_m((0.01, 5.0, 0.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), pi / 2) == pytest.approx(5.00001)
    assert cone_reach_m((0.0, 5.0, 0.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), pi / 2) == inf
    assert cone_reach_m((0.0, 0.005, 0.0), (0.0, 0.0, 0.0), (0.0, 1.0, 0.0), pi / 2) == 0.005


@pytest.mark.parametrize(
    ("place", "start", "end", "distance_m"),
    [
        ((3.0, 4.0, 0.0), (0.0, 0.0, 0.0), (6.0, 0.0, 0.0), 4.0),
        ((4.0, 3.0, 0.0), (0.0, 0.0, 0.0), (0.0, 6.0, 0.0), 4.0),
        ((-3.0, 4.0, 0.0), (0.0, 0.0, 0.0), (6.0, 0.0, 0.0), 5.0),  # before its start: 3, 4, 5
        ((9.0, 4.0, 0.0), (0.0, 0.0, 0.0), (6.0, 0.0, 0.0), 5.0),  # past its end
        ((2.0, 0.0, 0.0), (0.0, 0.0, 0.0), (3.0, 4.0, 0.0), 1.6),  # 2 sin of a 3-4-5 triangle: 2 x 4 / 5
        ((0.05, 0.0, 0.0), (0.0, 0.0, 0.0), (0.09, 0.0, 0.0), 0.0),  # a short leg has an inside too
    ],
)
def test_distance_by_hand(place: Vec, start: Vec, end: Vec, distance_m: float) -> None:
    assert plan_distance_m(place, start, end) == pytest.approx(distance_m, abs=1e-12)
    moved = [(x + 20.0, y - 30.0, z) for x, y, z in (place, start, end)]
    assert plan_distance_m(*moved) == pytest.approx(distance_m, abs=1e-12)


@pytest.mark.parametrize("turn", [lambda x, y: (x, y, 0.0), lambda x, y: (-y, x, 0.0)])
@pytest.mark.parametrize("legs", [(1000.0, 1000.0), (1000.0, 500.0), (500.0, 1000.0)])
@pytest.mark.parametrize(("share", "found"), [(0.0, ""), (0.995, ""), (1.005, "angle")])
def test_legs_all_but_in_one_line(
    turn: Callable[[float, float], Vec], legs: tuple[float, float], share: float, found: str
) -> None:
    """Twice their triangle's area is a billionth of a thousandth of the squares of the legs: that is one line."""
    one, other = legs
    across = share * 1e-12 * (one * one + other * other) / one
    assert inside_turn(turn(0.0, 1.0), turn(one, 0.0), turn(0.0, 0.0), turn(-other, across)) == found


def test_no_turn_at_all_has_no_inside() -> None:
    here = (1.0, 2.0, 3.0)
    assert inside_turn(here, here, here, here) == ""


@pytest.mark.parametrize(
    ("place", "found"),
    [((0.05, 3.0), "triangle"), ((3.0, 0.05), "triangle"), ((0.0, 10.0), "triangle"), ((0.0, 0.0), "triangle")],
)
def test_close_to_a_leg_is_inside(place: tuple[float, float], found: str) -> None:
    x, y = place
    before, seat, beyond = (30.0, -20.0, 0.0), (20.0, -20.0, 0.0), (20.0, -10.0, 0.0)
    assert inside_turn((x + 20.0, y - 20.0, 0.0), before, seat, beyond) == found
    assert inside_turn((x + 20.0, y - 20.0, 0.0), beyond, seat, before) == found


def test_a_slanting_turn_by_hand() -> None:
    """Legs (3, 4) and (-4, 3): a place at their half sum (-0.5, 3.5) is on the far edge."""
    seat, before, beyond = (0.0, 0.0, 0.0), (3.0, 4.0, 0.0), (-4.0, 3.0, 0.0)
    assert inside_turn((-0.495, 3.465, 0.0), before, seat, beyond) == "triangle"
    assert inside_turn((-0.502, 3.514, 0.0), before, seat, beyond) == "angle"
    assert inside_turn((3.1, 4.0, 0.0), before, seat, beyond) == ""
    assert inside_turn((-4.0, 2.9, 0.0), before, seat, beyond) == ""
