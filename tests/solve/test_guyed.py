"""A line made fast to a block that hangs from a strap shares what the rope pulls with the strap: by statics alone."""

from math import cos, dist, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.solve.solution import StageSolution
from riglint.solve.solve import solve

Place = tuple[float, float]

STALL_N = 13e3
STRAP_M = 5.0


def guyed(
    winch: Place, load: Place, post: Place, stake: Place, guy_m: float, loss: str = "0 %",
    travel: str = "{distance: 0.1 m, bearing: 180 deg}",
) -> StageSolution:  # fmt: skip
    plan = f"""
rig_plan: 1
title: A block in a strap, and a guy to it
bodies:
  load: {{moves: {travel}, weight: 6 t, resistance: {{steady: 1 kN, found_by: gauge}},
         ground: {{slope: 0 deg}}}}
points:
  eye: {{on: load, at: [{load[0]} m, {load[1]} m]}}
  post: {{on: ground, at: [{post[0]} m, {post[1]} m]}}
  stake: {{on: ground, at: [{stake[0]} m, {stake[1]} m]}}
  mount: {{on: ground, at: [{winch[0]} m, {winch[1]} m], kind: winch mount}}
winch: {{mounted: mount, rated_pull: 13 kN, rated_layer: 1, stall_pull: 13 kN}}
lines:
  haul: {{pieces: [rope: {{rope: hmpe}}], path: [winch, b.bore, eye]}}
  guy: {{pieces: [guy_rope: {{rope: hmpe, length: {guy_m} m}}], path: [b, stake]}}
redirects:
  b: {{kind: ring, loss: {loss}, hung_from: [strap, post], bore: {{}}}}
connectors:
  strap: {{kind: strap, length: {STRAP_M} m}}
"""
    [stage] = solve(load_plan(plan, "plan.yaml").rig).stages
    assert stage.refused is None
    return stage


def at_stall(stage: StageSolution, name: str, station: int = 0) -> float | None:
    [component] = [c for c in stage.components if c.name == name and c.kind in ("point", "connector")]
    return stage.stations[station].load(component, "stall")


def test_a_guy_takes_its_share_of_what_the_rope_pulls() -> None:
    """The block at (0, 0), its legs to (12, 5) and (12, -5): 2 * 12/13 * 13 kN = 24 kN along x.

    The strap from (-3, 4) and the guy to (-3, -4) hold it at 3:4 to either side: each 24 kN / (2 * 3/5) = 20 kN.
    """
    stage = guyed((12, 5), (12, -5), (-3, 4), (-3, -4), 5.0)
    assert at_stall(stage, "stake") == pytest.approx(20e3, rel=1e-6)
    # what hangs from the strap is the rope with the guy: 24 kN - 12 kN ahead, 16 kN to the side
    assert at_stall(stage, "strap") == pytest.approx(20e3, rel=1e-6)


@given(
    to_winch=st.floats(15, 70), to_load=st.floats(15, 70), strap=st.floats(10, 60), guy=st.floats(10, 60),
)  # fmt: skip
@settings(max_examples=40, deadline=None)
def test_strap_and_guy_balance_the_rope(to_winch: float, to_load: float, strap: float, guy: float) -> None:
    """By Cramer's rule: s (-cos a, sin a) + g (-cos b, -sin b) + 13 kN (both legs) = 0, where both are taut."""
    a, b, c, d = map(radians, (strap, guy, to_winch, to_load))
    ahead, aside = STALL_N * (cos(c) + cos(d)), STALL_N * (sin(c) - sin(d))
    guy_n = (ahead * sin(a) + aside * cos(a)) / sin(a + b)
    strap_n = (ahead * sin(b) - aside * cos(b)) / sin(a + b)
    if min(guy_n, strap_n) < 100.0:
        return
    post, stake = (-5 * cos(a), 5 * sin(a)), (-4 * cos(b), -4 * sin(b))
    stage = guyed((20 * cos(c), 20 * sin(c)), (20 * cos(d), -20 * sin(d)), post, stake, 4.0)
    assert at_stall(stage, "stake") == pytest.approx(guy_n, rel=1e-5)
    assert at_stall(stage, "strap") == pytest.approx(strap_n, rel=1e-5)


def test_where_a_guy_comes_taut_there_is_a_station_on_either_side() -> None:
    """The strap swings to lie along the bisector of the legs; the guy comes taut where the ring is 5.95 m from stake.

    Found again by stepping: the ring at post + 5 m * unit(sum of the legs' directions), by fixed-point rounds.
    """
    post, stake, mount, guy_m = (0.0, 6.0), (-6.0, -2.0), (12.0, -6.0), 5.95

    def ring(travel_m: float) -> Place:
        x, y = post[0], post[1] - STRAP_M
        for _ in range(200):
            ways = [(p[0] - x, p[1] - y) for p in (mount, (-14.0 + travel_m, 0.0))]
            sums = [sum(w[i] / dist(w, (0, 0)) for w in ways) for i in range(2)]
            size = dist(sums, (0, 0))
            x, y = (post[0] + STRAP_M * sums[0] / size + x) / 2, (post[1] + STRAP_M * sums[1] / size + y) / 2
        return x, y

    stage = guyed(mount, (-14.0, 0.0), post, stake, guy_m, "20 %", "{distance: 8 m, bearing: 0 deg}")
    slack_before = dist(ring(0.0), stake) < guy_m
    low, high = 0.0, 8.0
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if (dist(ring(middle), stake) < guy_m) == slack_before else (low, middle)
    assert 0.1 < low < 7.9
    beside = [s for s in stage.stations if abs(s.travel_m - low) < 1.1e-3]
    assert [s.title for s in beside] == ["guy comes taut or goes slack"] * 2
    one, other = (at_stall(stage, "stake", s.index) for s in beside)
    assert min(one or 0.0, other or 0.0) == 0.0
    taut = [at_stall(stage, "stake", i) or 0.0 for i in (0, -1)]
    assert min(taut) == 0.0
    assert max(taut) > 100.0
