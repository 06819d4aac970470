"""The report for machines: follows schemas/report.schema.json. Figures in SI, as `figures` writes them.

The same plans, rulebooks and program give the same bytes on every machine: keys are sorted, lists are in a
total order, and nothing of the machine or the day gets in.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from riglint.outcome import Basis, Changed, Check, Finding, Outcome, Result, Step, Value, Waiver, Where
from riglint.reading.problems import ReadingFailed
from riglint.report.figures import figure
from riglint.report.material import Inspected, todos
from riglint.report.summary import Gives, Summary, summaries
from riglint.report.words import fill, message
from riglint.rulebook.sources import citation
from riglint.solve.first_to_give import Break
from riglint.solve.solution import CASES, StageSolution, Station
from riglint.version import VERSION

Entry = dict[str, Any]


def document(plans: Iterable[Entry]) -> str:
    """The whole report: one entry a plan, in the order given."""
    whole = {"report": 1, "program": {"name": "riglint", "version": VERSION}, "plans": list(plans)}
    return json.dumps(whole, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False) + "\n"


def unread(file: str, failed: ReadingFailed) -> Entry:
    """A plan that can't be read."""
    problems = [
        {"file": p.file, "line": p.line, "column": p.column, "pointer": p.place, "what": p.what, "serves": p.serves}
        for p in failed.problems
    ]
    return {"file": file, "verdict": "can't be read", "problems": problems}


def broke(file: str, reason: str) -> Entry:
    """A plan that could not be opened, or that the program failed on."""
    return {"file": file, "verdict": "can't be read", "reason": reason}


def report(inspected: Inspected) -> Entry:
    """One plan that was inspected."""
    inspection, stages = inspected.inspection, inspected.solution.stages
    told = summaries(stages, inspection)
    return found(inspected) | {
        "outcomes": [_outcome(outcome, inspected) for outcome in inspection.outcomes],
        "stages": [_stage(stage, summary) for stage, summary in zip(stages, told, strict=True)],
    }


def found(inspected: Inspected) -> Entry:
    """Of a report what was found, without each rule's outcome and each stage's figures."""
    inspection, solution = inspected.inspection, inspected.solution
    return {
        "file": inspected.file,
        "title": solution.rig.title,
        "reports_in": inspected.system,
        "day": solution.rig.day,
        "verdict": inspection.verdict.value,
        "halting_grade": inspection.halting.value,
        "rulebooks": [{"name": o.name, "title": o.title, "version": o.version} for o in inspected.rulebook.origins],
        "changed_limits": [_changed(one) for one in inspection.changed],
        "set_aside": [
            {"rule": one.rule, "reason": one.reason, "allowed_by": one.allowed_by} for one in inspection.set_aside
        ],
        "findings": [_finding(finding, inspected) for finding in inspection.findings],
        "to_find_out": _to_do(inspected),
    }


def _finding(finding: Finding, inspected: Inspected) -> Entry:
    return {
        "rule": finding.rule,
        "title": finding.title,
        "grade": finding.grade.value,
        "result": finding.result.value,
        "check": _check(finding.check, inspected),
        "basis": [_basis(basis, inspected) for basis in finding.basis],
        "waived": _waived(finding.waived),
    }


def _waived(waiver: Waiver | None) -> Entry | None:
    if waiver is None:
        return None
    return {"allowed_by": waiver.allowed_by, "until": waiver.until, "reason": waiver.reason}


def _outcome(outcome: Outcome, inspected: Inspected) -> Entry:
    return {
        "rule": outcome.rule,
        "title": outcome.title,
        "grade": outcome.grade.value,
        "result": outcome.result.value,
        "reason": outcome.reason,
        "checks": [_check(check, inspected) for check in outcome.checks],
    }


def _check(check: Check, inspected: Inspected) -> Entry:
    return {
        "result": check.result.value,
        "grade": check.grade.value if check.grade else None,
        "where": _where(check.where, inspected),
        "message": message(check, inspected.system),
        "remedy": fill(check.remedy, check, inspected.system),
        "measured": figure(check.measured),
        "limit": figure(check.limit),
        "unit": check.unit,
        "measure": check.measure,
        "use": figure(check.use),
        "line_pull_n": figure(check.pull_n),
        "missing": list(check.missing),
        "working": [_step(step) for step in check.working],
    }


