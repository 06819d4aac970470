"""What tips a winch vehicle, by moments of plain vectors at many places of the travel: a straight pull that swings."""

from math import dist, inf, radians, sin, sqrt

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.rig.model import Body
from riglint.solve.overturns import tips_most
from riglint.solve.solve import solve

STALL_N, WEIGHT_N, TRAVEL_M = 40e3, 60e3, 6.0
HALF_TRACK_M, HALF_BASE_M = 0.9, 1.3

Vec = tuple[float, float, float]


def dot(a: Vec, b: Vec) -> float:
    return sum(p * q for p, q in zip(a, b, strict=True))


def use(mount: Vec, middle: Vec, eye_m: float, gravity_m: float, slope_deg: int, side_deg: int) -> float:
    plan = f"""
rig_plan: 1
title: A pull that swings
bodies:
  load: {{moves: {{distance: {TRAVEL_M} m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 5 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
  truck:
    weight: {WEIGHT_N} N
    ground: {{slope: {slope_deg} deg up, side_slope: {side_deg} deg}}
    outline: {{length: 5 m, width: 2.5 m, heading: 180 deg, middle: [{middle[0]} m, {middle[1]} m, 0 m]}}
    centre_of_gravity: {{height: {gravity_m} m}}
    track: {2 * HALF_TRACK_M} m
    wheelbase: {2 * HALF_BASE_M} m
points:
  eye: {{on: load, at: [0 m, 0 m, {eye_m} m]}}
  mount: {{on: truck, at: [{mount[0]} m, {mount[1]} m, {mount[2]} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: {STALL_N} N, rated_layer: 1, stall_pull: {STALL_N} N}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, eye]}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    [truck] = [c for c in stage.components if c.name == "truck"]
    assert isinstance(truck.item, Body)
    found = tips_most(stage, truck, truck.item, "stall", None)
    assert found is not None
    return found.use


def by_vectors(mount: Vec, middle: Vec, eye_m: float, gravity_m: float, slope_deg: int, side_deg: int) -> float:
    """The greatest of moment over moment, over all four edges, at 400 places."""
    slope, side = radians(slope_deg), radians(side_deg)
    presses = WEIGHT_N * sqrt(1.0 - sin(slope) ** 2 - sin(side) ** 2)
    edges = [
        (way, half, WEIGHT_N * sin(down))
        for axis, half, down in (((1.0, 0.0, 0.0), HALF_BASE_M, slope), ((0.0, 1.0, 0.0), HALF_TRACK_M, side))
        for way in (axis, tuple(-x for x in axis))
    ]
    arm = tuple(a - b for a, b in zip(mount, middle, strict=True))
    worst = 0.0
    for i in range(401):
        eye = (TRAVEL_M * i / 400, 0.0, eye_m)
        force = tuple(STALL_N * (b - a) / dist(mount, eye) for a, b in zip(mount, eye, strict=True))
        for way, half, drags in edges:
            turns = dot(force, way) * arm[2] + force[2] * (half - dot(arm, way))
            holds = presses * half - drags * gravity_m
            worst = max(worst, max(0.0, turns) / holds if holds > 0.0 else inf)
    return worst


def test_a_line_that_presses_down_on_a_nose_past_the_axle_tips_it_forward() -> None:
    """By hand: 3-4-5 down over 1.7 m of nose, 0.4 m past the axle: 24 kN * 0.4 m + 32 kN * 0.5 m over 60 kN * 1.3 m.

    The load comes on: at the end of 6 m the line falls by 3 in 4, from the nose at 10 m.
    """
    mount, middle = (10.0, 0.0, 0.5), (11.7, 0.0, 0.0)
    assert use(mount, middle, -2.5, 0.8, 0, 0) == pytest.approx((24 * 0.4 + 32 * 0.5) / (60 * 1.3), rel=1e-9)


@given(
    ahead=st.floats(-1.8, 1.8), left=st.floats(-1.2, 1.2), up=st.floats(0.2, 2), away=st.floats(6.5, 12),
    aside=st.floats(-8, 8), eye=st.floats(-3, 3), gravity=st.floats(0.4, 1.5), slope=st.integers(1, 20),
    side=st.integers(1, 20),
)  # fmt: skip
@example(ahead=0.0, left=0.0, up=1.0, away=7.0, aside=4.0, eye=0.5, gravity=1.0, slope=15, side=10)
@settings(max_examples=60, deadline=None)
def test_it_is_never_told_to_stand_firmer_than_vectors_say(
    ahead: float, left: float, up: float, away: float, aside: float, eye: float, gravity: float, slope: int, side: int
) -> None:
    middle = (round(away + 2, 3), round(aside, 3), 0.0)
    mount = (round(middle[0] - ahead, 3), round(aside - left, 3), round(up, 3))
    args = (mount, middle, round(eye, 3), round(gravity, 3), slope, side)
    assert use(*args) >= 0.995 * by_vectors(*args) - 1e-3
