"""Every shipped plan reads, stands and says what it teaches; the figures that a hand can reckon agree."""

from math import asin, cos, isfinite, pi, radians, sin, tan

import pytest

from riglint.mechanics.deadman import deadman_capacity_n, deadman_holding_pa
from riglint.mechanics.pickets import picket_holdfast
from riglint.solve.solution import CASES, Case, Station

from .plans import PLANS, end, peak_n, solution, solve_text, stage, start, text

FOOT_M = 0.3048
POUND_N = 4.4482216152605
G = 9.80665
SOUND = ("straight-pull", "two-parts", "controlled-lowering")


def taken_in_m(name: str, index: int = 0) -> float:
    return start(name, index).path_m - end(name, index).path_m


def hardest(name: str) -> Case:
    """The case that a sound plan's gear is judged by: a winch that pays out doesn't stall."""
    return "expected" if stage(name).stage.works == "paying out" else "stall"


def on_drum_m(station: Station) -> float:
    assert station.drum is not None
    return station.drum.rope_m.low


# --- all of them


@pytest.mark.parametrize("name", PLANS)
def test_it_begins_with_what_it_teaches_and_what_to_see(name: str) -> None:
    head = text(name).split("rig_plan: 1")[0]
    assert all(line.startswith("#") for line in head.splitlines())
    if name != "ten-lines":
        assert "# What it teaches: " in head
        assert "# What to see: " in head


@pytest.mark.parametrize("name", PLANS)
def test_it_stands_as_planned(name: str) -> None:
    for found in solution(name).stages:
        assert found.refused is None
        assert found.stations


@pytest.mark.parametrize("name", PLANS)
def test_every_load_is_a_number(name: str) -> None:
    for found in solution(name).stages:
        for station in found.stations:
            loads = [station.load(component, case) for component in found.components for case in CASES]
            assert all(load is None or (isfinite(load) and load >= 0.0) for load in loads)
            assert station.line_pull_most_n is None or isfinite(station.line_pull_most_n)


@pytest.mark.parametrize("name", PLANS)
def test_the_load_feels_the_line(name: str) -> None:
    """A rig in which the load feels nothing would pass every check of its loads."""
    for index, found in enumerate(solution(name).stages):
        assert peak_n(name, "load", found.stage.load.name, "expected", index) > 0.0
        assert all(station.ratio_least > 0.5 for station in found.stations)


@pytest.mark.parametrize("name", PLANS)
def test_the_line_is_long_enough(name: str) -> None:
    for index, found in enumerate(solution(name).stages):
        if start(name, index).drum is not None:
            assert min(on_drum_m(station) for station in found.stations) > 0.0


@pytest.mark.parametrize("name", PLANS)
def test_a_hauling_line_gets_shorter_by_the_advantage(name: str) -> None:
    """What the winch takes in is the mean of -dL/ds over the travel, which hardly changes in these rigs."""
    for index, found in enumerate(solution(name).stages):
        travel = found.stations[-1].travel_m
        ratios = start(name, index).ratio_ideal, end(name, index).ratio_ideal
        assert min(ratios) - 1e-3 <= taken_in_m(name, index) / travel <= max(ratios) + 1e-3


PARTS = {
    "straight-pull": 1, "twisted-join": 1, "three-corners": 1, "anchor-slides": 1, "up-the-bank": 1, "bridle": 1,
    "ten-lines": 1, "two-parts": 2, "self-recovery": 2, "deadman": 2, "picket-holdfast": 2, "join-meets-ring": 2,
    "join-planned-stop": 2, "compound-rig": 2, "three-parts-short-line": 3, "fruit-truck": 3,
    "small-winch-tow-eye": 4, "five-parts": 5, "ten-parts": 10, "controlled-lowering": 1, "re-rig": 2,
}  # fmt: skip


@pytest.mark.parametrize("name", PLANS)
def test_the_parts_are_the_legs_that_pull_on_the_load(name: str) -> None:
    assert stage(name).parts == PARTS[name]


