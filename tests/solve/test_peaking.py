"""Loads that are greatest between events, where nothing happens: hand figures, and reckoned again in small steps.

At one line pull a redirect is loaded most where it turns its rope the most; hauled, the rope is pulled with what the
load resists over the gain, until the winch stalls. All by statics: sums of unit vectors.
"""

from math import dist, hypot

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solution import Case, StageSolution
from riglint.solve.solve import solve

Place = tuple[float, float]

STALL_N = 30e3
ROCK = (0.0, 0.0)


def solved(mount: Place, eye: Place, distance_m: float, resists_n: float = 5e3) -> StageSolution:
    """A line from a winch over a block that hangs straight from a rock, without any loss, to a load that goes by."""
    plan = f"""
rig_plan: 1
title: The angle at the block is sharpest on the way
bodies:
  load: {{moves: {{distance: {distance_m} m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: {resists_n} N, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [{eye[0]} m, {eye[1]} m]}}
  rock: {{on: ground, at: [0 m, 0 m], kind: rock}}
  mount: {{on: ground, at: [{mount[0]} m, {mount[1]} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 30 kN, rated_layer: 1, stall_pull: 30 kN}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, b.sheave, eye]}}
redirects:
  b: {{kind: block, loss: 0 %, hung_from: [rock], sheave: {{}}}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    return stage


def peak_n(stage: StageSolution, case: Case, point: str = "rock") -> float:
    own = stage.component("point", point)
    assert own is not None
    peak = stage.peak(own, case)
    assert peak is not None
    return peak.load_n


def load_at_stall(stage: StageSolution) -> float:
    return peak_n(stage, "stall")


def test_two_parts_that_come_to_lie_side_by_side_pull_with_twice_the_line_pull() -> None:
    stage = solved((-15.0, 15.0), (-20.0, 3.0), 19.0)
    assert load_at_stall(stage) == pytest.approx(2.0 * STALL_N, rel=1e-9)
    assert [(round(s.travel_m, 6), s.title) for s in stage.stations] == [
        (0.0, "start"), (17.0, "the pull on b peaks"), (19.0, "end")]  # fmt: skip


def test_a_turn_that_only_opens_or_only_closes_gets_no_further_station() -> None:
    assert [s.title for s in solved((-15.0, 15.0), (-20.0, 3.0), 16.0).stations] == ["start", "end"]
    assert [s.title for s in solved((15.0, 15.0), (-40.0, 3.0), 19.0).stations] == ["start", "end"]


@given(st.integers(-300, 300), st.integers(30, 300), st.integers(-400, -20), st.integers(5, 200), st.integers(10, 390))
def test_no_place_of_the_travel_loads_it_more(x: int, y: int, start: int, aside: int, tenths: int) -> None:
    mount, eye, distance_m = (x / 10, y / 10), (start / 10, aside / 10), tenths / 10
    stage = solved(mount, eye, distance_m)
    if stage.refused:
        return
    found = []
    for step in range(1001):
        there = (eye[0] + distance_m * step / 1000, eye[1])
        away = dist(mount, ROCK), dist(there, ROCK)
        found.append(dist([mount[i] / away[0] for i in (0, 1)], [-there[i] / away[1] for i in (0, 1)]))
    assert load_at_stall(stage) >= STALL_N * max(found) * (1.0 - 1.1e-3)


def test_hauled_it_carries_most_where_the_winch_comes_to_its_stall() -> None:
    stage = solved((-15.0, 0.0), (-20.0, 4.0), 19.0, 18e3)
    # At 17 m the line pulls at 3 m along to 4 m across: 18 kN / 0.6 = 30 kN, the stall, and |(-1, 0) + (-0.6, 0.8)| of
    # that comes on the rock. Before it the line pull is less, behind it the turn is opener: 47.3 kN at the end.
    assert peak_n(stage, "expected") == pytest.approx(STALL_N * hypot(1.6, 0.8), rel=2e-4)
    assert [(s.travel_m, s.title) for s in stage.stations] == [
        (0.0, "start"), (17.0, "the pull on b peaks"), (19.0, "end")]  # fmt: skip


@given(st.integers(-300, 300), st.integers(-300, 300), st.integers(5, 200), st.integers(6, 29))
def test_no_place_of_the_travel_loads_it_more_hauled(x: int, y: int, aside: int, resists_kn: int) -> None:
    mount, eye, distance_m, resists_n = (x / 10, y / 10), (-20.0, aside / 10), 19.0, resists_kn * 1e3
    assume(hypot(*mount) > 1.0)
    stage = solved(mount, eye, distance_m, resists_n)
    if stage.refused:
        return
    found = []
    for step in range(1001):
        there, away = (eye[0] + distance_m * step / 1000, eye[1]), dist(mount, ROCK)
        here = dist(there, ROCK)
        pull_n = min(STALL_N, resists_n * here / -there[0])
        found.append(pull_n * hypot(*(mount[i] / away + there[i] / here for i in (0, 1))))
    assert peak_n(stage, "expected") >= max(found) * (1.0 - 1.2e-3)


def by_the_rock(mount: Place, aside_m: float, strap_m: float, loss: str = "0 %") -> StageSolution:
    """From the winch over a block at the rock and round a ring on the load, to a post so far ahead that all is even."""
    hung = "[strap, rock]" if strap_m else "[rock]"
    plan = f"""
