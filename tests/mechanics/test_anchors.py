"""Vehicles, trees, deadmen and pickets."""

from math import atan, cos, hypot, pi, radians, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics import anchors, deadman, pickets
from riglint.mechanics.constants import M_PER_FOOT, PA_PER_PSF

weights = st.floats(1.0, 1e6)
mus = st.floats(0.0, 1.2)
slopes = st.floats(-0.7, 0.7)
lifts = st.floats(0.0, 1.4)


@given(weights, mus, slopes, lifts)
def test_pull_that_just_holds_balances_the_grip(w: float, mu: float, slope: float, lift: float) -> None:
    pull_n = anchors.vehicle_holding_pull_n(w, mu, slope, lift)
    if pull_n > 0.0 and pull_n * sin(lift) < w * cos(slope) * 0.999:
        grip_n = anchors.vehicle_grip_n(w, mu, slope, pull_n * sin(lift))
        assert pull_n * cos(lift) == pytest.approx(grip_n, rel=1e-6, abs=1e-6 * w)


@given(weights, mus, slopes, slopes)
def test_pulled_further_downhill_never_holds_more(w: float, mu: float, one: float, other: float) -> None:
    up, down = sorted((one, other))
    assert anchors.vehicle_grip_n(w, 0.5, max(down, 0.0), 0.0) <= anchors.vehicle_grip_n(w, 0.5, max(up, 0.0), 0.0)
    assert anchors.vehicle_grip_n(w, mu, abs(one), 0.0) <= anchors.vehicle_grip_n(w, mu, -abs(one), 0.0)


@given(weights, mus, slopes, st.floats(0.0, 1e6), st.floats(0.0, 1e6))
def test_more_lift_never_grips_more(w: float, mu: float, slope: float, one: float, other: float) -> None:
    small, large = sorted((one, other))
    assert anchors.vehicle_grip_n(w, mu, slope, large) <= anchors.vehicle_grip_n(w, mu, slope, small)


def on_two_slopes(along_rad: float, across_rad: float) -> tuple[tuple[float, float, float], ...]:
    """Unit vectors of a plane that falls by so much along the first and along the second, and square to it.

    The first is turned about y, the second square to it and as steep as it is to be; the third is their cross product.
    """
    ahead = (cos(along_rad), 0.0, -sin(along_rad))
    level = sin(along_rad) * sin(across_rad) / cos(along_rad)  # so that the two are square to each other
    side = (-level, sqrt(1.0 - level**2 - sin(across_rad) ** 2), -sin(across_rad))
    square = tuple(
        ahead[i - 2] * side[i - 1] - ahead[i - 1] * side[i - 2] for i in range(3)
    )  # fmt: skip
    return ahead, side, square  # type: ignore[return-value]


@given(weights, st.floats(0.05, 1.2), st.floats(-0.5, 0.5), st.floats(-0.5, 0.5), st.floats(0.0, 0.5))
def test_on_two_slopes_the_pull_and_the_weight_make_up_the_grip(
    w: float, mu: float, along: float, across: float, lifted: float
) -> None:
    """By vectors: pull and weight along the ground, added up, are as much as grip on what presses square to it."""
    ahead, side, square = on_two_slopes(along, across)
    pull_n = anchors.vehicle_grip_n(w, mu, along, lifted * w, across)
    pressed_n = w * square[2] - lifted * w
    assert pull_n >= 0.0
    if pull_n > 0.0:
        down = (pull_n - w * ahead[2], -w * side[2])
        assert hypot(*down) == pytest.approx(mu * pressed_n, rel=1e-6, abs=1e-6 * w)


@given(st.floats(0.5, 1.5), st.floats(0.2, 2.0), st.floats(-0.4, 0.4), st.floats(-0.4, 0.4))
def test_on_two_slopes_the_weight_holds_by_its_moment(half: float, height: float, down: float, across: float) -> None:
    """By vectors: the moment of the weight about the edge, (0, 0, -W) at `half` in from it and `height` over it."""
    toward, edge, square = on_two_slopes(down, across)
    arm = [height * square[i] - half * toward[i] for i in range(3)]
    moment = [arm[1] * -1.0, arm[0] * 1.0, 0.0]  # arm x (0, 0, -1)
    found = anchors.tipping(
        weight_n=1.0, half_base_m=half, cg_height_m=height, slope_rad=down, pull_n=0.0, pull_height_m=0.0,
        uplift_n=0.0, uplift_arm_m=0.0, across_rad=across,
    )  # fmt: skip
    about_edge = sum(m * e for m, e in zip(moment, edge, strict=True))
    assert found.restoring_nm == pytest.approx(-about_edge, abs=1e-9)


