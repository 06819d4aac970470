"""What doesn't roll is dragged: locked wheels, and what has neither wheels nor tracks."""

from __future__ import annotations

import pytest

from riglint.plan.load import load_plan
from riglint.solve.solution import ResistanceFigures
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: dragged
bodies:
  lorry: {{moves: {{distance: 4 m, bearing: 0 deg}}, weight: 5 t, ground: {{{ground}, slope: 15 deg up}}, {gear}}}
points:
  eye: {{on: lorry, at: [0 m, 0 m]}}
  stand: {{on: ground, at: [30 m, 0 m]}}
winch: {{mounted: stand, rated_pull: 80 kN, rated_layer: 1, stall_pull: 90 kN}}
lines:
  haul: {{pieces: [{{rope: {{rope: wire, diameter: 10 mm, length: 50 m}}}}], path: [winch, eye]}}
"""
WEIGHT_N = 5000 * 9.80665
UP = 0.258819  # sin 15 deg
GRIP = "surface: hard road, mired: none, grip: 0.6 to 0.7"


def of(gear: str, ground: str = GRIP) -> ResistanceFigures:
    return solve(load_plan(PLAN.format(gear=gear, ground=ground), "p.yaml").rig).stages[0].stations[0].resistance


@pytest.mark.parametrize(
    ("gear", "share"),
    [
        ("wheels_locked: 0 %", 0.02),  # a hard road: 2 % of the weight, as in `mechanics.resistance`
        ("wheels_locked: 100 %", 0.7),
        ("wheels_locked: 40 %", 0.6 * 0.02 + 0.4 * 0.7),
        ("wheels_locked: 20 % to 40 %", 0.8 * 0.02 + 0.4 * 0.7),  # each share at its most
        ("running_gear: none", 0.7),
        ("running_gear: none, wheels_locked: 0 %", 0.7),
    ],
)
def test_friction_drags_what_does_not_roll(gear: str, share: float) -> None:
    """Coulomb's law, with the weight's share of the slope on top."""
    found = of(gear)
    assert found.hauling is not None
    assert found.hauling.high == pytest.approx((share + UP) * WEIGHT_N, rel=1e-5)
    assert ("dragging" in found.used) == (share > 0.02)


@pytest.mark.parametrize("gear", ["wheels_locked: 30 %", "wheels_locked: 100 %", "running_gear: none"])
def test_without_a_grip_it_can_not_be_told_how_what_is_dragged_resists(gear: str) -> None:
    found = of(gear, "surface: hard road, mired: none")
    assert found.hauling is None
    assert found.missing == ("/bodies/lorry/ground/grip",)


def test_in_the_mire_doctrine_counts_whether_or_not_wheels_are_locked() -> None:
    mired = "surface: deep mud, mired: wheel depth"
    assert of("wheels_locked: 100 %", mired).hauling == of("wheels_locked: 0 %", mired).hauling