rig_plan: 1
title: The load goes by a block, drawn from ahead
bodies:
  load: {{moves: {{distance: 6 m, bearing: 0 deg}}, weight: 6 t,
         resistance: {{steady: 10 kN, found_by: gauge}}, ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [0 m, {aside_m} m]}}
  rock: {{on: ground, at: [0 m, 0 m], kind: rock}}
  post: {{on: ground, at: [90 m, {aside_m} m]}}
  mount: {{on: ground, at: [{mount[0]} m, {mount[1]} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 400 kN, rated_layer: 1, stall_pull: 400 kN}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, b.sheave, r.bore, post]}}
redirects:
  b: {{kind: block, loss: {loss}, hung_from: {hung}, sheave: {{}}}}
  r: {{kind: ring, loss: {loss}, hung_from: [eye], bore: {{}}}}
connectors:
  strap: {{kind: strap, length: {strap_m or 1.0} m}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    assert stage.refused is None
    return stage


def hauled_n(mount: Place, aside_m: float, strap_m: float, steps: int) -> float:
    """The most on the rock over small steps of the travel: 10 kN over the gain, times the resultant of two legs."""
    x = y = worst = 0.0
    for step in range(steps + 1):
        eye = (6.0 * step / steps, aside_m)
        for _ in range(500):  # the strap lies along the resultant
            to = [((p[0] - x) / dist(p, (x, y)), (p[1] - y) / dist(p, (x, y))) for p in (mount, eye)]
            pull = (to[0][0] + to[1][0], to[0][1] + to[1][1])
            was, size = (x, y), hypot(*pull)
            x, y = (0.5 * (a + strap_m * b / size) for a, b in zip(was, pull, strict=True))
            x, y = (strap_m * a / (hypot(x, y) or 1.0) for a in (x, y))
            if dist(was, (x, y)) < 1e-12:
                break
        worst = max(worst, 10e3 * size / (1.0 - to[1][0]))
    return worst


def test_hauled_it_carries_most_where_its_share_of_the_pull_on_the_load_is_greatest() -> None:
    # With m = (-15.4, -7.2) / 17 the way to the winch and e the way to the load, |m + e| / (1 - e_x) has its peak where
    # e = (0.6, 0.8), after 3 m: 5 / sqrt(17). At the start it is 1.074, and all along the turn opens.
    mount = (-15.4, -7.2)
    stage = by_the_rock(mount, 4.0, 0.0)
    assert peak_n(stage, "expected") == pytest.approx(10e3 * 5.0 / 17.0**0.5, rel=1e-6)
    assert (3.0, "the pull on b peaks") in [(s.travel_m, s.title) for s in stage.stations]
    assert hauled_n(mount, 4.0, 0.0, 600) == pytest.approx(10e3 * 5.0 / 17.0**0.5, rel=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.integers(-200, 100), st.integers(-200, -30), st.integers(25, 60), st.integers(0, 20))
def test_no_place_of_the_travel_loads_a_swinging_block_more(x: int, y: int, aside: int, strap: int) -> None:
    mount, aside_m, strap_m = (x / 10, y / 10), aside / 10, strap / 10
    # Straight rope that passes the rock within the strap's length leaves it slack, and the block where it likes.
    passes = [abs(x * aside - y * eye) / hypot(x - eye, y - aside) / 10 for eye in range(61)]
    assume(min(passes) > strap_m + 0.2)
    stage = by_the_rock(mount, aside_m, strap_m)
    assert peak_n(stage, "expected") >= hauled_n(mount, aside_m, strap_m, 300) * (1.0 - 1.2e-3)


def test_a_pull_that_swings_evenly_gets_no_further_station() -> None:
    assert [s.title for s in by_the_rock((-200.0, 4.0), 4.0, 0.0).stations][1:-1] == []


def test_a_load_that_resists_with_nothing_and_comes_past_the_winch_is_worked_out() -> None:
    """It rolls down its bank by itself, and on beyond where the line comes abeam: no gain stalls the winch."""
    text = """
rig_plan: 1
title: down and past
bodies:
  trailer:
    moves: {distance: 44 m, bearing: 0 deg}
    weight: 4 t
    ground: {surface: firm track, mired: none, slope: 15 deg down}
points: {eye: {on: trailer, at: [0 m, 0 m]}, mount: {on: ground, at: [30 m, 0 m]}}
winch: {mounted: mount, rated_pull: 40 kN, rated_layer: 1, stall_pull: 45 kN}
lines: {haul: {pieces: [main: {rope: hmpe, diameter: 10 mm, length: 40 m}], path: [winch, eye]}}
"""
    [stage] = solve(load_plan(text, "past.yaml").rig).stages
    assert stage.stations[-1].travel_m == pytest.approx(44.0)
    assert stage.stations[0].resistance.hauling == (0.0, 0.0)
