"""Ground that changes along the travel: at its border the load stands on both, and wherever the border may be."""

from __future__ import annotations

from math import hypot

import pytest

from riglint.plan.load import load_plan
from riglint.solve.solution import Solution, Station
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: zones
bodies:
  cart:
    moves: {{distance: 10 m, bearing: 0 deg}}
    weight: 5 t
    ground: {{surface: deep mud, mired: wheel depth, slope: 0 deg, zones: [{zones}]}}
points:
  eye: {{on: cart, at: [0 m, 0 m]}}
  stand: {{on: ground, at: [12 m, 6 m]}}
winch: {{mounted: stand, rated_pull: 900 kN, rated_layer: 1, stall_pull: 900 kN}}
lines:
  haul: {{pieces: [{{rope: {{rope: wire, diameter: 10 mm, length: 90 m}}}}], path: [winch, eye]}}
{stages}
"""
WEIGHT_N = 5000 * 9.80665
HARD = "surface: hard road, mired: none"


def on(zones: str, stages: str = "") -> Solution:
    return solve(load_plan(PLAN.format(zones=zones, stages=stages), "zones.yaml").rig)


def station(solution: Solution, travel_m: float, stage: int = 0) -> Station:
    return next(s for s in solution.stages[stage].stations if s.travel_m == pytest.approx(travel_m))


def resists_n(solution: Solution, travel_m: float, stage: int = 0) -> float:
    found = station(solution, travel_m, stage).resistance.hauling
    assert found is not None
    return found.high


def test_the_last_step_out_of_the_mud_is_the_worst_of_it() -> None:
    """The line comes abeam: 8 m on, its way is 4 m along and 6 m across, and the mud (1 x weight) ends only there."""
    at_border = station(on(f"{{begins_at: 8 m, {HARD}}}"), 8.0)
    assert at_border.line_pull_most_n == pytest.approx(WEIGHT_N * hypot(4, 6) / 4)


def test_where_the_border_is_not_known_both_its_ends_are_worked_out() -> None:
    """It may be mud as far as 9 m: 3 m along and 6 m across there."""
    solution = on(f"{{begins_at: 7 m to 9 m, {HARD}}}")
    assert [s.travel_m for s in solution.stages[0].stations] == pytest.approx([0, 7, 8, 9, 10])
    assert station(solution, 9.0).line_pull_most_n == pytest.approx(WEIGHT_N * hypot(3, 6) / 3)
    assert resists_n(solution, 10.0) < 0.1 * WEIGHT_N


def test_what_sets_out_at_a_border_has_the_mud_behind_it() -> None:
    stages = """
stages:
  - {name: out, moves: {distance: 8 m, bearing: 0 deg}}
  - {name: along, moves: {distance: 2 m, bearing: 0 deg}, load_held_by: chocks}
"""
    solution = on(f"{{begins_at: 8 m, {HARD}}}", stages)
    assert resists_n(solution, 8.0) == pytest.approx(WEIGHT_N)
    assert resists_n(solution, 0.0, stage=1) < 0.1 * WEIGHT_N


def test_a_zone_from_the_start_leaves_nothing_of_the_ground_before_it() -> None:
    assert resists_n(on(f"{{begins_at: 0 m, {HARD}}}"), 0.0) < 0.1 * WEIGHT_N


def test_each_case_takes_the_worse_side_of_a_border_and_lacks_what_either_lacks() -> None:
    """Mud on the level resists most, grass at 5 degrees pulls back most, and how deep it gives there isn't told."""
    at_border = station(on("{begins_at: 8 m, surface: grass, mired: none, slope: 5 deg up}"), 8.0).resistance
    assert at_border.hauling is not None
    assert at_border.holding is not None
    assert at_border.hauling.high == pytest.approx(WEIGHT_N)
    assert at_border.holding.high == pytest.approx(WEIGHT_N * 0.0871557)  # sin 5 deg
    assert at_border.missing == ("bodies/cart/ground: penetration, since no figure is published for `grass`",)
