"""Where nobody should stand."""

from math import atan2, cos, hypot, inf, nan, pi, radians, sin, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from riglint.mechanics import danger

# To the nanometre: below it the product of two lengths may come to nothing.
coordinates = st.floats(-50.0, 50.0).map(lambda x: round(x, 9))
points = st.tuples(coordinates, coordinates)
solids = st.tuples(coordinates, coordinates, coordinates)
reaches = st.floats(0.0, 50.0)

START, END = (0.0, 0.0), (10.0, 0.0)


def _apart(*places: tuple[float, ...]) -> bool:
    return all(
        hypot(*(a - b for a, b in zip(p, q, strict=True))) > 0.01 for i, p in enumerate(places) for q in places[:i]
    )


@pytest.mark.parametrize(
    ("place", "distance_m"),
    [((5.0, 3.0), 3.0), ((15.0, 0.0), 0.0), ((25.0, 0.0), 5.0), ((-14.0, 3.0), 5.0), ((20.0, 2.0), 2.0)],
)
def test_recoil_reaches_past_both_ends(place: tuple[float, float], distance_m: float) -> None:
    assert danger.recoil(place, START, END, 10.0).distance_m == pytest.approx(distance_m)


@given(solids, solids, solids, reaches)
def test_recoil_does_not_care_which_end_is_first(
    place: danger.Point, start: danger.Point, end: danger.Point, reach_m: float
) -> None:
    assume(_apart(start, end))
    one, other = danger.recoil(place, start, end, reach_m), danger.recoil(place, end, start, reach_m)
    assert one[:3] == pytest.approx(other[:3], abs=1e-6)  # the angle jumps at the very end of the leg


@given(points, points, points, reaches, reaches)
def test_a_longer_reach_never_puts_anybody_further_off(
    place: danger.Point, start: danger.Point, end: danger.Point, one: float, other: float
) -> None:
    assume(_apart(start, end))
    short, long = sorted((one, other))
    near = danger.recoil(place, start, end, long).distance_m
    assert near <= danger.recoil(place, start, end, short).distance_m + 1e-9
    assert danger.recoil(place, start, end, 0.0).distance_m == pytest.approx(
        danger.distance_to_leg_m(place, start, end), abs=1e-6
    )


@pytest.mark.parametrize(
    ("place", "inside"),
    [
        ((15.0, 0.0), True),
        ((15.0, 1.0), True),
        ((15.0, 2.0), False),
        ((-5.0, 1.0), True),
        ((5.0, 0.1), False),
        ((25.0, 0.0), False),
    ],
)
def test_cone_past_the_ends(place: tuple[float, float], inside: bool) -> None:
    assert danger.in_recoil_cone(place, START, END, 10.0, radians(15)) is inside


BEFORE, SEAT, AFTER = (10.0, 0.0), (0.0, 0.0), (0.0, 10.0)


@pytest.mark.parametrize(
    ("place", "depth_m"),
    [((2.0, 3.0), 2.0), ((-1.0, 5.0), -1.0), ((10.0, 10.0), -hypot(5.0, 5.0)), ((5.0, 0.0), 0.0)],
)
def test_depth_in_the_bight(place: tuple[float, float], depth_m: float) -> None:
    assert danger.bight_depth_m(place, BEFORE, SEAT, AFTER) == pytest.approx(depth_m)


@given(points, points, points, points)
def test_bight_is_the_same_from_either_leg(
    place: danger.Point, before: danger.Point, seat: danger.Point, after: danger.Point
) -> None:
    one = danger.bight_depth_m(place, before, seat, after)
    assert one == pytest.approx(danger.bight_depth_m(place, after, seat, before), abs=1e-6)
    if one > 0.0:
        assert danger.in_wedge(place, before, seat, after)


def test_wedge_has_no_far_side() -> None:
    assert danger.in_wedge((40.0, 40.0), BEFORE, SEAT, AFTER)
    assert not danger.in_wedge((-1.0, 40.0), BEFORE, SEAT, AFTER)


def test_a_line_that_does_not_turn_has_no_bight() -> None:
    assert danger.bight_depth_m((5.0, 0.0), (10.0, 0.0), (0.0, 0.0), (-10.0, 0.0)) <= 0.0


