"""A redirect is loaded most where it turns its rope the most, be that between events: reckoned again in small steps."""

from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve

STALL_N = 30e3
ROCK = (0.0, 0.0)


def solved(mount: tuple[float, float], eye: tuple[float, float], distance_m: float) -> StageSolution:
    """A line from a winch over a block that hangs straight from a rock, without any loss, to a load that goes by."""
    plan = f"""
rig_plan: 1
title: The angle at the block is sharpest on the way
bodies:
  load: {{moves: {{distance: {distance_m} m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 5 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [{eye[0]} m, {eye[1]} m]}}
  rock: {{on: ground, at: [0 m, 0 m], kind: rock}}
  mount: {{on: ground, at: [{mount[0]} m, {mount[1]} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 30 kN, rated_layer: 1, stall_pull: 30 kN}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, b.sheave, eye]}}
redirects:
  b: {{kind: block, loss: 0 %, hung_from: [rock], sheave: {{}}}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    return stage


def load_at_stall(stage: StageSolution) -> float:
    rock = stage.component("point", "rock")
    assert rock is not None
    peak = stage.peak(rock, "stall")
    assert peak is not None
    return peak.load_n


def test_two_parts_that_come_to_lie_side_by_side_pull_with_twice_the_line_pull() -> None:
    stage = solved((-15.0, 15.0), (-20.0, 3.0), 19.0)
    assert load_at_stall(stage) == pytest.approx(2.0 * STALL_N, rel=1e-9)
    assert [(round(s.travel_m, 6), s.title) for s in stage.stations] == [
        (0.0, "start"), (17.0, "b turns the rope the most"), (19.0, "end")]  # fmt: skip


def test_a_turn_that_only_opens_or_only_closes_gets_no_further_station() -> None:
    assert [s.title for s in solved((-15.0, 15.0), (-20.0, 3.0), 16.0).stations] == ["start", "end"]
    assert [s.title for s in solved((15.0, 15.0), (-40.0, 3.0), 19.0).stations] == ["start", "end"]


@given(st.integers(-300, 300), st.integers(30, 300), st.integers(-400, -20), st.integers(5, 200), st.integers(10, 390))
def test_no_place_of_the_travel_loads_it_more(x: int, y: int, start: int, aside: int, tenths: int) -> None:
    mount, eye, distance_m = (x / 10, y / 10), (start / 10, aside / 10), tenths / 10
    stage = solved(mount, eye, distance_m)
    if stage.refused:
        return
    found = []
    for step in range(1001):
        there = (eye[0] + distance_m * step / 1000, eye[1])
        away = dist(mount, ROCK), dist(there, ROCK)
        found.append(dist([mount[i] / away[0] for i in (0, 1)], [-there[i] / away[1] for i in (0, 1)]))
    assert load_at_stall(stage) >= STALL_N * max(found) * (1.0 - 1.1e-3)
