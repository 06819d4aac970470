"""Worse input is never judged milder: each rule's own facts, moved the way that it says can only worsen its outcome.

Pairs of plans, alike but for one fact, from random valid plans and from every case and example. What milder means is
said in `moves.weight`. Where a fact is taken away or somebody comes nearer, the rules that declare so are taken
together, since one of them hands over to another what is not rated, or who stands too near, and keeps silent itself.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from riglint.outcome import Outcome
from riglint.plan.plan import Plan
from riglint.plan.quick import make_ready
from riglint.reading.document import read_document
from riglint.rig.faults import RigFaults
from riglint.rig.resolve import resolve
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.rulebook.rule import Rule
from riglint.solve.solution import Solution
from riglint.solve.solve import solve
from tests.rules.moves import Path as Fact
from tests.rules.moves import Weight, at, by_chance, is_milder, moved, places, weight
from tests.strategies import made_plan

BOOK = standard_rulebook()
ROOT = Path(__file__).parents[2]
DECLARED: dict[tuple[str, str], list[Rule]] = defaultdict(list)
for _rule in BOOK.rules:
    for _worse in _rule.worse:
        DECLARED[_worse].append(_rule)
SEEDS = sorted((*ROOT.glob("tests/rules/*/*.yaml"), *ROOT.glob("examples/*.yaml")))
RIG_STANDS = next(rule for rule in BOOK.rules if rule.slug == "rig-stands")
STRENGTHS = ("working_load", "breaking")
HANDED_OVER = ("taken away", "nearer")
LONG_RUN = 100_000
BY = (1.001, 1.03, 1.1, 1.3, 2.0, 5.0, 30.0)


class Pair(NamedTuple):
    """One rule on a plan and on the same plan with one fact moved."""

    rule: str
    fact: str
    way: str
    before: Weight
    after: Weight
    plan: Any  # as moved

    @property
    def said(self) -> str:
        return f"{self.rule}: {self.fact} {self.way}: {self.before} -> {self.after}\n{yaml.safe_dump(self.plan)}"


def solved(data: Any) -> Solution | None:
    """None where the plan is none any more: the moved fact does not fit the others."""
    make_ready()
    try:
        return solve(resolve(Plan.model_validate(data)))
    except (ValidationError, RigFaults):
        return None


def judged(rule: Rule, solution: Solution) -> Outcome:
    return apply(rule, solution, BOOK.limits[rule.slug])


def pairs(data: Any, random: Random, share: float = 1.0) -> Iterator[Pair]:
    """Pairs from one plan: for every fact declared that it holds, one of its places, or `share` of those facts."""
    solution = solved(data)
    if solution is None or any(stage.refused for stage in solution.stages):
        return  # a rig that can't stand may come to stand by what makes any other worse
    for (fact, way), rules in DECLARED.items():
        found = [paths for paths in places(data, fact) if not spoken_for(data, paths, way)]
        if not found or random.random() > share:
            continue
        worse = moved(data, random.choice(found), way, by_chance(random), solution)
        after = solved(worse) if worse is not None else None
        if after is None:
            continue
        came = {rule.slug: weighed(rule, after) for rule in rules}
        together = max(came.values())
        for rule in rules:
            after_it = together if way in HANDED_OVER else came[rule.slug]
            yield Pair(rule.slug, fact, way, weighed(rule, solution), after_it, worse)


def spoken_for(data: Any, paths: list[Fact], way: str) -> bool:
    """A bridle without a strength of its own is judged by its legs', so that taking it away may leave it clear."""
    return way == "taken away" and paths[0][-1] in STRENGTHS and "legs" in at(data, paths[0][:-1])


def weighed(rule: Rule, solution: Solution) -> Weight:
    """A rig that can't stand is for `rig-stands` to say, and as grave as can be: the other rules are silent there."""
    if any(stage.refused for stage in solution.stages):
        return weight(judged(RIG_STANDS, solution))
    return weight(judged(rule, solution))


@cache
def seeds() -> tuple[tuple[str, Any], ...]:
    """Every case and example that needs no kit, as plain data, each with the rule that it is for."""
    texts = [(path.parent.name.replace("_", "-"), path.read_bytes()) for path in SEEDS]
    return tuple((rule, read_document(text, "seed").data) for rule, text in texts if b"from_kit" not in text)


@cache
def seed_solved(number: int) -> Solution | None:
    return solved(seeds()[number][1])


@given(random=st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_worse_input_is_never_judged_milder(random: Random) -> None:
    assert_never_milder(pairs(made_plan(random), random, share=0.3))


@given(random=st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_nor_is_a_case_or_an_example(random: Random) -> None:
    assert_never_milder(pairs(random.choice(seeds())[1], random))


@given(random=st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_nor_is_a_bend_of_thicker_rope_unless_the_drum_fills_sooner(random: Random) -> None:
    """Thicker rope on a fuller drum stalls the winch at a lower pull, and so may bend less sharply for its load."""
    plan = made_plan(random, complete=True)
    del plan["winch"]["drum"]
    solution = solved(plan)
    if solution is None or any(stage.refused for stage in solution.stages):
        return
    bend = next(rule for rule in BOOK.rules if rule.slug == "bend-under-load")
    for found in places(plan, "lines/*/pieces/*/diameter"):
        after = solved(moved(plan, found, "higher", by_chance(random), solution))
        assert after is None or weighed(bend, after) >= weighed(bend, solution)


def assert_never_milder(found: Iterator[Pair]) -> int:
    count = 0
    for pair in found:
        assert not is_milder(pair.after, pair.before, pair.way), pair.said
        count += 1
    return count


@pytest.mark.slow
def test_a_long_run_of_pairs() -> None:
    counted = 0
    number = 0
    while counted < LONG_RUN:
        random = Random(number)
        plan = made_plan(random) if number % 3 else random.choice(seeds())[1]
        counted += assert_never_milder(pairs(plan, random))
        number += 1
    print(f"{counted} pairs from {number} plans")  # noqa: T201 -- for the closing note


@pytest.mark.parametrize(("fact", "way"), sorted(DECLARED), ids=str)
def test_what_is_declared_does_make_something_worse(fact: str, way: str) -> None:
    """Else the declaration is idle. Each rule that declares it must be seen to change on some case or example."""
    for rule in DECLARED[fact, way]:
        own_first = sorted(range(len(seeds())), key=lambda number: seeds()[number][0] != rule.slug)
        tries = (one for number in own_first for one in worsened(number, fact, way))
        assert any(weighed(rule, after) > weighed(rule, before) for before, after in tries), rule.slug


def worsened(number: int, fact: str, way: str) -> Iterator[tuple[Solution, Solution]]:
    """A seed and what comes of it with the fact moved, at each of its places and by a little or by much."""
    data = seeds()[number][1]
    found = places(data, fact)
    before = seed_solved(number) if found else None
    if before is None:
        return
    for paths in found:
        for by in BY if way != "taken away" else BY[:1]:
            worse = moved(data, paths, way, by, before)
            after = solved(worse) if worse is not None else None
            if after is not None:
                yield before, after