def test_height_does_not_lift_a_person_out_of_the_bight() -> None:
    lifted = danger.bight_depth_m((2.0, 3.0, 1.5), (*BEFORE, 0.5), (*SEAT, 1.0), (*AFTER, 0.2))
    assert lifted == pytest.approx(2.0)


def test_a_failed_redirect_flies_between_its_legs() -> None:
    seen = danger.flight((3.0, 3.0), SEAT, BEFORE, AFTER, before_n=1e4, after_n=1e4)
    assert seen is not None
    assert tuple(seen) == pytest.approx((hypot(3, 3), 0.0, 0.0), abs=1e-6)


def test_flight_in_three_dimensions() -> None:
    # legs east and up at equal tension: it flies at 45 deg upward
    seen = danger.flight((2.0, 0.0, 2.0), (0.0, 0.0, 0.0), (5.0, 0.0, 0.0), (0.0, 0.0, 9.0), before_n=3e4, after_n=3e4)
    assert seen is not None
    assert tuple(seen) == pytest.approx((hypot(2, 2), 0.0, 0.0), abs=1e-6)


def test_the_tighter_leg_turns_its_flight() -> None:
    even = danger.flight((10.0, 0.0), SEAT, BEFORE, AFTER, before_n=1e4, after_n=1e4)
    uneven = danger.flight((10.0, 0.0), SEAT, BEFORE, AFTER, before_n=2e4, after_n=1e4)
    assert even is not None
    assert uneven is not None
    assert even.off_line_rad == pytest.approx(pi / 4)
    assert uneven.off_line_rad < even.off_line_rad


def test_behind_its_anchor_nothing_flies() -> None:
    seen = danger.flight((-3.0, -3.0), SEAT, BEFORE, AFTER, before_n=1e4, after_n=1e4)
    assert seen is not None
    assert seen.along_m < 0.0


def test_nothing_drives_a_redirect_on_a_straight_line() -> None:
    assert danger.flight((1.0, 1.0), SEAT, (5.0, 0.0), (-5.0, 0.0), before_n=1e4, after_n=1e4) is None
    assert danger.flight((1.0, 1.0), SEAT, BEFORE, AFTER, before_n=0.0, after_n=0.0) is None


@given(points, st.floats(0.0, 2 * pi), reaches)
def test_turning_the_whole_rig_changes_nothing(place: danger.Point, turn_rad: float, reach_m: float) -> None:
    def turned(point: danger.Point) -> danger.Point:
        x, y = point
        return x * cos(turn_rad) - y * sin(turn_rad), x * sin(turn_rad) + y * cos(turn_rad)

    still = danger.recoil(place, START, END, reach_m)
    assert danger.recoil(turned(place), turned(START), turned(END), reach_m).distance_m == pytest.approx(
        still.distance_m, abs=1e-6
    )


def test_stand_off_multiples() -> None:
    """FM 4-30.31 safety: one length, and twice it; FM 21-305 ch. 22: the longest span once; read second hand."""
    figures = (danger.STAND_OFF_FLOOR, danger.STAND_OFF_STRICT, danger.STAND_OFF_SPAN)
    assert [figure.value for figure in figures] == [1.0, 2.0, 1.0]


def test_stand_off_takes_no_less_than_the_floor() -> None:
    assert danger.stand_off_m(20.0, danger.STAND_OFF_STRICT.value) == 40.0
    with pytest.raises(ValueError, match="multiple_factor"):
        danger.stand_off_m(20.0, 0.5)


@pytest.mark.parametrize("place", [(inf, 0.0), (0.0,), (0.0, 0.0, 0.0)])
def test_points_that_do_not_fit_are_refused(place: danger.Point) -> None:
    with pytest.raises(ValueError, match="place"):
        danger.recoil(place, START, END, 1.0)


def test_at_the_redirect_itself_there_is_no_angle() -> None:
    seen = danger.flight(SEAT, SEAT, BEFORE, AFTER, before_n=1e4, after_n=1e4)
    assert seen == (0.0, 0.0, 0.0)


def test_a_leg_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match="end"):
        danger.recoil((1.0, 1.0), START, START, 1.0)