def test_a_vehicle_that_slides_by_itself_holds_nothing() -> None:
    assert anchors.vehicle_grip_n(3e4, 0.3, 0.5, 0.0) == 0.0
    assert anchors.vehicle_holding_pull_n(3e4, 0.3, 0.5, 0.0) == 0.0


@given(weights, mus, slopes, lifts)
def test_a_line_that_presses_down_is_not_counted_as_help(w: float, mu: float, slope: float, lift: float) -> None:
    level = anchors.vehicle_holding_pull_n(w, mu, slope, 0.0)
    assert anchors.vehicle_holding_pull_n(w, mu, slope, -lift) == level


def test_straight_up_lifts_at_the_weight() -> None:
    assert anchors.vehicle_holding_pull_n(3e4, 0.5, 0.0, pi / 2) <= 3e4 * 2.0
    assert anchors.vehicle_holding_pull_n(3e4, 1.0, -0.5, pi / 2) <= 3e4


def test_a_tree_is_never_more_than_a_hint() -> None:
    figure = anchors.tree_holding_n(0.42)
    assert figure.trust == "from memory, low confidence"
    assert figure.value == pytest.approx(4.2**2 / 3 * 9806.65)


STANDING = {"weight_n": 3e4, "half_base_m": 0.8, "cg_height_m": 1.0, "slope_rad": 0.0}


def test_tipping_by_hand() -> None:
    found = anchors.tipping(**STANDING, pull_n=1e4, pull_height_m=1.2, uplift_n=0.0, uplift_arm_m=1.6)
    assert found.overturning_nm == pytest.approx(12_000)
    assert found.restoring_nm == pytest.approx(24_000)
    assert found.use == pytest.approx(0.5)


def test_lift_at_the_far_side_adds_to_tipping() -> None:
    plain = anchors.tipping(**STANDING, pull_n=1e4, pull_height_m=1.2, uplift_n=0.0, uplift_arm_m=1.6)
    lifted = anchors.tipping(**STANDING, pull_n=1e4, pull_height_m=1.2, uplift_n=1e3, uplift_arm_m=1.6)
    assert lifted.overturning_nm - plain.overturning_nm == pytest.approx(1_600)


def test_a_pull_away_from_the_edge_helps_against_lift_and_never_below_nothing() -> None:
    away = anchors.tipping(**STANDING, pull_n=-5e3, pull_height_m=1.2, uplift_n=1e4, uplift_arm_m=1.6)
    assert away.overturning_nm == pytest.approx(10_000)
    assert anchors.tipping(**STANDING, pull_n=-5e3, pull_height_m=1.2, uplift_n=0.0, uplift_arm_m=1.6).use == 0.0


def test_a_body_that_tips_by_itself_has_no_use() -> None:
    found = anchors.tipping(
        **{**STANDING, "slope_rad": 0.9}, pull_n=0.0, pull_height_m=1.2, uplift_n=0.0, uplift_arm_m=1.6
    )
    assert found.restoring_nm < 0.0
    assert found.use is None


@given(st.floats(3.0, 7.0), st.floats(3.0, 7.0), st.floats(atan(1 / 4), pi / 2), st.floats(atan(1 / 4), pi / 2))
def test_deeper_and_flatter_never_holds_less(d1: float, d2: float, s1: float, s2: float) -> None:
    (shallow, deep), (flat, steep) = sorted((d1, d2)), sorted((s1, s2))
    worse = deadman.deadman_holding_pa(shallow * M_PER_FOOT, steep, "loam")
    better = deadman.deadman_holding_pa(deep * M_PER_FOOT, flat, "loam")
    assert worse is not None
    assert better is not None
    assert worse.value <= better.value * (1 + 1e-12)


def test_halfway_between_two_depths() -> None:
    figure = deadman.deadman_holding_pa(4.5 * M_PER_FOOT, atan(1 / 2), "loam")
    assert figure is not None
    assert figure.value / PA_PER_PSF == pytest.approx((2_200 + 3_600) / 2)


@pytest.mark.parametrize(("feet", "degrees"), [(2.9, 30), (7.1, 30), (5, 13.5), (0, 45), (5, 0)])
def test_outside_the_table_there_is_no_figure(feet: float, degrees: float) -> None:
    assert deadman.deadman_holding_pa(feet * M_PER_FOOT, radians(degrees), "loam") is None