# --- the sound ones


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_plan_leaves_nothing_out_that_the_solver_asks_for(name: str) -> None:
    found = stage(name)
    assert not any(found.missing.values())
    assert not found.losses_assumed


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_plan_carries_every_load_by_its_ratings(name: str) -> None:
    """Judged here with nothing of the rules: marked working loads, rope over 3 (wire) or 2 (fibre)."""
    found = stage(name)
    case = hardest(name)
    for component in found.components:
        peak = found.peak(component, case)
        facts = getattr(component.item, "facts", None)
        if peak is None or facts is None:
            continue
        if component.kind == "piece":
            assert peak.load_n <= facts.breaking.low / (3.0 if facts.rope.startswith("wire") else 2.0)
        elif component.kind == "connector":
            assert peak.load_n <= facts.working_load.low
        elif component.kind == "point":
            assert peak.load_n <= facts.rated.low
        elif component.kind == "redirect":
            assert peak.load_n <= 2.0 * facts.sheave.rated.low
        elif component.kind == "fairlead":
            assert peak.load_n <= facts.fairlead.rated.low


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_plans_winch_vehicle_holds_by_its_grip(name: str) -> None:
    found = stage(name)
    [vehicle] = [body for body in found.stage.bodies.values() if not body.moves and body.name != "ground"]
    ground, weight = vehicle.facts.ground, vehicle.facts.weight
    assert ground is not None
    assert ground.grip is not None
    assert ground.slope is not None
    assert weight is not None
    downhill = max(0.0, -ground.slope.low)
    holds = weight.low * (ground.grip.low * cos(downhill) - sin(downhill))
    case = hardest(name)
    assert peak_n(name, "body", vehicle.name, case) < 0.85 * holds


@pytest.mark.parametrize("name", SOUND)
def test_a_sound_plan_keeps_its_wraps(name: str) -> None:
    for station in stage(name).stations:
        assert station.drum is not None
        assert station.drum.wraps.low > 1.3 * station.drum.wraps_in_bottom


def test_the_straight_pull_takes_in_its_travel_and_rolls_as_the_formula_says() -> None:
    assert taken_in_m("straight-pull") == pytest.approx(8.0, abs=1e-6)
    hauling = start("straight-pull").resistance.hauling
    assert hauling is not None
    # By how deep the tyres sink 2 % + 1.5 % an inch; by the surface 7.5 %: the greater counts.
    by_depth, by_surface = 0.02 + 0.015 * 0.04 / 0.0254, 0.075
    assert hauling.high == pytest.approx(2600 * G * (max(by_depth, by_surface) + sin(radians(2))), rel=1e-3)


def test_two_parts_take_in_thirty_feet_for_fifteen() -> None:
    assert taken_in_m("two-parts") == pytest.approx(30.0 * FOOT_M, rel=0.005)


def test_lowering_pays_out_the_travel_and_is_driven_by_the_slope() -> None:
    assert taken_in_m("controlled-lowering") == pytest.approx(-10.0, abs=1e-6)
    assert peak_n("controlled-lowering", "winch", "winch", "expected") == pytest.approx(4000 * G * sin(radians(12)))
    assert on_drum_m(end("controlled-lowering")) < on_drum_m(start("controlled-lowering"))


# --- parts and the line that they take


@pytest.mark.parametrize(
    ("name", "parts", "travel_m"),
    [
        ("three-parts-short-line", 3, 5.0),
        ("five-parts", 5, 4.0),
        ("ten-parts", 10, 2.0),
        ("small-winch-tow-eye", 4, 12 * FOOT_M),
        ("self-recovery", 2, 6.0),
        ("deadman", 2, 15 * FOOT_M),
        ("picket-holdfast", 2, 20 * FOOT_M),
    ],
)
def test_parts_times_travel_is_the_line_taken_in(name: str, parts: int, travel_m: float) -> None:
    assert taken_in_m(name) == pytest.approx(parts * travel_m, rel=0.01)


def test_the_short_line_leaves_three_wraps() -> None:
    drum = start("three-parts-short-line").drum
    assert drum is not None
    assert drum.wraps.low == pytest.approx(3.3, abs=0.1)
    assert drum.wraps.low == pytest.approx(drum.rope_m.low / (pi * 0.122), rel=0.01)
    assert drum.wraps.low < drum.wraps_in_bottom