@pytest.mark.parametrize(
    ("place", "half_rad", "inside"),
    [
        ((20.0, 0.0), 0.1, True),  # at the very reach
        ((20.001, 0.0), 0.1, False),
        ((12.0, 2.0), pi / 4, True),  # on the cone's edge: 2 beside, 2 past
        ((12.0, 2.0), pi / 4 - 1e-6, False),
        ((10.0, 0.0), 0.1, False),  # at the leg's end, not past it
        ((10.005, 0.0), 0.1, True),
        ((-6.0, 8.0), pi / 2, True),  # 10 from the other end: 6, 8, 10
        ((-6.0, 8.01), pi / 2, False),
    ],
)
def test_edges_of_the_cone(place: tuple[float, float], half_rad: float, inside: bool) -> None:
    assert danger.in_recoil_cone(place, START, END, 10.0, half_rad) is inside


def test_recoil_by_hand_in_space() -> None:
    """A leg 4 long straight up; a place 3 aside and 5 above its end, with a reach of 1: 4 beyond it, so 5 away."""
    seen = danger.recoil((3.0, 0.0, 9.0), (0.0, 0.0, 0.0), (0.0, 0.0, 4.0), 1.0)
    assert tuple(seen) == pytest.approx((3.0, 5.0, 5.0, atan2(3.0, 5.0)))
    assert danger.recoil((3.0, 0.0, 2.0), (0.0, 0.0, 0.0), (0.0, 0.0, 4.0), 1.0) == (3.0, 0.0, 3.0, 0.0)
    assert danger.recoil((0.0, 2.0, -0.5), (0.0, 0.0, 0.0), (0.0, 0.0, 4.0), 1.0).past_end_m == 0.5


@pytest.mark.parametrize(
    ("place", "start", "end", "distance_m"),
    [
        ((1.0, 2.0, 3.0), (0.0, 0.0, 0.0), (0.0, 0.0, 0.0), sqrt(14.0)),  # a leg without length
        ((1.0, 2.0, 2.0), (0.0, 0.0, 0.0), (-5.0, 0.0, 0.0), 3.0),  # before its start
        ((7.0, 2.0, 2.0), (0.0, 0.0, 0.0), (6.0, 0.0, 0.0), 3.0),  # past its end
        ((3.0, 3.0, 4.0), (0.0, 0.0, 0.0), (6.0, 0.0, 0.0), 5.0),  # beside it: 3, 4, 5
        ((3.0, 5.0, 4.0), (0.0, 2.0, 0.0), (0.0, 8.0, 0.0), 5.0),
        ((3.0, 4.0, 5.0), (0.0, 0.0, 2.0), (0.0, 0.0, 8.0), 5.0),
        ((0.0, 0.0, 2.0), (0.0, 0.0, 0.0), (3.0, 0.0, 4.0), 1.2),  # the height of a 3-4-5 triangle's half: 2 x 3 / 5
        ((0.0, 0.05, 0.0), (0.0, 0.0, 0.0), (0.0, 0.09, 0.0), 0.0),  # a short leg has an inside too
    ],
)
def test_distance_by_hand(place: danger.Point, start: danger.Point, end: danger.Point, distance_m: float) -> None:
    assert danger.distance_to_leg_m(place, start, end) == pytest.approx(distance_m, abs=1e-12)
    moved = [(x + 20.0, y - 30.0, z + 5.0) for x, y, z in (place, start, end)]
    assert danger.distance_to_leg_m(*moved) == pytest.approx(distance_m, abs=1e-12)


@pytest.mark.parametrize("place", [(0.0, 0.0), (5.0, 0.0), (0.0, 5.0), (30.0, 0.0)])
def test_on_a_leg_is_inside_the_turn(place: danger.Point) -> None:
    assert danger.in_wedge(place, BEFORE, SEAT, AFTER)
    assert danger.in_wedge(place, AFTER, SEAT, BEFORE)


@pytest.mark.parametrize("place", [(-0.005, 5.0), (5.0, -0.005), (-1.0, -1.0)])
def test_outside_a_leg_is_outside_the_turn(place: danger.Point) -> None:
    assert not danger.in_wedge(place, BEFORE, SEAT, AFTER)
    assert not danger.in_wedge(place, AFTER, SEAT, BEFORE)
    assert danger.bight_depth_m(place, BEFORE, SEAT, AFTER) < 0.0