def test_capacity_and_length_undo_each_other() -> None:
    length_m = deadman.deadman_length_m(3e5, 2e5, 0.4, 0.3)
    assert deadman.deadman_capacity_n(2e5, 0.4, length_m - 0.3) == pytest.approx(3e5)


@pytest.mark.parametrize("arrangement", ["1", "1-1", "2-1", "1-1-1", "3-2-1"])
def test_wetter_ground_never_holds_more(arrangement: str) -> None:
    found = [pickets.picket_holdfast(arrangement, "us", soil).value for soil in pickets.SOIL_FACTORS]
    assert found == sorted(found, reverse=True)


@pytest.mark.parametrize("arrangement", ["1", "1-1", "2-1", "1-1-1", "3-2-1"])
def test_the_safer_figure_is_the_lower(arrangement: str) -> None:
    both = [pickets.picket_holdfast(arrangement, t, "undisturbed loam").value for t in ("us", "au")]
    assert pickets.safer_picket_holdfast(arrangement, "undisturbed loam").value == min(both)


def test_unknown_words_are_refused() -> None:
    with pytest.raises(ValueError, match="arrangement"):
        pickets.picket_holdfast("5", "us", "undisturbed loam")
    with pytest.raises(ValueError, match="soil"):
        pickets.picket_holdfast("1", "us", "snow")
    with pytest.raises(ValueError, match="tradition"):
        pickets.picket_holdfast("1", "fr", "undisturbed loam")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="soil"):
        deadman.deadman_holding_pa(1.5, 0.5, "snow")


def test_a_hair_outside_the_table_is_its_edge() -> None:
    """Half a billionth of a foot past 7 ft, or a billionth of a radian flatter than 1:4, is rounding."""
    deep = deadman.deadman_holding_pa((7.0 + 0.5e-9) * M_PER_FOOT, atan(1 / 4), "loam")
    flat = deadman.deadman_holding_pa(7.0 * M_PER_FOOT, atan(1 / 4) - 1e-9, "loam")
    edge = deadman.deadman_holding_pa(7.0 * M_PER_FOOT, atan(1 / 4), "loam")
    assert edge is not None
    assert deep is not None
    assert flat is not None
    assert (deep.value, flat.value) == pytest.approx((edge.value, edge.value), rel=1e-12)
    for feet in (3.0 - 1e-9, 7.0 + 1e-9):
        assert deadman.deadman_holding_pa(feet * M_PER_FOOT, atan(1 / 4), "loam") is not None
    assert deadman.deadman_holding_pa(7.0 * M_PER_FOOT, atan(1 / 4) - 2e-9, "loam") is None
    assert deadman.deadman_holding_pa((7.0 + 2e-9) * M_PER_FOOT, atan(1 / 4), "loam") is None


def test_as_steep_as_one_to_one_is_read_and_steeper_is_from_memory() -> None:
    for slope_rad, trust in ((atan(1.0) + 1e-9, "read"), (atan(1.0) + 2e-9, "from memory")):
        figure = deadman.deadman_holding_pa(5.0 * M_PER_FOOT, slope_rad, "loam")
        assert figure is not None
        assert figure.trust == trust


def test_the_older_manual_s_trench() -> None:
    assert pytest.approx(2.0 * M_PER_FOOT) == deadman.TRENCH_FM.value  # FM 5-125 ch. 4, from memory: up to 2 ft


def test_what_is_lifted_off_the_ground_has_no_grip() -> None:
    assert anchors.vehicle_grip_n(3e4, 0.5, 0.0, 4e4) == 0.0


def test_a_light_body_counts_as_one() -> None:
    """A hundredth of a newton at a grip of 0.5; its moment about an edge half a metre off, 5 mNm."""
    assert anchors.vehicle_holding_pull_n(0.01, 0.5, 0.0, 0.0) == pytest.approx(0.005)
    light = {**STANDING, "weight_n": 0.01, "half_base_m": 0.5}
    found = anchors.tipping(**light, pull_n=0.001, pull_height_m=1.0, uplift_n=0.0, uplift_arm_m=0.0)
    assert found.use == pytest.approx(0.2)


def test_a_line_straight_up_from_what_has_no_grip_is_not_counted_on() -> None:
    assert anchors.vehicle_holding_pull_n(3e4, 0.0, -0.5, pi / 2) == 0.0
