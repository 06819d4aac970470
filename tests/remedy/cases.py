"""Plans worked out, and remedies held to what they say by other means than those that found them."""

from collections import Counter
from datetime import date
from functools import cache
from pathlib import Path
from typing import NamedTuple

from riglint.commands.put_right import engine_of
from riglint.house.context import Contexts
from riglint.outcome import Finding, Grade, Inspection, Result
from riglint.plan.load import LoadedPlan
from riglint.remedy.model import Remedy
from riglint.remedy.remedies import remedies
from riglint.remedy.text import rewritten
from riglint.remedy.workshop import Engine, plain_engine
from riglint.rulebook.find import standard_rulebook
from riglint.solve.solution import Solution
from riglint.solve.solve import solve
from tests.remedy.needs import met

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = date(2026, 12, 20)  # a waiver of the company has run out
BOOK = standard_rulebook()
PLAIN = plain_engine(BOOK)


class Case(NamedTuple):
    """One plan, inspected."""

    loaded: LoadedPlan
    solution: Solution
    inspection: Inspection
    engine: Engine

    @property
    def document(self):
        return self.loaded.document

    def remedies(self, most=30):
        return _remedies(self.document.text, self)[0] if most == 30 else self.afresh(most)

    def afresh(self, most=30):
        """Worked out, whether they were already or not."""
        return remedies(self.document, self.solution, self.inspection, self.engine, most=most)

    def of(self, rule, **kwargs):
        """The remedies for the findings of one rule."""
        return [r for r in self.remedies(**kwargs) if self.inspection.findings[r.finding].rule == rule]


_FOUND: dict = {}


def _remedies(text, case):
    """Once for each plan and engine; the case is kept, so that its engine's place in memory stays its own."""
    key = (text, id(case.engine))
    if key not in _FOUND:
        _FOUND[key] = (case.afresh(), case)
    return _FOUND[key]


def forget() -> None:
    """Long runs don't need what they found for plans that are done with."""
    _FOUND.clear()


def worked_out(text, engine=None) -> Case:
    engine = engine or PLAIN
    loaded = engine.load(text, "plan.yaml")
    solution = solve(loaded.rig)
    return Case(loaded, solution, engine.inspect(solution, Grade.WARNING), engine)


@cache
def example(name: str) -> Case:
    """By its place below the examples, with the house file and kit that stand beside it."""
    file = EXAMPLES / f"{name}.yaml"
    folder = EXAMPLES / name.partition("/")[0]
    kit = folder / "kit.yaml" if folder.is_dir() else None
    engine = engine_of(Contexts(kit=kit, today=DAY).of(file)) if kit else PLAIN
    return worked_out(file.read_text(), engine)


def changed(case: Case, remedy: Remedy) -> Case:
    """The plan after the remedy, by its text; after a need by what its words ask for, to the last digit."""
    text = rewritten(case.document, remedy.patch) if remedy.patch else met(case, remedy)
    return worked_out(text, case.engine)


def does_what_it_says(case: Case, remedy: Remedy) -> None:
    """Apply a remedy to the text, inspect again, and hold it to all that it says."""
    old = case.inspection.findings[remedy.finding]
    assert old.result is Result.FAILED
    after = changed(case, remedy)
    before, now = _counted(case.inspection), _counted(after.inspection)
    assert now[_name(old)] < before[_name(old)], "the finding is still there"
    fresh = [f for f in after.inspection.findings if now[_name(f)] > before[_name(f)]]
    told = {(f.rule, f.grade, f.check.where.name) for f in remedy.brings}
    for finding in fresh:
        assert not finding.grade.at_least(old.grade), f"it brings {finding.rule}, {finding.grade}"
        assert (finding.rule, finding.grade, finding.check.where.name) in told
    _no_worse(case, after, old)
    if not remedy.patch and "needed" in dict(remedy.terms):
        more = worked_out(met(case, remedy, times=1.2), case.engine)
        still, was = (Counter(map(_told, one.inspection.findings))[_told(old)] for one in (more, case))
        assert still < was, "at least so much, and more doesn't do"
    assert after.inspection.verdict is remedy.verdict
    for index in remedy.clears:
        other = case.inspection.findings[index]
        assert now[_name(other)] < before[_name(other)]
    figures = {figure.what: figure for figure in remedy.figures}
    if "parts" in figures:
        assert figures["parts"].after == after.solution.stages[old.check.where.stage].parts
    if "use" in figures and figures["use"].after is not None:
        assert figures["use"].after <= 1 + 1e-9 < figures["use"].before


def _no_worse(case: Case, after: Case, old: Finding) -> None:
    """No failure as grave as the one put right is graver than the worst of its kind was, or farther over its limit."""
    for finding in after.inspection.findings:
        if finding.result is not Result.FAILED or not finding.grade.at_least(old.grade) or not finding.check.use:
            continue
        alike = [f for f in case.inspection.findings if _name(f) == _name(finding) and f.check.use]
        assert any(f.grade.at_least(finding.grade) for f in alike)
        if all(f.grade is finding.grade for f in alike):
            assert finding.check.use <= max(f.check.use for f in alike) * 1.01


def _name(finding: Finding):
    where = finding.check.where
    return finding.rule, where.kind, where.name, where.case, where.stage


def _told(finding: Finding):
    """Several ropes may be bent over one seat."""
    return (*_name(finding), *(text for _, text in finding.check.terms if isinstance(text, str)))


def _counted(inspection: Inspection) -> Counter:
    return Counter(map(_name, inspection.findings))
