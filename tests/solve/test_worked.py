"""Whole rigs against printed results and plain statics."""

from __future__ import annotations

from math import inf

import pytest

from riglint.plan.load import load_plan
from riglint.solve.solution import Solution
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: worked
bodies:
  cart:
    moves: {{distance: 4 m, bearing: 0 deg}}
    weight: 2 t
    ground: {{surface: hard road, mired: none, slope: 0 deg}}
    resistance: {{steady: {resistance}, found_by: given}}
points:
  left: {{on: cart, at: [0 m, 0 m]}}
  right: {{on: cart, at: [0 m, 0 m]}}
  near: {{on: ground, at: [1000 m, 0 m]}}
  far: {{on: ground, at: [1000 m, 0 m]}}
  stand: {{on: ground, at: [1000 m, 0 m]}}
winch: {{mounted: stand, rated_pull: 900 kN, rated_layer: 1, stall_pull: 900 kN}}
lines:
  haul:
    pieces: [{{rope: {{rope: wire, diameter: 10 mm, length: 9000 m}}}}]
    path: [{path}]
redirects:
  a: {{kind: block, loss: {loss}, hung_from: [left], sheave: {{tread: 200 mm}}}}
  b: {{kind: block, loss: {loss}, hung_from: [near], sheave: {{tread: 200 mm}}}}
  c: {{kind: block, loss: {loss}, hung_from: [right], sheave: {{tread: 200 mm}}}}
