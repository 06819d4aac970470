"""Where along the travel a join whose place is a range meets the fairlead, by Pythagoras.

The load goes along x past a winch that stands `aside` from its way, abeam of it after 5 m. The path is
sqrt((5 - s)^2 + aside^2): it falls to `aside` and rises again, so that the join may meet the fairlead twice.
"""

from math import sqrt

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solve import solve

ABEAM_M = 5.0


def spreads(aside_m: float, travel_m: float, low_m: float, high_m: float) -> list[tuple[float, float]]:
    outer = f"{low_m!r} m" if low_m == high_m else f"{low_m!r} m to {high_m!r} m"
    plan = f"""
rig_plan: 1
title: The load goes by its winch
bodies:
  load: {{moves: {{distance: {travel_m!r} m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 5 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [0 m, 0 m]}}
  mount: {{on: ground, at: [{ABEAM_M} m, {aside_m!r} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 30 kN, rated_layer: 1, stall_pull: 30 kN}}
lines:
  haul:
    pieces: [inner: {{rope: hmpe, length: 30 m}}, link: {{kind: shackle}}, outer: {{rope: hmpe, length: {outer}}}]
    path: [winch, eye]
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    assert stage.refused is None
    return [tuple(e.spread) for e in stage.events if e.kind == "join at fairlead"]


def by_pythagoras(aside_m: float, travel_m: float, low_m: float, high_m: float) -> list[tuple[float, float]]:
    if high_m < aside_m:
        return []
    reach = sqrt(high_m**2 - aside_m**2)
    parts = [(ABEAM_M - reach, ABEAM_M + reach)]
    if low_m > aside_m:
        hole = sqrt(low_m**2 - aside_m**2)
        parts = [(ABEAM_M - reach, ABEAM_M - hole), (ABEAM_M + hole, ABEAM_M + reach)]
    return [(max(0.0, a), min(travel_m, b)) for a, b in parts if b >= 0.0 and a <= travel_m]


def test_a_second_meeting_that_the_travel_cuts_short() -> None:
    """By hand: 5 - sqrt(5.5^2 - 3^2) = 0.390, 5 -+ sqrt(4^2 - 3^2) = 2.354 and 7.646; 9.610 is past the end."""
    found = spreads(3.0, 9.0, 4.0, 5.5)
    assert [round(x, 3) for span in found for x in span] == [0.39, 2.354, 7.646, 9.0]


@given(aside=st.floats(0.5, 4), travel=st.floats(1, 10), low=st.floats(0.3, 7), more=st.sampled_from([0.0, 0.4, 2.0]))
@example(aside=3.0, travel=9.0, low=4.0, more=1.5)
@settings(max_examples=150, deadline=None)
def test_a_join_meets_the_fairlead_where_pythagoras_says(aside: float, travel: float, low: float, more: float) -> None:
    aside, travel, low = round(aside, 3), round(travel, 3), round(low, 3)
    high = round(low + more, 3)
    expected = by_pythagoras(aside, travel, low, high)
    if any(0.0 < b - a < 1e-3 for a, b in expected) or min(abs(low - aside), abs(high - aside)) < 1e-3:
        return  # rounding decides whether it just touches
    assert spreads(aside, travel, low, high) == [pytest.approx(span, abs=1e-5) for span in expected]
