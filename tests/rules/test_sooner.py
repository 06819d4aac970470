"""A pull that ends sooner is judged no more severely than the whole: rules see what lies between stations, too."""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solution import Solution
from riglint.solve.solve import solve
from tests.rules.moves import UNTOLD, weight
from tests.strategies import ending_sooner, made_plan, on_one_ground, plan_text

BOOK = standard_rulebook()
LEFT_OUT = {
    "join-stops-short": "how near a join stops to what it no longer comes to",
    "people-clear": "looks at legs wherever they have swept a corridor's width, and a lash may reach farther between",
    "stand-off": "silent of whoever is struck: `people-clear` says that",
}
RULES = [rule for rule in BOOK.rules if rule.slug not in LEFT_OUT]


def solved(text: str) -> Solution | None:
    solution = solve(load_plan(text, "sooner.yaml").rig)
    return None if any(stage.refused for stage in solution.stages) else solution


def graver_sooner(seed: int, share: float) -> list[str]:
    """The rules that find a part of a made plan's travel worse than the whole."""
    plan = on_one_ground(made_plan(Random(seed), stages=False))
    whole = solved(plan_text(plan))
    part = solved(plan_text(ending_sooner(plan, share * whole.stages[0].stage.travel.high))) if whole else None
    if whole is None or part is None:
        return []
    judged = {rule.slug: [weight(apply(rule, of, BOOK.limits[rule.slug])) for of in (part, whole)] for rule in RULES}
    # What can't be told of the whole, such as of gear that hangs loose, may come out either way in a part.
    return [slug for slug, (sooner, at_all) in judged.items() if sooner > at_all != UNTOLD]


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**9), share=st.floats(0.02, 0.98))
def test_a_pull_that_ends_sooner_is_judged_no_more_severely(seed: int, share: float) -> None:
    assert graver_sooner(seed, share) == []


@pytest.mark.slow
def test_nor_is_any_of_five_thousand() -> None:
    random = Random(5)
    found = [(seed, rules) for seed in range(5000) if (rules := graver_sooner(seed, random.uniform(0.02, 0.98)))]
    assert found == []
