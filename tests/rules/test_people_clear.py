"""What the cases can't say of people in danger areas: how grave each place is, and that dampers and cabs count."""

from __future__ import annotations

import pytest

from riglint.outcome import Grade, Result
from riglint.plan.load import load_plan
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: a straight pull of 20 m
bodies:
  truck: {moves: {distance: 6 m, bearing: 0 deg}, weight: 6 t, resistance: {steady: 20 kN}, ground: {slope: 0 deg}}
  tender: {weight: 10 t}
points:
  eye: {on: truck, at: [0 m, 0 m]}
  mount: {on: tender, at: [20 m, 0 m]}
winch: {mounted: mount, rated_pull: 30 kN}
lines: {haul: {pieces: [rope: {rope: hmpe}], path: [winch, eye]}}
people:
  - {who: somebody, PLACE}
dampers: DAMPERS
"""


def seen(place: str, dampers: str = "[]") -> tuple[Result, set[Grade]]:
    book = standard_rulebook()
    plan = load_plan(PLAN.replace("PLACE", place).replace("DAMPERS", dampers), "plan")
    rule = book.rule("people-clear")
    assert rule is not None
    outcome = apply(rule, solve(plan.rig), book.limits["people-clear"])
    assert not outcome.reason
    return outcome.result, {finding.grade for finding in outcome.findings}


@pytest.mark.parametrize(
    ("place", "grade"),
    [
        ("at: [10 m, 1.82 m]", Grade.DANGER),  # within 6 ft of the line
        ("at: [39.9 m, 0 m]", Grade.DANGER),  # one length past the winch
        ("at: [40.1 m, 0 m]", Grade.CAUTION),
        ("at: [59.9 m, 0 m]", Grade.CAUTION),  # two lengths
        ("at: [-19.9 m, 0 m]", Grade.DANGER),  # past the other end
        ("in: tender", Grade.WARNING),  # in the open on what the line ends on
        ("in: tender cab", Grade.CAUTION),
        ("in: truck cab", Grade.CAUTION),
    ],
)
def test_how_grave_a_place_is(place: str, grade: Grade) -> None:
    assert seen(place) == (Result.FAILED, {grade})


@pytest.mark.parametrize("place", ["at: [60.1 m, 0 m]", "at: [30 m, 9 m]", "at: [10 m, 25 m]", "at: [-40.1 m, 0 m]"])
def test_who_is_clear(place: str) -> None:
    assert seen(place) == (Result.PASSED, set())


def test_a_damper_shields_a_cab_and_nobody_on_foot() -> None:
    dampers = "[{line: haul, between: [eye, winch]}]"
    assert seen("in: tender cab", dampers) == (Result.PASSED, set())
    assert seen("in: tender", dampers) == (Result.FAILED, {Grade.WARNING})
    assert seen("at: [30 m, 0 m]", dampers) == (Result.FAILED, {Grade.DANGER})