def test_five_parts_lose_what_four_sheaves_take() -> None:
    worst = sum(0.91**k for k in range(5))
    assert start("five-parts").ratio_least == pytest.approx(worst, rel=0.002)
    assert start("five-parts").line_pull_doctrine_n == pytest.approx(2.0 * 18_000 * G * 1.4 / 5.0, rel=0.002)
    assert peak_n("five-parts", "point", "rock_pin", "expected") > 250_000.0


def test_ten_parts_lose_what_nine_sheaves_take() -> None:
    assert start("ten-parts").ratio_least == pytest.approx(sum(0.94**k for k in range(10)), rel=0.002)
    assert start("ten-parts").ratio_most == pytest.approx(sum(0.97**k for k in range(10)), rel=0.002)
    assert start("ten-parts").line_pull_doctrine_n == pytest.approx(90_000 * 1.9 / 10.0, rel=0.002)


def test_four_parts_on_one_eye_carry_the_whole_load() -> None:
    assert peak_n("small-winch-tow-eye", "point", "tow_eye", "expected") == pytest.approx(
        2.0 * 7400 * POUND_N, rel=0.002
    )
    assert peak_n("small-winch-tow-eye", "point", "tow_eye") > 5.0 * 8800 * POUND_N


def test_with_the_winch_on_the_casualty_its_own_leg_is_a_part() -> None:
    nose = peak_n("self-recovery", "point", "nose")
    assert start("self-recovery").ratio_ideal == pytest.approx(2.0, abs=0.01)
    assert peak_n("self-recovery", "point", "willow") == pytest.approx(nose * (1.0 + 0.97), rel=0.002)


# --- joins


@pytest.mark.parametrize("name", ["join-meets-ring", "join-planned-stop"])
def test_the_join_meets_the_ring_where_the_path_to_it_is_15_m(name: str) -> None:
    [meeting] = [event for event in stage(name).events if event.kind == "join at seat"]
    [turn] = start(name).turns
    assert turn.path_beyond_m == pytest.approx(19.7, abs=0.05)
    assert meeting.travel_m == pytest.approx(turn.path_beyond_m - 15.0, abs=0.02)


def test_the_two_lorries_differ_by_the_stop_alone() -> None:
    with_stop, without = (text(name).split("bodies:")[1] for name in ("join-planned-stop", "join-meets-ring"))
    assert with_stop.startswith(without.rstrip("\n"))
    assert not [event for event in stage("join-meets-ring").events if event.kind == "planned stop"]
    [stop] = [event for event in stage("join-planned-stop").events if event.kind == "planned stop"]
    assert stop.stop is not None
    assert stop.stop.names == {"join_1", "ring_a"}


def test_the_twisted_join_says_so() -> None:
    [join] = stage("twisted-join").line("haul").joins
    assert join.facts.twist == "half turn"


# --- angles, anchors, stages, three dimensions


def test_each_corner_carries_by_its_angle() -> None:
    station = start("three-corners")
    included = {turn.turn.redirect: turn.included_rad for turn in station.turns}
    assert included["wide"] > radians(120) > included["square"] > radians(90) > included["sharp"] > radians(60)
    line = station.legs[0].tension["stall"]
    for index, name in enumerate(("sharp", "square", "wide")):
        most = 2.0 * cos(0.5 * included[name]) * line
        assert 0.9 * most < peak_n("three-corners", "redirect", name) < most, index
    assert peak_n("three-corners", "connector", "strap_3") > 35_000.0 > peak_n("three-corners", "connector", "strap_2")


def test_the_light_van_holds_a_quarter_of_what_the_block_puts_on_it() -> None:
    [turn] = start("anchor-slides").turns
    assert turn.included_rad == pytest.approx(radians(50), abs=radians(1))
    assert peak_n("anchor-slides", "body", "light_van", "expected") > 4.0 * 2900 * G * 0.35


def test_the_pickets_hold_the_expected_pull_and_not_the_stall() -> None:
    holds = picket_holdfast("3-2-1", "us", "wet clay and gravel").value
    assert holds == pytest.approx(3600 * POUND_N)
    assert (
        peak_n("picket-holdfast", "point", "holdfast", "expected")
        < holds
        < peak_n("picket-holdfast", "point", "holdfast")
    )


