"""The figures that are reckoned by hand for the outline plan: three parts, one extension."""

from math import hypot, pi

import pytest

from riglint.solve.solution import Event

from .plans import end, peak_n, stage, start

PLAN = "fruit-truck"
JOIN_FROM_DEAD_END_M = 24.0


def events(kind: str) -> list[Event]:
    return [event for event in stage(PLAN).events if event.kind == kind]


def path_to_ring_a_m(at_end: bool = False) -> float:
    station = end(PLAN) if at_end else start(PLAN)
    [turn] = [turn for turn in station.turns if turn.turn.redirect == "ring_a"]
    return turn.path_beyond_m


def test_three_parts() -> None:
    assert stage(PLAN).parts == 3
    assert start(PLAN).ratio_ideal == pytest.approx(3.0, abs=0.01)


def test_the_join_lies_24_m_from_the_dead_end() -> None:
    [join] = stage(PLAN).line("haul").joins
    assert join.from_dead_end == (JOIN_FROM_DEAD_END_M, JOIN_FROM_DEAD_END_M)


def test_the_path_from_the_dead_end_to_ring_a_is_31_8_m_and_shortens_by_2_m_a_metre() -> None:
    assert path_to_ring_a_m() == pytest.approx(31.8, abs=0.05)
    assert (path_to_ring_a_m() - path_to_ring_a_m(at_end=True)) / 6.0 == pytest.approx(2.0, abs=0.01)


def test_that_path_agrees_with_tape_and_pencil() -> None:
    """Out to the block and back: ash and truck points, less the block's shackle and strap and ring_a's shackle."""
    block_x, block_y = 17.6 - 0.08 - 1.5, -0.5
    ring_x = 0.25
    by_hand = hypot(block_x - ring_x, block_y - 0.4) + hypot(block_x, block_y + 0.4)
    assert path_to_ring_a_m() == pytest.approx(by_hand, abs=0.1)


def test_the_join_meets_ring_a_near_3_9_m() -> None:
    [meeting] = events("join at seat")
    assert meeting.redirects == ("ring_a",)
    assert meeting.travel_m == pytest.approx(3.9, abs=0.05)
    assert meeting.travel_m == pytest.approx((path_to_ring_a_m() - JOIN_FROM_DEAD_END_M) / 2.0, abs=0.05)


def test_the_fairlead_at_6_4_m_lies_past_the_end() -> None:
    assert not events("join at fairlead")
    by_hand = (start(PLAN).path_m - JOIN_FROM_DEAD_END_M) / 3.0
    assert by_hand == pytest.approx(6.4, abs=0.05)
    assert by_hand > end(PLAN).travel_m


def test_the_stop_comes_before_the_join() -> None:
    [stop], [meeting] = events("planned stop"), events("join at seat")
    assert stop.travel_m == pytest.approx(3.5)
    assert stop.travel_m < meeting.travel_m
    assert stop.stop is not None
    assert stop.stop.names == {"join_1", "ring_a"}


def test_8_7_m_stay_on_the_drum_and_the_bottom_layer_takes_4_8_m() -> None:
    drum = start(PLAN).drum
    assert drum is not None
    assert drum.rope_m.low == pytest.approx(8.7, abs=0.05)
    assert drum.on_bottom_m == pytest.approx(4.8, abs=0.05)
    assert drum.on_bottom_m == pytest.approx(20 * pi * (0.065 + 0.011), abs=0.02)


def test_the_resistance_is_the_weight_and_the_slopes_share_of_it() -> None:
    hauling = start(PLAN).resistance.hauling
    assert hauling is not None
    assert hauling.low == pytest.approx(5800 * 9.80665 * (1.0 + 0.06976), rel=1e-4)
    assert hauling.high == pytest.approx(6400 * 9.80665 * (1.0 + 0.06976), rel=1e-4)


def test_at_stall_the_ash_holds_two_parts() -> None:
    at_start = start(PLAN).drum
    assert at_start is not None
    assert at_start.stall_n is not None
    assert peak_n(PLAN, "point", "ash") == pytest.approx(2.0 * at_start.stall_n, rel=0.01)
    assert peak_n(PLAN, "connector", "bow_b") > 47_000.0
    assert peak_n(PLAN, "point", "truck_left") > 78_000.0