"""


def worked(path: str, loss: str = "0 %", resistance: str = "1000 lbf") -> Solution:
    text = PLAN.format(path=path, loss=loss, resistance=resistance)
    return solve(load_plan(text, "worked.yaml").rig)


LBF = 4.4482216152605


def test_mechanical_advantage_of_a_gun_tackle_and_a_luff() -> None:
    """Gun tackle: 200 lb moved by 100 lb; single luff: 600 lb by 200 lb (NAVEDTRA Builder 3 & 2, ch. 4)."""
    gun = worked("winch, a.sheave, far", resistance="200 lbf").stages[0]
    luff = worked("winch, a.sheave, b.sheave, right", resistance="600 lbf").stages[0]
    assert gun.parts == 2
    assert gun.stations[0].line_pull_n == pytest.approx(100 * LBF, rel=1e-3)
    assert luff.parts == 3
    assert luff.stations[0].line_pull_n == pytest.approx(200 * LBF, rel=1e-3)


def test_doctrine_adds_ten_percent_of_the_load_for_each_sheave() -> None:
    """1,000 lb, 4 parts, 4 sheaves: 350 lb (NAVEDTRA Steelworker). Here 4 parts take 3 sheaves: 325 lb, by the rule."""
    four = worked("winch, a.sheave, b.sheave, c.sheave, far", "10 %").stages[0].stations[0]
    assert four.line_pull_doctrine_n == pytest.approx(325 * LBF, rel=1e-3)
    assert four.line_pull_n is not None
    assert four.line_pull_doctrine_n > four.line_pull_n


def test_compounding_loss_follows_the_riggers_table() -> None:
    """Load over line pull for 1 to 4 parts, antifriction (K 1.02): .98 1.94 2.88 3.81 (rigger's handbooks).

    The table has the lead line come over one more sheave, which here is the ratio's own 1/1.02.
    """
    loss = f"{100 * (1 - 1 / 1.02):.6f} %"
    paths = {2: "winch, a.sheave, far", 3: "winch, a.sheave, b.sheave, right",
             4: "winch, a.sheave, b.sheave, c.sheave, far"}  # fmt: skip
    printed = {2: 1.94, 3: 2.88, 4: 3.81}
    for parts, path in paths.items():
        assert worked(path, loss).stages[0].stations[0].ratio_least / 1.02 == pytest.approx(printed[parts], abs=0.011)


def test_with_parallel_parts_a_block_and_its_anchor_carry_twice_the_line() -> None:
    """Redirect factor 2.00 at 0 degrees included angle (dealers' tables; 2 cos(theta/2))."""
    stage = worked("winch, a.sheave, far").stages[0]
    line = stage.stations[0].line_pull_n
    point = stage.component("point", "left")
    assert line is not None
    assert point is not None
    assert stage.peak(point, "expected").load_n == pytest.approx(2 * line, rel=1e-6)  # type: ignore[union-attr]


def test_line_needed_grows_with_the_parts() -> None:
    """A pull over a distance X with N parts takes about N X of line (common practice, no source)."""
    stage = worked("winch, a.sheave, b.sheave, right").stages[0]
    taken = stage.stations[0].path_m - stage.stations[-1].path_m
    assert taken == pytest.approx(3 * 4.0, rel=1e-3)


def test_at_a_given_resistance_a_leg_carries_most_with_full_loss_beyond_it() -> None:
    """Leg k at its worst: no loss between it and the winch, full loss beyond: R / (1 + q + q^2), by hand."""
    stage = worked("winch, a.sheave, b.sheave, right", "10 %", "30 kN").stages[0]
    start = stage.stations[0]
    assert start.legs[0].tension["expected"] == pytest.approx(30e3 / (1 + 0.9 + 0.81), rel=1e-3)
    assert start.legs[1].tension["expected"] == pytest.approx(30e3 / (1 + 1 + 0.9), rel=1e-3)
    assert start.legs[2].tension["expected"] == pytest.approx(30e3 / 3, rel=1e-3)
    assert start.legs[2].tension["stall"] == pytest.approx(900e3, rel=1e-3)


SQUARE = """
rig_plan: 1
title: a load on a slope, pulled square to its way
bodies:
  van: {moves: {distance: 1 m, bearing: 90 deg}, weight: 2 t, resistance: {steady: 10 kN}, ground: {slope: 4 deg up}}
points:
  eye: {on: van, at: [0 m, 0 m]}
  mount: {on: ground, at: [20 m, 0 m]}
winch:
  {mounted: mount, rated_pull: 20 kN, rated_layer: 1, stall_pull: 25 kN, fairlead: {ahead: 0.3 m, bearing: 180 deg}}
lines: {haul: {pieces: [main: {rope: hmpe, length: 30 m}], path: [winch, eye]}}
"""


def test_a_pull_that_can_never_hold_the_load_bends_no_straight_fairlead() -> None:
    """No line pull holds a load back across the line: the hold has no end, and a turn of nothing bears none of it."""
    stage = solve(load_plan(SQUARE, "square.yaml").rig).stages[0]
    first = stage.stations[0]
    [fairlead] = [component for component in stage.components if component.kind == "fairlead"]
    assert first.legs[0].tension["holding"] == inf
    assert first.load(fairlead, "holding") == 0.0


@pytest.mark.parametrize(
    ("stuck", "used", "times"),
    [
        ("ground: {mired: wheel depth, slope: 0 deg}", "doctrine for the mire", 1.0),
        ("ground: {mired: none, slope: 0 deg}, overturned: true", "doctrine for an overturned load", 0.5),
        ("ground: {mired: wheel depth, slope: 0 deg}, overturned: true",
         "doctrine for the mire and for an overturned load", 1.5),
    ],
)  # fmt: skip
def test_what_the_resistance_rests_on_is_what_holds_the_load(stuck: str, used: str, times: float) -> None:
    """Multiples of the weight by FM 9-43-2, ch. 2, from memory, as in `mechanics.resistance`."""
    text = SQUARE.replace("resistance: {steady: 10 kN}, ground: {slope: 4 deg up}", stuck)
    resistance = solve(load_plan(text, "stuck.yaml").rig).stages[0].stations[0].resistance
    assert resistance.used == f"{used}, plus the slope's share of the weight"
    assert resistance.hauling is not None
    assert resistance.hauling.high == pytest.approx(times * 2000 * 9.80665)


@pytest.mark.parametrize(
    ("ground", "lacks"),
    [
        ("ground: {surface: deep mud, slope: 0 deg}", True),
        ("ground: {surface: gravel, penetration: 50 mm, slope: 0 deg}", True),
        ("ground: {surface: deep mud, slope: 0 deg}, overturned: true", True),
        ("ground: {surface: deep mud, mired: none, slope: 0 deg}", False),
        ("ground: {surface: hard road, slope: 0 deg}", False),
    ],
)
def test_a_load_on_soft_ground_is_not_taken_to_be_free(ground: str, lacks: bool) -> None:
    """Mired to the wheels it takes its weight, five times what it rolls with in deep mud: so the depth is asked for."""
    text = SQUARE.replace("resistance: {steady: 10 kN}, ground: {slope: 4 deg up}", ground)
    resistance = solve(load_plan(text, "soft.yaml").rig).stages[0].stations[0].resistance
    assert resistance.hauling is not None
    assert [fact.endswith("/ground/mired") for fact in resistance.missing] == [True] * lacks


def test_a_further_line_that_hangs_slack_is_no_part() -> None:
    """A rope of 60 m from the load to a post 25 m off hangs slack: the winch's line alone pulls."""
    tail = "path: [winch, eye]}, tail: {pieces: [rope: {rope: hmpe, length: 60 m}], path: [post, eye]}}"
    text = SQUARE.replace("path: [winch, eye]}}", tail)
    text = text.replace("points:", "points:\n  post: {on: ground, at: [-25 m, 0 m]}")
    stage = solve(load_plan(text, "slack.yaml").rig).stages[0]
    assert (stage.parts, len(stage.stations[0].legs)) == (1, 2)