@pytest.mark.parametrize("place", [(5.0, 0.0), (-5.0, 0.0), (0.0, 0.0)])
def test_a_straight_line_has_no_inside_even_on_it(place: danger.Point) -> None:
    assert not danger.in_wedge(place, (10.0, 0.0), SEAT, (-10.0, 0.0))


def test_a_turn_elsewhere_is_the_same_turn() -> None:
    moved = [(x + 30.0, y - 20.0, 7.0) for x, y in ((2.0, 3.0), BEFORE, SEAT, AFTER)]
    assert danger.bight_depth_m(*moved) == pytest.approx(2.0)
    assert danger.in_wedge(*moved)


def test_a_narrow_turn_is_one() -> None:
    """Ten centimetres across at 10 cm: the triangle's sides are 0.1, 0.1 and 0.14 m."""
    assert danger.in_wedge((0.03, 0.02), (0.1, 0.0), SEAT, (0.0, 0.1))
    assert danger.bight_depth_m((0.03, 0.02), (0.1, 0.0), SEAT, (0.0, 0.1)) == pytest.approx(0.02)


@pytest.mark.parametrize("place", [(5.0, 5.0), (3.0, 7.0)])
def test_the_line_between_the_far_ends_is_the_triangle_s_edge(place: danger.Point) -> None:
    assert danger.bight_depth_m(place, BEFORE, SEAT, AFTER) == 0.0
    x, y = place
    assert danger.bight_depth_m((x + 0.003, y + 0.004), BEFORE, SEAT, AFTER) == pytest.approx(-0.007 / sqrt(2.0))
    assert danger.bight_depth_m((x - 0.003, y - 0.004), BEFORE, SEAT, AFTER) == pytest.approx(0.007 / sqrt(2.0))


def test_flight_by_hand() -> None:
    """3 kN east and 4 kN north: it flies along (0.6, 0.8); the place (7, 1) lies 5 along that way and 5 beside it."""
    for before, after in (((5.0, 0.0), (0.0, 9.0)), ((0.5, 0.0), (0.0, 0.1))):
        seen = danger.flight((7.0, 1.0), SEAT, before, after, before_n=3e3, after_n=4e3)
        assert seen is not None
        assert tuple(seen) == pytest.approx((5.0, 5.0, pi / 4))
    deep = danger.flight((0.0, 7.0, 1.0), (0.0, 0.0, 0.0), (0.0, 5.0, 0.0), (0.0, 0.0, 9.0), before_n=3e3, after_n=4e3)
    assert deep is not None
    assert tuple(deep) == pytest.approx((5.0, 5.0, pi / 4))


def test_a_billionth_of_the_pulls_drives_nothing() -> None:
    west, east = (-5.0, 0.0), (5.0, 0.0)
    assert danger.flight((1.0, 1.0), SEAT, east, west, before_n=1e3, after_n=1e3 * (1 - 1.99e-9)) is None
    assert danger.flight((1.0, 1.0), SEAT, east, west, before_n=1e3, after_n=1e3 * (1 - 2.01e-9)) is not None


@pytest.mark.parametrize("coordinate", [0, 1, 2])
@pytest.mark.parametrize("bad", [inf, -inf, nan])
def test_every_coordinate_must_be_finite(coordinate: int, bad: float) -> None:
    place = [0.0, 0.0, 0.0]
    place[coordinate] = bad
    with pytest.raises(ValueError, match=r"^place must be finite"):
        danger.distance_to_leg_m(tuple(place), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    with pytest.raises(ValueError, match=r"^end must be finite"):
        danger.distance_to_leg_m((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), tuple(place))


def test_the_shortest_leg_has_a_direction() -> None:
    assert danger.recoil((1.0, 1.0), SEAT, (1e-9, 0.0), 1.0).aside_m == pytest.approx(1.0)
    with pytest.raises(ValueError, match=r"^end must be apart"):
        danger.recoil((1.0, 1.0), SEAT, (0.9e-9, 0.0), 1.0)
