"""The Australian standard of 2017: a recovery strap breaks at 2 to 3 times the laden mass of the lighter vehicle."""

from __future__ import annotations

import pytest

from riglint.outcome import Result
from riglint.plan.load import load_plan
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: a recovery strap
bodies:
  van: {moves: {distance: 3 m, bearing: 0 deg}, laden_mass: 2500 kg}
  truck: {laden_mass: 8 t}
points: {eye: {on: van, at: [0 m, 0 m]}, nose: {on: truck, at: [20 m, 0 m]}}
winch: {mounted: nose}
lines: {haul: {pieces: [mainline: {rope: hmpe, length: 60 m}], path: [winch, [strap, eye]]}}
connectors: {strap: {kind: recovery strap, length: 9 m, breaking: BREAKING}}
"""


@pytest.mark.parametrize(
    ("breaking", "results"),
    [
        ("4990 kg", (Result.FAILED, Result.PASSED)),
        ("5000 kg", (Result.PASSED, Result.PASSED)),  # worked through for 2500 kg: 5000 to 7500 kg
        ("7500 kg", (Result.PASSED, Result.PASSED)),
        ("7510 kg", (Result.PASSED, Result.FAILED)),
    ],
)
def test_strength_against_the_lighter_vehicle(breaking: str, results: tuple[Result, Result]) -> None:
    book = standard_rulebook()
    solution = solve(load_plan(PLAN.replace("BREAKING", breaking), "plan").rig)
    made_to_stretch, *strength = apply(book.rule("recovery-strap"), solution, book.limits["recovery-strap"]).checks
    assert made_to_stretch.result is Result.FAILED
    assert tuple(check.result for check in strength) == results
