"""Where nobody should stand."""

from math import cos, hypot, inf, pi, radians, sin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from riglint.mechanics import danger

coordinates = st.floats(-50.0, 50.0)
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
