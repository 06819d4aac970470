"""Where rope turns back over a seat friction changes sides: reckoned again in small steps, by statics alone.

A ring on the load sends the line from the winch on to a dead end beside the travel. Until the ring is abeam of the
dead end the rope comes in over it, and what lies beyond carries T_in * ratio; from there on the load draws it out
again, and it carries T_in / ratio (capstan, mechanics textbooks: the greater pull is where the rope goes to).
"""

from math import atan2, dist, hypot, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve

Place = tuple[float, float]

STALL_N = 30e3
LOSS = 0.2
WINCH = (20.0, 0.0)


def solved(post: Place, distance_m: float, strap_m: float) -> StageSolution:
    hung = "[strap, eye]" if strap_m else "[eye]"
    plan = f"""
rig_plan: 1
title: The load goes by its dead end
bodies:
  load: {{moves: {{distance: {distance_m} m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 5 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [0 m, 0 m]}}
  post: {{on: ground, at: [{post[0]} m, {post[1]} m]}}
  mount: {{on: ground, at: [{WINCH[0]} m, {WINCH[1]} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 30 kN, rated_layer: 1, stall_pull: 30 kN}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, r.bore, post]}}
redirects:
  r: {{kind: ring, loss: {LOSS:.0%}, hung_from: {hung}, bore: {{}}}}
connectors:
  strap: {{kind: strap, length: {strap_m or 1.0} m}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    assert stage.refused is None
    return stage


def load_at_stall(stage: StageSolution) -> float:
    post = stage.component("point", "post")
    assert post is not None
    peak = stage.peak(post, "stall")
    assert peak is not None
    return peak.load_n


def ring_at(eye: Place, post: Place, strap_m: float, near: Place) -> Place:
    """Where the ring hangs: its strap lies along the resultant of two legs of like tension."""
    x, y = near
    for _ in range(400):
        to = [((p[0] - x) / dist(p, (x, y)), (p[1] - y) / dist(p, (x, y))) for p in (WINCH, post)]
        pull = (to[0][0] + to[1][0], to[0][1] + to[1][1])
        size = hypot(*pull)
        last, (x, y) = (x, y), (eye[0] + strap_m * pull[0] / size, eye[1] + strap_m * pull[1] / size)
        if dist(last, (x, y)) < 1e-12:
            break
    return x, y


def stepped(post: Place, distance_m: float, strap_m: float, steps: int) -> float:
    """The most that the dead end carries at stall, over small steps of the travel."""
    ring, worst, before = (strap_m, 0.0), 0.0, None
    for i in range(steps + 1):
        eye = (distance_m * i / steps, 0.0)
        ring = ring_at(eye, post, strap_m, (eye[0] + strap_m, ring[1]))
        beyond = dist(ring, post)
        comes = atan2(ring[1] - WINCH[1], ring[0] - WINCH[0])
        goes = atan2(post[1] - ring[1], post[0] - ring[0])
        wrap = abs((goes - comes + pi) % (2 * pi) - pi)
        if before is not None and beyond > before:
            worst = max(worst, STALL_N * (1.0 - LOSS) ** (-wrap / pi))
        before = beyond
    return worst


def test_it_carries_most_where_it_is_abeam_of_the_ring() -> None:
    stage = solved((2.0, 3.0), 4.0, 0.0)
    # A quarter turn: 30 kN / sqrt(1 - 0.2). At the end of the travel the turn is only 56 degrees.
    assert load_at_stall(stage) == pytest.approx(STALL_N / 0.8**0.5, rel=1e-5)
    assert [(round(s.travel_m, 3), s.title) for s in stage.stations] == [
        (0.0, "start"), (2.0, "the rope turns back over r"), (4.0, "end")]  # fmt: skip


def test_no_station_where_rope_runs_one_way_all_along() -> None:
    assert [s.title for s in solved((6.0, 3.0), 4.0, 0.0).stations] == ["start", "end"]


@settings(max_examples=40, deadline=None)
@given(st.integers(20, 60), st.integers(20, 60), st.integers(2, 15))
def test_no_place_of_the_travel_loads_it_more(along_dm: int, aside_dm: int, strap_dm: int) -> None:
    post, strap_m = (along_dm / 10, aside_dm / 10), strap_dm / 10
    stage = solved(post, 6.0, strap_m)
    assert load_at_stall(stage) >= stepped(post, 6.0, strap_m, 600) * (1.0 - 1e-3)
