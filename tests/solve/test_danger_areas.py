"""Danger areas of plans: what shapes there are, how far they reach, and that nothing swept over is left out."""

from __future__ import annotations

from itertools import pairwise
from math import radians

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.danger_areas import areas_at, body_of, danger_areas
from riglint.solve.exposure import Zone, on_foot
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve

ZONE = Zone(1.8288, radians(15.0), 2.0)
PLAN = """
rig_plan: 1
title: two parts round a block
bodies:
  truck: {moves: {distance: 9 m, bearing: DIRECTION}, weight: 6 t, resistance: {steady: 20 kN}, ground: {slope: 0 deg}}
  tender: {weight: 10 t}
points:
  eye: {on: truck, at: [0 m, 0 m]}
  mount: {on: tender, at: [20 m, 0 m]}
  anchor: {on: ground, at: [20 m, 16 m]}
winch: {mounted: mount, rated_pull: 30 kN}
lines:
  haul: {pieces: [rope: {rope: hmpe}], path: [winch, block.sheave, anchor]}
redirects:
  block: {kind: block, loss: 0 %, hung_from: [eye], sheave: {rated: 50 kN}}
dampers:
  - {line: haul, between: [block, winch]}
"""


def stage(direction: str = "0 deg") -> StageSolution:
    return solve(load_plan(PLAN.replace("DIRECTION", direction), "plan").rig).stages[0]


def test_a_corridor_for_each_leg_a_bight_for_each_turn_a_flight_for_each_thing_that_can_go() -> None:
    own = stage()
    areas = areas_at(own, own.stations[0])
    assert [(c.begins, c.ends) for c in areas.corridors] == [("winch", "block"), ("block", "anchor")]
    assert [b.redirect for b in areas.bights] == ["block"]
    assert sorted(f.thing for f in areas.flights) == ["anchor", "block", "winch"]
    assert [c.reach_m for c in areas.corridors] == pytest.approx([20.0, 656.0**0.5])


def test_a_redirect_flies_between_its_legs_and_the_reach_is_the_longest_span() -> None:
    areas = areas_at(stage(), stage().stations[0])
    [flight] = [f for f in areas.flights if f.thing == "block"]
    assert flight.way[0] > flight.way[1] > 0.0
    assert flight.reach_m == pytest.approx(656.0**0.5)


def test_stations_and_places_between_them_leave_no_gap_wider_than_a_corridor() -> None:
    found = danger_areas(stage("90 deg"))
    for before, after in pairwise(found):
        gap = abs(after.corridors[0].end[1] - before.corridors[0].end[1])
        assert gap <= 1.8 + 1e-9
    assert [found[0].travel_m, found[-1].travel_m] == [0.0, 9.0]


@settings(max_examples=60, deadline=None)
@given(st.floats(0.0, 9.0), st.floats(0.02, 0.98))
def test_whoever_the_line_sweeps_over_is_in_danger(travel_m: float, share: float) -> None:
    place = (20.0 * (1.0 - share), travel_m * share, 0.0)  # on the first leg, when the load is there
    seen = [e for areas in danger_areas(stage("90 deg")) for e in on_foot(place, areas, ZONE)]
    assert any(e.how in ("beside", "inside") for e in seen)


def test_whose_end_is_whose() -> None:
    own = stage().stage
    names = {node: getattr(body_of(own, node), "name", None) for node in ("winch", "block", "anchor", "nothing")}
    assert names == {"winch": "tender", "block": "truck", "anchor": "ground", "nothing": None}


@pytest.mark.parametrize(
    ("place", "how"),
    [
        ((10.0, 1.0, 0.0), "beside"),
        ((30.0, 0.0, 0.0), "recoil"),
        ((-10.0, 0.5, 0.0), "recoil"),
        ((12.0, 5.0, 0.0), "inside"),
        ((22.0, 12.0, 0.0), "angle"),
        ((22.0, 8.0, 0.0), "flight"),
    ],
)
def test_how_somebody_is_in_danger(place: tuple[float, float, float], how: str) -> None:
    own = stage()
    assert how in {e.how for e in on_foot(place, areas_at(own, own.stations[0]), ZONE)}


@pytest.mark.parametrize("place", [(10.0, -30.0, 0.0), (-30.0, 20.0, 0.0), (75.0, 5.0, 0.0)])
def test_who_is_clear(place: tuple[float, float, float]) -> None:
    own = stage()
    assert not list(on_foot(place, areas_at(own, own.stations[0]), ZONE))


def test_a_damper_is_known_by_its_leg_whichever_end_is_named_first() -> None:
    own = stage()
    found = {(c.begins, c.ends): c.damped for c in areas_at(own, own.stations[0]).corridors}
    assert found == {("winch", "block"): True, ("block", "anchor"): False}
