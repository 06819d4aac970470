"""Every rule on its own cases: plans that pass, fail, sit on the limit, and lack a fact.

A case is a plan in `tests/rules/<rule>/`. Its name begins with what must come out; each line that a finding
points at says so in a comment at its end, and the whole set is compared, so that a rule can neither miss a
place nor point at one too many. Gear that a case names comes from `kit/kit.yaml` beside it.
"""

from __future__ import annotations

import re
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from riglint.kit.read import open_kit
from riglint.outcome import Outcome, Result
from riglint.plan.load import load_plan
from riglint.rulebook.book import Rulebook
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solve import solve

CASES = sorted(Path(__file__).parent.glob("*/*.yaml"))
EXPECTED = {
    "pass": Result.PASSED,
    "limit": Result.PASSED,
    "fail": Result.FAILED,
    "unknown": Result.CANT_TELL,
    "none": Result.INAPPLICABLE,
}
MARK = re.compile(r"#.*\b(failed|can't tell)\s*$")
TODAY = date(2026, 6, 1)
WORDS = {"failed": Result.FAILED, "can't tell": Result.CANT_TELL}


@cache
def book() -> Rulebook:
    return standard_rulebook()


def run(path: Path) -> tuple[Outcome, set[tuple[int, Result]], set[tuple[int, Result]]]:
    kit = path.parent / "kit" / "kit.yaml"
    loaded = load_plan(path.read_bytes(), path.name, (lambda _: open_kit(kit)) if kit.exists() else None, TODAY)
    slug = path.parent.name.replace("_", "-")
    outcome = apply(book().rule(slug), solve(loaded.rig), book().limits[slug])
    found = set()
    for finding in outcome.findings:
        pointer = finding.check.where.pointer
        found.add((loaded.document.key_position(pointer).line, finding.result))
    expected = set()
    for number, line in enumerate(path.read_text().splitlines(), start=1):
        mark = MARK.search(line)
        if mark and not line.startswith("#"):
            expected.add((number, WORDS[mark[1]]))
    return outcome, found, expected


@pytest.mark.parametrize("path", CASES, ids=lambda p: f"{p.parent.name}/{p.stem}")
def test_case(path: Path) -> None:
    outcome, found, expected = run(path)
    assert outcome.reason == ""
    assert outcome.result is EXPECTED[path.stem.partition("-")[0]]
    assert found == expected
    if path.stem.startswith("limit-"):
        uses = [check.use for check in outcome.checks if check.use is not None]
        assert max(uses) == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize("slug", [rule.slug for rule in book().rules])
def test_every_rule_has_its_cases(slug: str) -> None:
    folder = Path(__file__).parent / slug.replace("-", "_")
    kinds = {path.stem.partition("-")[0] for path in folder.glob("*.yaml")}
    assert {"pass", "fail", "unknown"} <= kinds
