"""A finding that holds in every stage is said once; one that differs is said for each."""

from __future__ import annotations

from riglint.plan.load import load_plan
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solve import solve

PLAN = """
rig_plan: 1
title: two stages
bodies:
  van: {moves: {distance: 4 m, bearing: 0 deg}, weight: 2 t}
  truck: {weight: 8 t}
points: {eye: {on: van, at: [0 m, 0 m]}, nose: {on: truck, at: [20 m, 0 m]}}
winch: {mounted: nose}
lines: {haul: {pieces: [mainline: {rope: hmpe, length: 60 m}], path: [winch, [one, two, eye]]}}
connectors: {one: {kind: sling, length: 1 m}, two: {kind: sling, length: 1 m}}
stages:
  - {name: first, moves: {distance: 2 m, bearing: 0 deg}}
  - {name: second, moves: {distance: 2 m, bearing: 0 deg}SECOND}
"""


def found(second: str) -> int:
    book = standard_rulebook()
    solution = solve(load_plan(PLAN.replace("SECOND", second), "plan").rig)
    return len(apply(book.rule("slings-end-to-end"), solution, book.limits["slings-end-to-end"]).findings)


def test_said_once_where_the_stages_are_rigged_alike() -> None:
    assert found("") == 1


def test_and_not_where_something_else_is_meant() -> None:
    book = standard_rulebook()
    text = PLAN.replace("SECOND", ", connectors: {one: {kind: sling, length: 1.5 m}}")
    solution = solve(load_plan(text, "plan").rig)
    outcome = apply(book.rule("slings-end-to-end"), solution, book.limits["slings-end-to-end"])
    assert {f.check.where.pointer for f in outcome.findings} == {"/connectors/one", "/stages/1/connectors/one"}
