"""The solver on random plans of every shape, through the plan's own door."""

from __future__ import annotations

from copy import deepcopy
from functools import partial
from math import isfinite
from random import Random
from typing import Any

import pytest
from hypothesis import Phase, assume, given, settings
from hypothesis import strategies as st

from riglint.mechanics.balance import NoBalance
from riglint.plan.load import load_plan
from riglint.rig.model import Rig
from riglint.solve.geometry import Walk
from riglint.solve.solution import CASES, StageSolution
from riglint.solve.solve import solve
from riglint.solve.wiring import Wiring, wire
from tests.strategies import SHAPES, ending_sooner, made_plan, on_one_ground, plan_text

Data = dict[str, Any]

# A seed makes a whole plan, so a smaller seed is no simpler a plan: nothing to gain by shrinking it.
PHASES = (Phase.explicit, Phase.generate)
SEEDS = st.integers(0, 10**9)


def rig_of(plan: Data) -> Rig:
    return load_plan(plan_text(plan), "random.yaml").rig


def with_losses(plan: Data, loss: Any) -> Data:
    """The plan with every loss replaced by what `loss` gives; seats' own losses go."""
    out = deepcopy(plan)
    redirects = [out.get("redirects", {})] + [s.get("redirects", {}) for s in out.get("stages", [])]
    for group in redirects:
        for redirect in group.values():
            redirect["loss"] = loss()
            for seat in ("sheave", "groove", "bore", "head"):
                if seat in redirect:
                    redirect[seat].pop("loss", None)
    return out


def path_ahead(walk: Walk, wiring: Wiring, index: int, length_m: float, travel_m: float) -> float:
    """How much longer than a length the path beyond a turn is."""
    return walk.at(travel_m).path_beyond(wiring, 0, index) - length_m


def standing(plan: Data) -> list[StageSolution]:
    stages = [s for s in solve(rig_of(plan)).stages if s.refused is None]
    assume(stages)
    return stages


@pytest.mark.parametrize("shape", SHAPES)
@given(seed=SEEDS)
@settings(max_examples=20, deadline=None, phases=PHASES)
def test_without_friction_the_pull_is_the_fall_of_line(shape: str, seed: int) -> None:
    """Virtual work: pull along the travel per line pull = -dL/ds, against a derivative of the path itself."""
    plan = with_losses(made_plan(Random(seed), complete=True, shape=shape), lambda: "0 %")
    for stage in standing(plan):
        wiring = wire(stage.stage)
        walk = Walk(wiring)
        for station in stage.stations:
            step, s = 1e-3, station.travel_m
            try:
                low, high = (sum(walk.at(s + d).lengths[i] for i in wiring.line_legs[0]) for d in (-step, step))
            except NoBalance:
                continue
            slope = -(high - low) / (2 * step)
            assert station.ratio_ideal == pytest.approx(slope, abs=1e-3)
            assert station.ratio_least == pytest.approx(station.ratio_ideal, abs=1e-6)
            assert station.ratio_most == pytest.approx(station.ratio_ideal, abs=1e-6)


@given(seed=SEEDS, shape=st.sampled_from(SHAPES))
@settings(max_examples=40, deadline=None, phases=PHASES)
def test_no_choice_of_losses_is_worse_than_the_envelope(seed: int, shape: str) -> None:
    """Each component's load bounds every choice of losses within their ranges, each redirect on its own."""
    plan = with_losses(made_plan(Random(seed), complete=True, shape=shape), lambda: "12 %")
    random = Random(seed + 1)

    def exactly() -> str:
        share = random.uniform(0.0, 11.99)
        return f"{share:.6f} % to {share + 1e-6:.6f} %"

    wide, chosen = standing(plan), standing(with_losses(plan, exactly))
    for bound, inside in zip(wide, chosen, strict=True):
        for case in ("expected", "stall"):
            for key, peak in inside.peaks[case].items():
                assert peak.load_n <= bound.peaks[case][key].load_n * (1 + 1e-6) + 1e-6, key
        for a, b in zip(inside.stations, bound.stations, strict=True):
            assert b.ratio_least - 1e-9 <= a.ratio_least <= a.ratio_most <= b.ratio_most + 1e-9


