"""What a review keeps of one plan: plain data that holds whatever any form of the report shows.

It says nothing of the plan's name or folder, so that it serves wherever the same plan stands.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import isclose
from typing import Any, Final, Literal

from riglint.mechanics.rounding import same, surpasses
from riglint.outcome import Basis, Changed, Check, Finding, Inspection, Outcome, Result, Unit, Value, Waiver
from riglint.plan.load import LoadedPlan
from riglint.reading.document import Document
from riglint.reading.problems import ReadingFailed
from riglint.report.figures import figure
from riglint.report.numbers import percent, show
from riglint.report.words import compared, fill, message, sentence
from riglint.review.fingerprint import Fingerprints
from riglint.review.sketch import sketch
from riglint.solve.solution import Solution

Record = dict[str, Any]
Verdict = Literal["clear", "not clear", "can't tell", "can't be read", "program failed", "no plan", "gone"]

CLEAR, HALTED, UNREADABLE, BROKEN = 0, 1, 3, 4
"""What a plan ends with, as exit codes."""
_WORTH_A_LINE: Final = 0.01


def reviewed(loaded: LoadedPlan, solution: Solution, inspection: Inspection) -> Record:
    """The record of a plan that was worked out and inspected."""
    made = _Maker(loaded, solution)
    outcomes = inspection.outcomes
    return bare(inspection.verdict.value) | {
        "title": solution.rig.title,
        "findings": [made.finding(finding) for finding in inspection.findings],
        "passed": _rules(outcomes, Result.PASSED),
        "inapplicable": _rules(outcomes, Result.INAPPLICABLE),
        "untested": [{"rule": o.rule, "reason": o.reason} for o in inspection.untested],
        "changed_limits": [_changed(one, made.system) for one in inspection.changed],
        "set_aside": [{"rule": one.rule, "reason": one.reason} for one in inspection.set_aside],
        "most_used": most_used(outcomes, made.system),
        "sketch": sketch(solution),
    }


def unread(failed: ReadingFailed, name: str, base: str = "") -> Record:
    """The record of a plan that can't be read; problems of another file, such as its kit, name that file.

    Names of files that begin with `base` are cut there: a report shows no machine's own paths.
    """

    def cut(text: str) -> str:
        return text.replace(f"{base}/", "") if base else text

    problems = [
        {
            "file": None if p.file == name else cut(p.file), "line": p.line, "column": p.column, "pointer": p.place,
            "what": cut(p.what), "serves": cut(p.serves),
        }
        for p in failed.problems
    ]  # fmt: skip
    return bare("can't be read") | {"problems": problems}


def unopened(reason: str) -> Record:
    """The record of a file that can't be opened."""
    return bare("can't be read") | {"reason": f"can't be opened: {reason}"}


def failed_on(error: Exception) -> Record:
    """The record of a plan that the program itself failed on."""
    words = " ".join(f"{type(error).__name__}: {error}".split())
    return bare("program failed") | {"reason": f"the program itself failed on it: {words}"}


def bare(verdict: str) -> Record:
    """A record with nothing in it yet."""
    return {
        "verdict": verdict, "title": "", "sha256": "", "findings": [], "passed": [], "inapplicable": [], "untested": [],
        "changed_limits": [], "set_aside": [], "most_used": None, "problems": [], "reason": "", "sketch": None,
    }  # fmt: skip


def code_of(record: Record) -> int:
    """What a plan with this record ends with."""
    if record["untested"]:
        return BROKEN
    codes = {"can't be read": UNREADABLE, "program failed": BROKEN, "clear": CLEAR, "no plan": CLEAR, "gone": CLEAR}
    return codes.get(record["verdict"], HALTED)


def most_used(outcomes: Iterable[Outcome], system: str) -> Record | None:
    """The component that is used most of what it may carry, by the gravest of its checks."""
    best: tuple[float, Check] | None = None
    for outcome in outcomes:
        for check in outcome.checks:
            use = check.use
            if use is None or use < _WORTH_A_LINE or not _carries(check, use):
                continue
            if best is None or surpasses(use, best[0]) or (same(use, best[0]) and check.where < best[1].where):
                best = use, check
    if best is None:
        return None
    measured, limit = compared(best[1], system)
    name = best[1].where.component
    return {"component": name, "use": figure(best[0]), "percent": percent(best[0]), "carries": measured, "may": limit}


def _carries(check: Check, use: float) -> bool:
    """Whether it compares a load with what gear may carry, and not what there is with what there must be."""
    measured, limit = check.measured, check.limit
    if check.where.kind == "load":  # two ways of reckoning what it resists with
        return False
    return check.unit == "N" and measured is not None and bool(limit) and isclose(use, measured / (limit or 1.0))


class _Maker:
    """Makes entries of findings, each place of the plan looked up once."""

    def __init__(self, loaded: LoadedPlan, solution: Solution) -> None:
        self.document: Document = loaded.document
        self.system = solution.rig.reports_in
        self.stages = [stage.stage.name for stage in solution.stages]
        self._fingerprints = Fingerprints(self.document.data)
        self._regions: dict[str, list[int]] = {}

    def finding(self, finding: Finding) -> Record:
        check, where = finding.check, finding.check.where
        stage = self.stages[where.stage] if where.stage < len(self.stages) else ""
        return {
            "rule": finding.rule,
            "title": finding.title,
            "grade": finding.grade.value,
            "result": finding.result.value,
            "message": sentence(message(check, self.system)),
            "remedy": sentence(fill(check.remedy, check, self.system)) if check.remedy else "",
            "kind": where.kind,
            "component": where.component,
            "pointer": where.pointer,
            "region": self._region(where.pointer),
            "related": [{"note": n, "pointer": p, "region": self._region(p)} for p, n in where.related],
            "case": where.case,
            "stage": stage if len(self.stages) > 1 else "",
            "travel_m": figure(where.travel_m),
            "measured": figure(check.measured),
            "limit": figure(check.limit),
            "unit": check.unit,
            "use": figure(check.use),
            "missing": list(check.missing),
            "basis": _basis(check.basis) if check.basis else None,
            "waived": _waiver(finding.waived) if finding.waived else None,
            "fingerprint": self._fingerprints.of(finding, stage),
        }

    def _region(self, pointer: str) -> list[int]:
        """Line and column of its begin and end, 1-based, the end one past."""
        region = self._regions.get(pointer)
        if region is None:
            at = self.document.key_position(pointer)
            region = self._regions[pointer] = [at.line, at.column, at.end_line, at.end_column]
        return region


def _rules(outcomes: Iterable[Outcome], result: Result) -> list[str]:
    return [outcome.rule for outcome in outcomes if outcome.result is result]


def _basis(basis: Basis) -> Record:
    return {"source": basis.source, "locator": basis.locator, "claim": basis.claim, "kind": basis.kind}


def _waiver(waiver: Waiver) -> Record:
    return {"reason": waiver.reason, "allowed_by": waiver.allowed_by, "until": waiver.until}


def _changed(one: Changed, system: str) -> Record:
    def shown(value: Value, unit: Unit) -> str:
        return show(value.si, unit, system)

    return {
        "rule": one.rule, "limit": one.limit, "own": shown(one.standard, one.standard.unit),
        "set_to": shown(one.value, one.value.unit), "set_by": one.set_by, "milder": one.milder,
    }  # fmt: skip
