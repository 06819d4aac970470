"""Inspecting a solution by a rulebook: outcomes, findings and the verdict.

A rule that breaks is untested, with its reason, and hides nothing of the others.
"""

from __future__ import annotations

from riglint.outcome import Check, Finding, Grade, Inspection, Outcome, Result, Verdict
from riglint.rulebook.book import Broken, Rulebook
from riglint.rulebook.limits import Limits
from riglint.rulebook.once import once
from riglint.rulebook.rule import Rule
from riglint.solve.kept import keeping
from riglint.solve.solution import Solution

_FAILED, _CANT_TELL, _PASSED = Result.FAILED, Result.CANT_TELL, Result.PASSED


def inspect(solution: Solution, rulebook: Rulebook, halting: Grade = Grade.WARNING) -> Inspection:
    """Everything that the rules find; `halting` is the mildest grade that makes a verdict not clear."""
    with keeping():
        outcomes = [apply(rule, solution, rulebook.limits[rule.slug]) for rule in rulebook.rules]
    outcomes += map(_untested, rulebook.broken)
    outcomes.sort(key=lambda o: o.rule)
    findings = sorted((f for o in outcomes for f in o.findings), key=lambda f: f.order)
    found = verdict(solution, outcomes, findings, halting)
    return Inspection(tuple(outcomes), tuple(findings), found, halting, rulebook.changed)


def apply(rule: Rule, solution: Solution, limits: Limits) -> Outcome:
    """What one rule finds."""
    try:
        found = rule.check(solution, limits)
        checks = tuple(once(solution, found) if rule.once else found)
        result = _result(checks)
    except (Exception, SystemExit) as error:  # whatever a rule does, the others must still be heard
        return Outcome(rule.slug, rule.title, rule.grade, Result.UNTESTED, reason=_reason(error, rule.file))
    if result is _PASSED or not checks:
        return Outcome(rule.slug, rule.title, rule.grade, result, checks)
    findings = tuple([_finding(rule, c) for c in checks if c.result is not _PASSED])
    return Outcome(rule.slug, rule.title, rule.grade, result, checks, findings)


def verdict(solution: Solution, outcomes: list[Outcome], findings: list[Finding], halting: Grade) -> Verdict:
    """Not clear if anything failed at or above the halting grade; can't tell if anything there can't be told.

    Nor can it be told where a rule broke, a stage could not be worked out, or no rule checked anything.
    """
    grave = {f.result for f in findings if f.grade.at_least(halting)}
    if _FAILED in grave:
        return Verdict.NOT_CLEAR
    untold = any(o.result is Result.UNTESTED for o in outcomes) or any(s.refused for s in solution.stages)
    if grave or untold or not any(o.checks for o in outcomes):
        return Verdict.CANT_TELL
    return Verdict.CLEAR


def _result(checks: tuple[Check, ...]) -> Result:
    """The gravest of the checks' results. Raises TypeError for what is no check, or has no result of one."""
    gravest = _PASSED if checks else Result.INAPPLICABLE
    for check in checks:
        if type(check) is not Check:
            raise TypeError(f"it yielded {type(check).__name__!r}, not a Check")
        result = check.result
        if result is _FAILED:
            gravest = _FAILED
        elif result is _CANT_TELL:
            gravest = gravest if gravest is _FAILED else _CANT_TELL
        elif result is not _PASSED:
            raise TypeError(f"it yielded a check with the result {result!r}")
    return gravest


def _finding(rule: Rule, check: Check) -> Finding:
    basis = (check.basis,) if check.basis else rule.basis
    return Finding(rule.slug, rule.title, check.grade or rule.grade, check.result, check, basis)


def _untested(broken: Broken) -> Outcome:
    return Outcome(broken.slug, broken.slug, Grade.DANGER, Result.UNTESTED, reason=broken.reason)


def _reason(error: BaseException, file: str) -> str:
    """What broke, and the line of the rule's own file where; no path, so that reports agree between machines."""
    line, trace = 0, error.__traceback__
    while trace:
        if trace.tb_frame.f_code.co_filename == file:
            line = trace.tb_lineno
        trace = trace.tb_next
    words = " ".join(str(error).split())
    return f"{type(error).__name__}: {words}" + (f" (line {line} of the rule)" if line else "")
