"""Every rule on its own cases: plans that pass, fail, sit on the limit, and lack a fact.

A case is a plan in `tests/rules/<rule>/`. Its name begins with what must come out; each line that a finding
points at says so in a comment at its end, and the whole set is compared, so that a rule can neither miss a
place nor point at one too many. At its end a case holds what the rule says about it, as `says` writes it. Gear that a
case names comes from `kit/kit.yaml` beside it.
"""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

from riglint.outcome import Check, Result
from riglint.report.words import fill, message
from tests.rules.says import book, judged, marked, points_at, said, written

CASES = sorted(Path(__file__).parent.glob("*/*.yaml"))
EXPECTED = {
    "pass": Result.PASSED,
    "limit": Result.PASSED,
    "fail": Result.FAILED,
    "unknown": Result.CANT_TELL,
    "none": Result.INAPPLICABLE,
}
FUNCTIONS = {name: getattr(math, name) for name in ("sqrt", "sin", "cos", "exp", "pi")} | {"min": min, "max": max}


@pytest.mark.parametrize("path", CASES, ids=lambda p: f"{p.parent.name}/{p.stem}")
def test_case(path: Path) -> None:
    outcome, loaded = judged(path)
    assert outcome.reason == ""
    assert outcome.result is EXPECTED[path.stem.partition("-")[0]]
    assert points_at(outcome, loaded) == marked(path)
    if path.stem.startswith("limit-"):
        # A rule that only says yes or no has no use; its limit is a day or a distance, with a failing plan beside it.
        uses = [check.use for check in outcome.checks if check.use is not None]
        assert max(uses, default=1.0) == pytest.approx(1.0, abs=1e-9)
    assert said(outcome) == written(path)
    for check in outcome.checks:
        shows_what_was_reckoned(check)


def shows_what_was_reckoned(check: Check) -> None:
    assert not re.search(r"[{}]|\?", message(check) + fill(check.remedy, check))
    assert check.remedy or check.result is not Result.FAILED
    for step in check.working:
        terms = {name: number for (name, _), number in zip(step.formula.terms, step.numbers, strict=True)}
        told = eval(step.formula.expression, {"__builtins__": {}}, FUNCTIONS | terms)  # our own rules' text
        assert told == pytest.approx(step.result, rel=1e-9), step


@pytest.mark.parametrize("slug", [rule.slug for rule in book().rules])
def test_every_rule_has_its_cases(slug: str) -> None:
    folder = Path(__file__).parent / slug.replace("-", "_")
    kinds = {path.stem.partition("-")[0] for path in folder.glob("*.yaml")}
    assert {"pass", "fail", "unknown"} <= kinds