@given(seed=SEEDS)
@settings(max_examples=60, deadline=None, phases=PHASES)
def test_events_lie_on_the_travel_in_order_and_each_is_a_station(seed: int) -> None:
    for stage in standing(made_plan(Random(seed))):
        travels = [e.travel_m for e in stage.events]
        assert travels == sorted(travels)
        assert all(-1e-9 <= s <= stage.stage.travel.high + 1e-9 for s in travels)
        places = [s.travel_m for s in stage.stations]
        assert places == sorted(places)
        assert all(min(abs(s - p) for p in places) <= 1e-6 for s in travels)


@given(seed=SEEDS)
@settings(max_examples=40, deadline=None, phases=PHASES)
def test_joins_meet_seats_where_a_close_look_finds_them(seed: int) -> None:
    """Stepping along the travel in small steps sees the same meetings, which the solver finds as roots."""
    for stage in standing(made_plan(Random(seed), complete=True)):
        wiring, end = wire(stage.stage), stage.stage.travel.high
        walk = Walk(wiring)
        line = stage.stage.haul
        for join in line.joins:
            if not join.from_dead_end.exact:
                continue
            for index, turn in enumerate(line.turns):
                if any(t.wrap_rad < 0.02 for s in stage.stations for t in s.turns):
                    continue  # a redirect that the line runs straight past may stand anywhere along it
                found = [e.travel_m for e in stage.events
                         if e.kind == "join at seat" and e.join is join and e.turn == index]  # fmt: skip

                beyond = line.dead_end.length_m + join.from_dead_end.low
                ahead = partial(path_ahead, walk, wiring, index, beyond)

                steps = [end * i / 60 for i in range(61)]
                values = [ahead(s) for s in steps]
                crossings = [(a, b) for a, b, u, v in zip(steps, steps[1:], values, values[1:], strict=False)
                             if u * v < 0.0]  # fmt: skip
                for a, b in crossings:
                    assert any(a - 1e-6 <= s <= b + 1e-6 for s in found), (join.name, turn.redirect)
                assert all(abs(ahead(s)) < 1e-5 for s in found)


@given(seed=SEEDS)
@settings(max_examples=60, deadline=None, phases=PHASES)
def test_every_figure_is_a_number(seed: int) -> None:
    for stage in standing(made_plan(Random(seed))):
        for case in CASES:
            for peak in stage.peaks[case].values():
                assert peak.load_n >= 0.0
                assert isfinite(peak.load_n) or case != "stall"
        for station in stage.stations:
            for leg in station.legs:
                assert isfinite(leg.length_m)
                assert leg.length_m >= 0.0


@given(seed=SEEDS, shape=st.sampled_from(SHAPES))
@settings(max_examples=30, deadline=None, phases=PHASES)
def test_a_heavier_load_never_lightens_anything(seed: int, shape: str) -> None:
    """Expected loads grow with the resistance, up to what the winch can pull."""
    plan = made_plan(Random(seed), complete=True, shape=shape)
    load = next(b for b in plan["bodies"].values() if "moves" in b)
    heavier = deepcopy(plan)
    for body, newtons in ((load, "20 kN"), (next(b for b in heavier["bodies"].values() if "moves" in b), "30 kN")):
        body["resistance"] = {"steady": newtons, "found_by": "load cell"}
    for light, heavy in zip(standing(plan), standing(heavier), strict=True):
        for key, peak in light.peaks["expected"].items():
            assert peak.load_n <= heavy.peaks["expected"][key].load_n * (1 + 1e-9)


@pytest.mark.parametrize("shape", SHAPES)
@settings(phases=PHASES, deadline=None, max_examples=25)
@given(seed=SEEDS, share=st.floats(0.02, 0.98))
def test_a_pull_that_ends_sooner_never_carries_more(shape: str, seed: int, share: float) -> None:
    # So the stations of the whole pull leave out no place where a load is greater.
    plan = on_one_ground(made_plan(Random(seed), shape=shape, stages=False))
    whole = standing(plan)[0]
    part = standing(ending_sooner(plan, share * whole.stage.travel.high))[0]
    for case in CASES:
        for key, peak in part.peaks[case].items():
            assert peak.load_n <= whole.peaks[case][key].load_n * 1.002 + 1.0, (case, key)
