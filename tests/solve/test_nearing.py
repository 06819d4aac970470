"""Redirects that pass each other, or the winch, are nearest between events, and swing: reckoned in small steps.

A block hangs from the load, between a line from a winch beside the travel and a dead end so far ahead that its leg
lies along the travel: its strap halves the angle between the two (statics: both legs pull alike).
"""

from math import cos, dist, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve

AHEAD_M = 1e4


def solved(along_m: float, aside_m: float, strap_m: float) -> StageSolution:
    hung = "[strap, eye]" if strap_m else "[eye]"
    plan = f"""
rig_plan: 1
title: A block that passes the winch
bodies:
  load: {{moves: {{distance: 8 m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 5 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [0 m, 0 m]}}
  post: {{on: ground, at: [{AHEAD_M} m, 0 m]}}
  mount: {{on: ground, at: [{along_m} m, {aside_m} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 300 kN, rated_layer: 1, stall_pull: 300 kN}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, one.sheave, post]}}
redirects:
  one: {{kind: block, loss: 5 %, hung_from: {hung}, sheave: {{}}}}
connectors:
  strap: {{kind: strap, length: {strap_m or 1.0} m}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    assert stage.refused is None
    return stage


def nearest_m(stage: StageSolution) -> float:
    return min(s.legs[0].length_m for s in stage.stations)


def away_m(along_m: float, aside_m: float, strap_m: float) -> float:
    """From the winch to the block: its strap at an angle x, the winch's leg at 2 x. By halving."""
    low, high = 0.0, 0.5 * pi
    for _ in range(60):
        x = 0.5 * (low + high)
        block = (strap_m * cos(x), strap_m * sin(x))
        # Across the way of the winch's leg at 2 x: how far to its left the winch lies.
        left = (aside_m - block[1]) * cos(2 * x) - (along_m - block[0]) * sin(2 * x)
        low, high = (x, high) if left > 0.0 else (low, x)
    return dist(block, (along_m, aside_m))


def test_hung_straight_it_is_nearest_abeam() -> None:
    stage = solved(4.0, 3.0, 0.0)
    assert nearest_m(stage) == pytest.approx(3.0, abs=1e-9)
    assert [(s.travel_m, s.title) for s in stage.stations] == [
        (0.0, "start"), (4.0, "winch and one are nearest"), (8.0, "end")]  # fmt: skip


@settings(max_examples=50, deadline=None)
@given(st.integers(10, 70), st.integers(5, 40), st.integers(0, 20))
def test_swinging_it_is_never_nearer_than_at_a_station(along_dm: int, more_dm: int, strap_dm: int) -> None:
    along_m, strap_m = along_dm / 10, strap_dm / 10
    aside_m = strap_m + more_dm / 10
    least = min(away_m(along_m - 8.0 * i / 400, aside_m, strap_m) for i in range(401))
    assert hypot(along_m, aside_m) > least
    assert nearest_m(solved(along_m, aside_m, strap_m)) == pytest.approx(least, abs=2e-3)
