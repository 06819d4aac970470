"""The standard rulebook over every shipped plan: sentences are whole, and what is shown is what was reckoned."""

import math
import re
from functools import cache

import pytest

from riglint.outcome import Check, Result
from riglint.report.words import fill, message
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import inspect
from tests.examples.plans import PLANS, solution

NAMES = {name: getattr(math, name) for name in ("sqrt", "sin", "cos", "exp", "pi")} | {"min": min, "max": max}


@cache
def checks(plan: str) -> tuple[tuple[str, Check], ...]:
    inspection = inspect(solution(plan), standard_rulebook())
    return tuple((outcome.rule, check) for outcome in inspection.outcomes for check in outcome.checks)


@pytest.mark.parametrize("plan", PLANS)
def test_no_rule_breaks(plan):
    inspection = inspect(solution(plan), standard_rulebook())
    assert [(o.rule, o.reason) for o in inspection.untested] == []


@pytest.mark.parametrize("plan", PLANS)
def test_every_place_in_a_sentence_is_filled(plan):
    said = [(rule, text) for rule, c in checks(plan) for text in (message(c), fill(c.remedy, c))]
    assert [(rule, text) for rule, text in said if re.search(r"[{}]|\?", text)] == []


@pytest.mark.parametrize("plan", PLANS)
def test_every_formula_gives_the_result_beside_it(plan):
    for rule, check in checks(plan):
        for step in check.working:
            terms = {name: number for (name, _), number in zip(step.formula.terms, step.numbers, strict=True)}
            told = eval(step.formula.expression, {"__builtins__": {}}, NAMES | terms)  # our own rules' text
            assert told == pytest.approx(step.result, rel=1e-9), (rule, step)


@pytest.mark.parametrize("plan", PLANS)
def test_use_is_measured_against_limit(plan):
    for rule, check in checks(plan):
        if check.use is None or not check.limit or not check.measured:
            continue
        ratio = check.measured / check.limit
        assert check.use in (pytest.approx(ratio), pytest.approx(1 / ratio)), (rule, check)


@pytest.mark.parametrize("plan", PLANS)
def test_what_failed_says_what_would_put_it_right(plan):
    assert {rule for rule, c in checks(plan) if c.result is Result.FAILED and not c.remedy} == set()
