"""A drum that was hard to measure: each figure is at least as adverse as that of any drum it may be."""

from __future__ import annotations

from itertools import product

import pytest

from riglint.plan.load import load_plan
from riglint.solve.pull import brake_holds_n
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: measured through the guard
bodies:
  cart: {{moves: {{distance: 1 m, bearing: 0 deg}}, weight: 2 t, resistance: {{steady: 20 kN}}}}
points:
  eye: {{on: cart, at: [0 m, 0 m]}}
  stand: {{on: ground, at: [{way} m, 0 m]}}
winch:
  mounted: stand
  rated_pull: 40 kN
  stall_pull: 45 kN
  brake_hold: 50 kN
  {layer}
  drum: {{diameter: {barrel}, width: {width}, flange: {flange}}}
  fairlead: {{from_drum: 0 m}}
lines:
  haul: {{pieces: [{{rope: {{rope: hmpe, diameter: {rope}, length: 50 m}}}}], path: [winch, eye]}}
"""
ENDS = {"barrel": ("80 mm", "110 mm"), "width": ("180 mm", "220 mm"), "flange": ("190 mm", "210 mm"),
        "rope": ("9 mm", "11 mm")}  # fmt: skip


class Figures:
    def __init__(self, way: float, layer: str, sizes: dict[str, str]) -> None:
        stage = solve(load_plan(PLAN.format(way=way, layer=layer, **sizes), "drum.yaml").rig).stages[0]
        station, *_ = stage.stations
        found, brake_n = station.drum, brake_holds_n(stage, station)
        assert found is not None
        self.drum, self.pull_n, self.stall_n = found, found.pull_n or 0.0, found.stall_n or 0.0
        self.brake_n, self.fits = brake_n or 0.0, found.fits or 0
        self.one_m = found.on_bottom_m / found.wraps_in_bottom


@pytest.mark.parametrize("layer", ["rated_layer: 1", "rated_layer: 3", ""])
@pytest.mark.parametrize("way", [48.0, 44.0, 35.0, 20.0])
def test_no_drum_within_the_ranges_is_worse(way: float, layer: str) -> None:
    ranged = Figures(way, layer, {name: " to ".join(ends) for name, ends in ENDS.items()})
    for corner in product(*ENDS.values()):
        exact = Figures(way, layer, dict(zip(ENDS, corner, strict=True)))
        hair = 1 + 1e-9
        assert min(exact.pull_n, exact.stall_n, exact.brake_n, exact.fits) > 0.0
        assert ranged.drum.wraps.low <= exact.drum.wraps.low * hair
        assert ranged.drum.wraps_in_bottom >= exact.drum.wraps_in_bottom
        assert ranged.one_m * hair >= exact.one_m
        assert ranged.drum.layer[1] >= exact.drum.layer[1]
        assert ranged.fits <= exact.fits
        assert ranged.pull_n <= exact.pull_n * hair
        assert ranged.stall_n * hair >= exact.stall_n
        assert ranged.brake_n <= exact.brake_n * hair
