"""Every calculation with the numbers put in, rule by rule, what passed included."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Check, Result
from riglint.report.material import Inspected
from riglint.report.words import message, plain, sentence, working, wrapped

_RESULTS = {Result.PASSED: "passed", Result.FAILED: "FAILED", Result.CANT_TELL: "can't tell"}


def workings(inspected: Inspected) -> list[str]:
    """All outcomes' checks with their working."""
    lines = ["Workings:"]
    for outcome in inspected.inspection.outcomes:
        if outcome.checks:
            lines += ["", f"  {outcome.rule}: {outcome.title}"]
        for check in outcome.checks:
            lines += _check(check, inspected.system)
    return lines


def _check(check: Check, system: str) -> Iterator[str]:
    case = f", {check.where.case}" if check.where.case else ""
    text = sentence(message(check, system))
    name = plain(check.where.component)
    yield from wrapped(f"{_RESULTS[check.result]}: {name}{case}: {text}", "    ", "      ")
    for step in check.working:
        yield from wrapped(working(step, system), "        ", "          ")
