"""What a redirect bears just before the winch comes to a layer on which it pulls less, worked out by hand.

A block at a post turns the rope from a winch straight ahead to a load that comes nearer from behind: it turns it
more and more, so that it bears the most where the first layer is full, by the shortest that the line may be.
"""

from math import acos, cos, hypot, pi, sqrt

import pytest

from riglint.plan.load import load_plan
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve

STALL_N = 20e3
POST = (9.0, 4.0)
FIRST_LAYER_M = 20 * hypot(pi * 0.056, 0.016)  # 20 wraps of 16 mm on a 40 mm barrel, a helix each


def hauled(length: str, from_drum: str) -> StageSolution:
    plan = f"""
rig_plan: 1
title: Round a post
bodies:
  load: {{moves: {{distance: 4.5 m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 1 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [0 m, 0 m]}}
  post: {{on: ground, at: [{POST[0]} m, {POST[1]} m]}}
  mount: {{on: ground, at: [30 m, 4 m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 20 kN, rated_layer: 1, stall_pull: 20 kN,
        drum: {{diameter: 40 mm, width: 320 mm}}, fairlead: {{{from_drum}}}}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe, diameter: 16 mm, length: {length}}}], path: [winch, b.sheave, eye]}}
redirects:
  b: {{kind: block, loss: 0 %, hung_from: [post], sheave: {{}}}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    return stage


@pytest.mark.parametrize(
    ("length", "from_drum", "least_on_drum_m"),
    [
        ("31.35 m to 32.35 m", "from_drum: 0 m", 31.35),
        ("31.35 m", "from_drum: 0 m to 0.3 m", 31.05),
        ("31.35 m", "kind: hawse", 30.85),  # up to half a metre may lie between drum and fairlead (common practice)
    ],
)
def test_a_block_bears_most_just_before_the_pull_falls(length: str, from_drum: str, least_on_drum_m: float) -> None:
    leg_m = least_on_drum_m - 21.0 - FIRST_LAYER_M  # from the post to the load, where the first layer is full
    behind_m = sqrt(leg_m**2 - POST[1] ** 2)
    included_rad = acos(-behind_m / leg_m)
    stage = hauled(length, from_drum)
    block = stage.component("redirect", "b")
    assert block is not None
    peak = stage.peak(block, "stall")
    assert peak is not None
    assert peak.load_n == pytest.approx(2 * STALL_N * cos(included_rad / 2), rel=1e-5)
    assert stage.stations[peak.station].travel_m == pytest.approx(POST[0] - behind_m, abs=1e-5)
