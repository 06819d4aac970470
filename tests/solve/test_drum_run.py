"""Rope between drum and fairlead decides the layer where one ends near by, and the layer what the winch can pull."""

from __future__ import annotations

from math import cos, hypot, pi, radians, sin

import pytest
from scipy.optimize import brentq

from riglint.plan.load import load_plan
from riglint.solve.solution import DrumFigures
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: near the end of a layer
bodies:
  cart: {{moves: {{distance: 1 m, bearing: 0 deg}}, weight: 2 t, resistance: {{steady: 20 kN}}}}
points:
  eye: {{on: cart, at: [0 m, 0 m]}}
  stand: {{on: ground, at: [43 m, 0 m]}}
winch:
  mounted: stand
  rated_pull: 40 kN
  rated_layer: 1
  stall_pull: 45 kN
  drum: {{diameter: 100 mm, width: 200 mm}}
  fairlead: {{{run}}}
lines:
  haul: {{pieces: [{{rope: {{rope: hmpe, diameter: 10 mm, length: 50 m}}}}], path: [winch, eye]}}
"""


def at_start(run: str) -> DrumFigures:
    found = solve(load_plan(PLAN.format(run=run), "run.yaml").rig).stages[0].stations[0].drum
    assert found is not None
    return found


@pytest.mark.parametrize(("run", "layer"), [("from_drum: 50 mm", 2), ("from_drum: 300 mm", 1), ("kind: hawse", 1)])
def test_what_is_not_stated_may_leave_the_drum_a_layer_lower(run: str, layer: int) -> None:
    """20 wraps of pi x 110 mm are 6.91 m; of 7 m, 50 mm on the way to the fairlead leave 6.95 m, 300 mm leave 6.7 m.

    On the second layer 45 kN x 110 / 130 is what there is, on the first all of it: what isn't stated may be either.
    """
    assert at_start(run).stall_n == pytest.approx(45_000 * 110 / (110 if layer == 1 else 130))


def test_a_range_is_judged_at_its_worse_end_for_wraps_and_for_pull() -> None:
    figures = at_start("from_drum: 50 mm to 300 mm")
    assert figures.layer == (1, 2)
    assert figures.rope_m == pytest.approx((6.7, 6.95))
    assert figures.stall_n == pytest.approx(45_000)
    assert figures.pull_n == pytest.approx(40_000 * 110 / 130)


CLOSING = """
rig_plan: 1
title: two legs that close while the bottom layer fills
bodies:
  cart: {moves: {distance: 4 m, bearing: -40 deg}, weight: 2 t, resistance: {steady: 20 kN}}
points:
  eye: {on: cart, at: [10 m, 15 m]}
  post: {on: ground, at: [30 m, 0 m]}
  stand: {on: ground, at: [0 m, 0 m]}
winch:
  mounted: stand
  rated_pull: 40 kN
  rated_layer: 1
  stall_pull: 45 kN
  drum: {diameter: 100 mm, width: 200 mm}
lines:
  haul: {pieces: [{rope: {rope: hmpe, diameter: 10 mm, length: 61 m}}], path: [winch, block.sheave, eye]}
redirects:
  block: {kind: block, loss: 0 %, hung_from: [post], sheave: {}}
"""


def leg(travel_m: float) -> tuple[float, float]:
    """From the block to the cart's eye."""
    return 10 + travel_m * cos(radians(40)) - 30, 15 - travel_m * sin(radians(40))


def test_it_carries_most_where_the_bottom_layer_may_still_be_in_use() -> None:
    # Half a metre may lie before the fairlead, so the bottom layer, 6.91 m in a helix, may be in use until 7.41 m have
    # come in.
    most_m = brentq(lambda s: 30 + hypot(*leg(s)) - (61 - 0.5 - 20 * hypot(pi * 0.110, 0.010)), 0, 4)
    x, y = leg(most_m)
    block = 45_000 * hypot(x / hypot(x, y) - 1, y / hypot(x, y))
    [stage] = solve(load_plan(CLOSING, "closing.yaml").rig).stages
    peak = stage.peaks["stall"]["redirect", "block"]
    assert peak.load_n == pytest.approx(block, rel=1e-5)
    station = stage.stations[peak.station]
    assert (station.title, station.travel_m) == ("layer 1 may be full", pytest.approx(most_m, abs=1e-5))


def test_where_a_layer_is_full_it_stalls_as_on_that_one_and_pulls_as_on_the_next() -> None:
    [stage] = solve(load_plan(CLOSING, "closing.yaml").rig).stages
    [full] = [s.drum for s in stage.stations if s.title == "layer 1 is full"]
    assert full is not None
    assert (full.pull_n, full.stall_n) == pytest.approx((40_000 * 110 / 130, 45_000))
