"""Redirects that pass each other are nearest between events, and swing: closed figures by geometry.

A block at the load sends the line round a block at a post and back to the load. Both legs pull that one toward the
load, so its strap lies along the line from the post, and what is left between the two is the distance less the strap.
"""

from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve


def solved(
    along_m: float,
    aside_m: float,
    strap_m: float,
    mount: str = "60 m, 0 m",
    path: str = "winch, one.sheave, other.sheave, eye",
) -> StageSolution:
    plan = f"""
rig_plan: 1
title: Two blocks that pass each other
bodies:
  load: {{moves: {{distance: 8 m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 5 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [0 m, 0 m]}}
  post: {{on: ground, at: [{along_m} m, {aside_m} m]}}
  mount: {{on: ground, at: [{mount}], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 30 kN, rated_layer: 1, stall_pull: 30 kN}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [{path}]}}
redirects:
  one: {{kind: block, loss: 5 %, hung_from: [eye], sheave: {{}}}}
  other: {{kind: block, loss: 5 %, hung_from: [strap, post], sheave: {{}}}}
connectors:
  strap: {{kind: strap, length: {strap_m} m}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    assert stage.refused is None
    return stage


def nearest_m(stage: StageSolution) -> float:
    return min(leg.length_m for s in stage.stations for leg in s.legs if (leg.begins, leg.ends) == ("eye", "other"))


def test_abeam_of_each_other_they_are_nearest() -> None:
    stage = solved(4.0, 1.0, 0.55)
    assert nearest_m(stage) == pytest.approx(0.45, abs=1e-6)
    assert any(s.travel_m == pytest.approx(4.0, abs=1e-3) for s in stage.stations)


def test_a_load_that_goes_by_the_winch_is_nearest_abeam_of_it() -> None:
    stage = solved(90.0, 0.0, 0.5, "4 m, 3 m", "winch, one.sheave, post")
    assert [(s.travel_m, s.title) for s in stage.stations] == [
        (0.0, "start"), (4.0, "winch and one are nearest"), (8.0, "end")]  # fmt: skip
    assert min(s.legs[0].length_m for s in stage.stations) == pytest.approx(3.0, abs=1e-9)


@settings(max_examples=50, deadline=None)
@given(st.integers(5, 120), st.integers(5, 50), st.integers(1, 30))
def test_they_are_never_nearer_than_at_a_station(along_dm: int, beyond_dm: int, strap_dm: int) -> None:
    along_m, strap_m = along_dm / 10, strap_dm / 10
    aside_m = strap_m + beyond_dm / 10
    apart = [hypot(along_m - 8.0 * i / 800, aside_m) - strap_m for i in range(801)]
    assert nearest_m(solved(along_m, aside_m, strap_m)) <= min(apart) + 1e-3
