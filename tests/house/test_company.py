"""The example of a company with a kit, a rulebook and a house file of its own."""

import shutil
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from riglint.commands.exits import Exit
from riglint.commands.exits import of as code_of
from riglint.house.context import Contexts
from riglint.outcome import Grade, Inspection, Result, Verdict
from riglint.rulebook.find import MANIFEST
from riglint.solve.solve import solve

COMPANY = Path(__file__).parents[2] / "examples" / "company"
OVERDUE = "hay-trailer-overdue-shackle"
BEFORE, LAST, AFTER = date(2026, 11, 25), date(2026, 12, 15), date(2026, 12, 16)


@cache
def contexts(today: date) -> Contexts:
    return Contexts(today=today)


def inspect(plan: Path, *edits: tuple[str, str], today: date = BEFORE) -> Inspection:
    text = plan.read_text()
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    context = contexts(today).of(plan)
    return context.inspect(solve(context.load(text, plan.name).rig))


def example(name: str, *edits: tuple[str, str], today: date = BEFORE) -> Inspection:
    return inspect(COMPANY / "plans" / f"{name}.yaml", *edits, today=today)


def results(found: Inspection) -> dict[str, Result]:
    return {outcome.rule: outcome.result for outcome in found.outcomes}


@pytest.mark.parametrize("name", sorted(path.stem for path in (COMPANY / "plans").glob("*.yaml")))
def test_the_plans_are_clear_with_every_rule_tested(name):
    found = example(name)
    assert found.untested == ()
    assert [f.rule for f in found.findings if f.waived is None] == []
    assert found.verdict is Verdict.CLEAR


def test_its_own_rules_are_applied():
    own = [path.stem.replace("_", "-") for path in (COMPANY / "rulebook").glob("*.py")]
    assert [results(example("hay-trailer"))[rule] for rule in own] == [Result.PASSED] * 3


def test_what_the_house_changed_is_told():
    found = example("hay-trailer")
    assert {(c.rule, c.milder) for c in found.changed} == {
        ("drum-wraps", False), ("fleet-angle", True), ("crew-line-pull", False),
    }  # fmt: skip
    assert [one.rule for one in found.set_aside] == ["part-adds-nothing"]


@pytest.mark.parametrize(("today", "waived"), [(BEFORE, True), (LAST, True), (AFTER, False)])
def test_the_waiver_runs_out(today, waived):
    found = example(OVERDUE, today=today)
    [finding] = [f for f in found.findings if f.rule == "gear-overdue"]
    assert (finding.waived is not None) is waived
    assert [f.grade for f in found.findings if f.rule == "house-files"] == ([] if waived else [Grade.CAUTION])


@pytest.mark.parametrize(("today", "grade"), [(date(2027, 5, 14), Grade.CAUTION), (date(2027, 5, 15), Grade.WARNING)])
def test_gear_that_missed_two_inspections_is_graver(today, grade):
    """Inspected on 11 May, good for 184 days until 11 November; 184 days after that is 14 May."""
    found = example(OVERDUE, today=today)
    [finding] = [f for f in found.findings if f.rule == "gear-overdue" and f.check.where.name == "bow_1"]
    assert finding.grade is grade


def test_retired_gear_halts():
    found = example("hay-trailer", ("from_kit: S-14", "length: 0.1 m, from_kit: S-9"))
    assert found.verdict is Verdict.NOT_CLEAR
    assert results(found)["gear-retired"] is Result.FAILED


@pytest.mark.parametrize(
    ("old", "new", "rule", "result"),
    [
        ("  - {line: haul, between: [winch, drawbar_eye], weight: 8 kg}", "  []", "crew-damper", Result.FAILED),
        ("who: spotter", "who: cook", "crew-spotter", Result.FAILED),
        ("people:\n", "notes: |\n", "crew-spotter", Result.CANT_TELL),
    ],
)
def test_its_own_rules_find_what_they_are_for(old, new, rule, result):
    assert results(example("hay-trailer", (old, new)))[rule] is result


def test_the_crews_ceiling(tmp_path):
    company = copy(tmp_path)
    kit = company / "kit.yaml"
    kit.write_text(kit.read_text().replace("stall_pull: 38 kN", "stall_pull: 50 kN"))
    assert results(inspect(company / "plans" / "hay-trailer.yaml"))["crew-line-pull"] is Result.FAILED
    kit.write_text(kit.read_text().replace("    stall_pull: 50 kN\n", ""))
    found = inspect_anew(company)
    assert results(found)["crew-line-pull"] is Result.CANT_TELL


BROKEN = {
    "bad_import": "import nothing_of_that_name",
    "bad_name": "from riglint.outcome import nothing_of_that_name",
    "bad_syntax": "def bad_syntax(:",
    "bad_exit": "raise SystemExit(0)",
    "no_rule": "answer = 42",
    "raises": "    yield 1 / 0",
    "yields_nonsense": "    yield 'fine'",
    "raises_late": "    yield from ()\n    raise KeyError('late')",
    "leaves": "    yield from ()\n    raise SystemExit(0)",
}
HEAD = '''"""A rule that breaks."""
from riglint.outcome import Basis, Grade
from riglint.rulebook.rule import rule
@rule(title="T", grade=Grade.NOTICE, guards="paper", basis=(Basis("derivation", "x"),))
def NAME(solution, limits):
'''


def copy(folder: Path) -> Path:
    return Path(shutil.copytree(COMPANY, folder / "company", ignore=shutil.ignore_patterns("__pycache__")))


def inspect_anew(company: Path) -> Inspection:
    plan = company / "plans" / f"{OVERDUE}.yaml"
    context = Contexts(today=AFTER).of(plan)
    return context.inspect(solve(context.load(plan.read_bytes(), plan.name).rig))


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_rule_is_untested_and_hides_nothing(tmp_path, name):
    company = copy(tmp_path)
    body = BROKEN[name]
    text = HEAD.replace("NAME", name) + body if body.startswith(" ") else body
    (company / "rulebook" / f"{name}.py").write_text(text)
    found = inspect_anew(company)
    [untested] = found.untested
    assert untested.rule == name.replace("_", "-")
    assert untested.reason
    assert "/" not in untested.reason, "a report shows no path of a machine"
    assert {f.rule for f in found.findings} == {"gear-overdue", "house-files"}
    assert found.verdict is Verdict.CANT_TELL
    assert code_of(found) is Exit.BROKEN


def test_a_listed_rule_that_is_not_there_is_untested(tmp_path):
    company = copy(tmp_path)
    manifest = company / "rulebook" / MANIFEST
    manifest.write_text(manifest.read_text() + "rules: [crew-damper, crew-spoter, crew-line-pull]\n")
    assert [o.rule for o in inspect_anew(company).untested] == ["crew-spoter"]


def test_a_waiver_does_not_make_a_broken_rule_good(tmp_path):
    company = copy(tmp_path)
    (company / "rulebook" / "crew_damper.py").write_text("1 / 0")
    house = company / "house.yaml"
    house.write_text(house.read_text().replace("set_aside:\n", "set_aside:\n  crew-damper: it is broken\n"))
    found = inspect_anew(company)
    assert [o.rule for o in found.untested] == ["crew-damper"]
    assert code_of(found) is Exit.BROKEN