def _where(where: Where, inspected: Inspected) -> Entry:
    return {
        "kind": where.kind,
        "name": where.name,
        "case": where.case,
        "stage": where.stage,
        "travel_m": figure(where.travel_m),
        **_region(where.pointer, inspected),
        "related": [{"note": note, **_region(pointer, inspected)} for pointer, note in where.related],
    }


def _region(pointer: str, inspected: Inspected) -> Entry:
    at = inspected.document.key_position(pointer)
    return {
        "pointer": pointer, "line": at.line, "column": at.column,
        "end_line": at.end_line, "end_column": at.end_column,
    }  # fmt: skip


def _step(step: Step) -> Entry:
    formula = step.formula
    return {
        "symbol": formula.symbol,
        "expression": formula.expression,
        "terms": [
            {"name": name, **_value(Value(number, unit))}
            for (name, unit), number in zip(formula.terms, step.numbers, strict=True)
        ],
        "result": _value(Value(step.result, formula.unit)),
    }


def _value(value: Value) -> Entry:
    return {"value": figure(value.si), "unit": value.unit}


def _basis(basis: Basis, inspected: Inspected) -> Entry:
    return {
        "kind": basis.kind, "claim": basis.claim, "source": basis.source, "locator": basis.locator,
        "scope": basis.scope, "trust": basis.trust, "citation": citation(basis, inspected.sources),
    }  # fmt: skip


def _changed(one: Changed) -> Entry:
    return {
        "rule": one.rule, "limit": one.limit, "says": one.says, "own": _value(one.standard),
        "set_to": _value(one.value), "set_by": one.set_by, "milder": one.milder,
    }  # fmt: skip


def _to_do(inspected: Inspected) -> list[Entry]:
    texts = {
        index: message(finding.check, inspected.system)
        for index, finding in enumerate(inspected.inspection.findings)
        if finding.result is Result.CANT_TELL and not finding.check.missing
    }
    return [
        {"grade": todo.grade.value, "what": todo.what, "pointer": todo.pointer, "rules": list(todo.rules)}
        for todo in todos(inspected, texts)
    ]


def _stage(stage: StageSolution, summary: Summary) -> Entry:
    return {
        "name": summary.name,
        "refused": summary.refused,
        "parts": summary.parts,
        "line_needed_m": figure(summary.line_needed_m),
        "line_m": None if summary.line_m is None else [figure(m) for m in summary.line_m],
        "line_pull_needed_n": figure(summary.line_pull_n),
        "stall_pull_n": figure(summary.stall_n),
        "worst_anchors": [
            {"point": a.name, "load_n": figure(a.load_n), "case": a.case, "travel_m": figure(a.travel_m)}
            for a in summary.anchors
        ],
        "first_past_its_load": _gives(summary.gives),
        "not_counted": list(summary.not_counted),
        "first_to_break": _breaks(summary.breaks),
        "flies": None if summary.flies is None else {
            "direction": [figure(x) for x in summary.flies.direction], "toward": summary.flies.toward,
        },
        "stop_at_line_pull_n": figure(summary.stop_n),
        "stations": [_station(station, stage) for station in stage.stations],
    }  # fmt: skip


def _gives(gives: Gives | None) -> Entry | None:
    if gives is None:
        return None
    where = gives.check.where
    return {"kind": where.kind, "name": where.name, "line_pull_n": figure(gives.pull_n)}


def _breaks(breaks: Break | None) -> Entry | None:
    if breaks is None:
        return None
    return {
        "kind": breaks.component.kind, "name": breaks.component.name, "line_pull_n": figure(breaks.pull_n),
        "strength_n": figure(breaks.strength_n), "not_stated_for": len(breaks.unknown),
    }  # fmt: skip


def _station(station: Station, stage: StageSolution) -> Entry:
    drum = station.drum
    return {
        "travel_m": figure(station.travel_m),
        "title": station.title,
        "events": [{"kind": e.kind, "travel_m": figure(e.travel_m), "text": e.text} for e in station.events],
        "line_pull_n": figure(station.line_pull_n),
        "line_pull_most_n": figure(station.line_pull_most_n),
        "wraps": None if drum is None else [figure(drum.wraps.low), figure(drum.wraps.high)],
        "layer": None if drum is None else list(drum.layer),
        "loads": [
            {"kind": c.kind, "name": c.name, **{f"{case}_n": figure(station.load(c, case)) for case in CASES}}
            for c in sorted(stage.components, key=lambda c: c.key)
        ],
    }
