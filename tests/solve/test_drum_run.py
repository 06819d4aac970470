"""Rope between drum and fairlead decides the layer where one ends near by, and the layer what the winch can pull."""

from __future__ import annotations

import pytest

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