def test_the_deadman_holds_the_stall() -> None:
    pressure = deadman_holding_pa(5 * FOOT_M, 0.24497866312686414, "loam")
    assert pressure is not None
    holds = deadman_capacity_n(pressure.value, 1.5 * FOOT_M, 6 * FOOT_M)
    assert holds == pytest.approx(36_900 * POUND_N, rel=0.001)
    assert peak_n("deadman", "point", "buried_timber") < 0.5 * holds


def test_the_second_stage_begins_where_the_first_ended() -> None:
    first, second = solution("re-rig").stages
    assert second.stage.begins_m == pytest.approx(4.0)
    assert second.stage.points["tanker_front"].at[0] - first.stage.points["tanker_front"].at[0] == pytest.approx(4.0)
    assert second.parts == 1
    assert taken_in_m("re-rig", 0) == pytest.approx(8.0, rel=0.002)
    assert taken_in_m("re-rig", 1) == pytest.approx(12.0, rel=0.002)
    assert second.stage.load_held_by


def test_up_the_bank_the_load_climbs_and_the_line_lifts() -> None:
    first, last = start("up-the-bank"), end("up-the-bank")
    x, _, z = (b - a for a, b in zip(first.places["coupling"], last.places["coupling"], strict=True))
    assert z / x == pytest.approx(tan(radians(20)))
    assert first.ratio_ideal == pytest.approx(0.98, abs=0.01)
    assert last.ratio_ideal == pytest.approx(0.84, abs=0.01)
    assert first.line_pull_most_n is not None
    assert last.line_pull_most_n is not None
    assert last.line_pull_most_n > first.line_pull_most_n


def test_a_compound_rig_multiplies_twice() -> None:
    name = "compound-rig"
    assert start(name).ratio_ideal == pytest.approx(4.0, abs=0.01)
    assert taken_in_m(name) == pytest.approx(12.0, rel=0.005)
    moved = end(name).places["runner"][0] - start(name).places["runner"][0]
    assert moved == pytest.approx(6.0, rel=0.01)
    winch = peak_n(name, "winch", "winch", "expected")
    pendant = peak_n(name, "piece", "pendant/pendant_rope", "expected")
    assert 0.94 < pendant / (2.0 * winch) <= 1.0
    assert peak_n(name, "load", "log_trailer", "expected") == pytest.approx(12_000 * G, rel=0.002)


@pytest.mark.parametrize("name", PLANS)
def test_a_fairlead_that_does_not_say_how_it_looks_looks_along_the_first_leg(name: str) -> None:
    lines = text(name)
    for bearing in (", bearing: 180 deg", ", bearing: 90 deg", ", bearing: 210 deg"):
        head, _, rest = lines.partition("fairlead:")
        lines = head + "fairlead:" + rest.replace(bearing, "", 1) if rest else lines
    found = solve_text(lines).stages[0]
    fairlead = found.component("fairlead", "fairlead")
    if fairlead is not None:
        peak = found.peak(fairlead, "expected")
        winch = found.peak(next(c for c in found.components if c.kind == "winch"), "expected")
        assert peak is not None
        assert winch is not None
        assert peak.load_n < 0.1 * winch.load_n


def test_a_bridles_fixed_legs_share_by_their_triangle() -> None:
    """Legs of 2.0 and 2.1 m to eyes 1.2 m apart: the law of sines in the triangle of forces."""
    left_m, right_m, apart_m = 2.0, 2.1, 1.2
    aside_m = (right_m**2 - left_m**2) / (2.0 * apart_m)  # of the hub, towards the shorter leg
    sine_left, sine_right = (0.6 - aside_m) / left_m, (0.6 + aside_m) / right_m
    total = sine_right * cos(asin(sine_left)) + sine_left * cos(asin(sine_right))
    load = 12_000 * G * (0.075 + sin(radians(4)))
    assert peak_n("bridle", "bridle leg", "front_bridle to eye_left", "expected") == pytest.approx(
        load * sine_right / total, rel=0.03
    )
    assert peak_n("bridle", "bridle leg", "front_bridle to eye_right", "expected") == pytest.approx(
        load * sine_left / total, rel=0.06
    )


def test_ten_lines_tell_little() -> None:
    found = stage("ten-lines")
    assert start("ten-lines").drum is None
    assert "/bodies/van/ground/slope" in found.missing["expected"]
    assert found.missing["stall"]
    assert len(text("ten-lines").split("rig_plan: 1")[1].splitlines()) <= 10
