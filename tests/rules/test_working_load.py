"""Working loads: what cases can't say. Published figures, grades by consequence, and that worse is never milder."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.outcome import Check, Grade, Result
from riglint.plan.load import load_plan
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solve import solve

BOOK = standard_rulebook()
PLAN = """
rig_plan: 1
title: straight pull
bodies:
  van:
    {{moves: {{distance: 3 m, bearing: 0 deg}}, weight: 2 t, ground: {{slope: 0 deg}},
     resistance: {{steady: {pull}}}}}
  truck: {{weight: 8 t}}
points: {{eye: {{on: van, at: [0 m, 0 m]}}, nose: {{on: truck, at: [20 m, 0 m]}}}}
winch: {{mounted: nose, rated_pull: {rated}, rated_layer: 1, stall_pull: {stall}}}
lines:
  haul:
    pieces: [mainline: {{rope: "{rope}", length: 60 m, breaking: {breaking}, ends: {ends}}}]
    path: [winch, [link, eye]]
connectors: {{link: {{{link}}}}}
"""
STRONG = "kind: bow shackle, working_load: 900 kN"


def outcome(
    pull="10 kN", rated="20 kN", stall="25 kN", rope="hmpe", breaking="200 kN", link=STRONG, ends="spliced eye"
):  # type: ignore[no-untyped-def]
    text = PLAN.format(pull=pull, rated=rated, stall=stall, rope=rope, breaking=breaking, link=link, ends=ends)
    return apply(BOOK.rule("working-load"), solve(load_plan(text, "plan").rig), BOOK.limits["working-load"])


def grade(check: Check) -> Grade:
    return check.grade or Grade.WARNING


@pytest.mark.parametrize(("breaking", "result"), [("20 t", Result.PASSED), ("19.9 t", Result.FAILED)])
def test_mgn_308_2_1_a_winch_of_10_t_has_rope_of_20_t(breaking: str, result: Result) -> None:
    assert outcome(rated="10 t", stall="10 t", breaking=breaking).result is result


@pytest.mark.parametrize(("breaking", "result"), [("60 kN", Result.PASSED), ("59 kN", Result.FAILED)])
def test_wyoming_osha_ch_5_wire_in_winching_breaks_at_3_times_its_load(breaking: str, result: Result) -> None:
    found = outcome(pull="20 kN", stall="20 kN", rope="wire", breaking=breaking, ends="socket")
    assert found.result is result
    assert {f.grade for f in found.findings} <= {Grade.WARNING}


def test_a_working_load_is_not_divided_and_a_breaking_strength_is() -> None:
    assert outcome(link="kind: bow shackle, working_load: 25 kN").result is Result.PASSED
    assert outcome(link="kind: bow shackle, breaking: 49 kN").result is Result.FAILED


@pytest.mark.parametrize(
    ("link", "expected"),
    [
        ("kind: bow shackle, working_load: 20 kN", Grade.WARNING),  # 25 kN at stall
        ("kind: bow shackle, working_load: 12 kN", Grade.DANGER),  # past twice its mark at stall
        ("kind: bow shackle, breaking: 49 kN, working_load: 20 kN", Grade.WARNING),
        ("kind: sling, wrapped: single, breaking: 60 kN", Grade.CAUTION),  # a lifting factor alone
        ("kind: bow shackle, breaking: 33 kN", Grade.DANGER),  # past three quarters of its strength
    ],
)
def test_grades_go_by_consequence(link: str, expected: Grade) -> None:
    worst = min((f.grade for f in outcome(link=link).findings), key=lambda g: g.rank)
    assert worst is expected


def test_the_line_pull_goes_with_the_load_at_stall() -> None:
    [check] = [c for c in outcome().checks if c.where.case == "stall" and c.where.name == "link"]
    assert check.pull_n == pytest.approx(25_000.0)
    assert check.measured == pytest.approx(25_000.0)
    assert check.measure == "working load"


def test_each_check_rests_on_the_factor_that_it_divides_by() -> None:
    rope = {c.where.case: c.basis for c in outcome(rope="wire", ends="socket").checks if c.where.name == "mainline"}
    assert {case: basis and basis.source for case, basis in rope.items()} == {
        "stall": "mgn-308",  # every element breaks at 2 times the winch's pull
        "expected": "wyoming-osha-ch-5",  # wire rope at 3 times its load
    }


SEVERITY = {Result.PASSED: 0, Result.CANT_TELL: 1, Result.FAILED: 2}


@given(
    kn=st.integers(1, 80), less=st.integers(0, 40), off=st.integers(0, 90), more=st.integers(0, 90),
    key=st.sampled_from(["working_load", "breaking"]),
)  # fmt: skip
def test_worse_gear_is_never_judged_milder(kn: int, less: int, off: int, more: int, key: str) -> None:
    def worst(rating: int, off_line: int) -> tuple[int, int]:
        found = outcome(link=f"kind: bow shackle, {key}: {rating} kN, off_line: {off_line} deg")
        return SEVERITY[found.result], max((3 - f.grade.rank for f in found.findings), default=-1)

    assert worst(max(1, kn - less), min(180, off + more)) >= worst(kn, off)
