"""What a case makes its rule say, as the case itself holds it at its end: each check with its figures and working.

    # failed, WARNING: the brake must hold 23.5 kN; on layer 1 it holds 20 kN. use 1.173. ...
    #   use = ...

`python -m tests.rules.says tests/rules/<rule>/<case>.yaml ...` writes the lines anew. Read them before they are kept:
they are what somebody beside a loaded line would read, and each number can be gone over by hand.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator
from datetime import date
from functools import cache
from pathlib import Path

from riglint.kit.read import open_kit
from riglint.outcome import Check, Grade, Outcome, Result
from riglint.plan.load import LoadedPlan, load_plan
from riglint.report.numbers import figures, show
from riglint.report.words import fill, message, working, wrapped
from riglint.rulebook.book import Rulebook
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solve import solve

TODAY = date(2026, 6, 1)
WORDS = {Result.PASSED: "passed", Result.FAILED: "failed", Result.CANT_TELL: "can't tell"}
MARK = re.compile(r"#.*\b(failed|can't tell)\s*$")
MEANT = {word: result for result, word in WORDS.items()}


@cache
def book() -> Rulebook:
    return standard_rulebook()


@cache
def judged(path: Path) -> tuple[Outcome, LoadedPlan]:
    """What the rule that a case is for makes of it."""
    kit = path.parent / "kit" / "kit.yaml"
    loaded = load_plan(path.read_bytes(), path.name, (lambda _: open_kit(kit)) if kit.exists() else None, TODAY)
    slug = path.parent.name.replace("_", "-")
    rule = book().rule(slug)
    assert rule is not None
    return apply(rule, solve(loaded.rig), book().limits[slug]), loaded


def said(outcome: Outcome) -> list[str]:
    """Each check of an outcome in comment lines."""
    return [line for check in outcome.checks for line in _check(check, outcome.grade)]


def written(path: Path) -> list[str]:
    """The comment lines at the end of a case."""
    lines = path.read_text().rstrip("\n").split("\n")
    first = next(i for i in range(len(lines), 0, -1) if not lines[i - 1].startswith("#"))
    return lines[first:]


def points_at(outcome: Outcome, loaded: LoadedPlan) -> set[tuple[int, Result]]:
    """The lines of a plan that the findings of an outcome point at."""
    return {(loaded.document.key_position(f.check.where.pointer).line, f.result) for f in outcome.findings}


def marked(path: Path) -> set[tuple[int, Result]]:
    """The lines that a case says they do, in a comment at the end of each."""
    marks = ((n, MARK.search(line)) for n, line in enumerate(path.read_text().splitlines(), 1) if line[:1] != "#")
    return {(number, MEANT[mark[1]]) for number, mark in marks if mark}


def _check(check: Check, grade: Grade) -> Iterator[str]:
    head = WORDS[check.result]
    if check.result is not Result.PASSED:
        head += f", {(check.grade or grade).value}"
    parts = [f"{head}: {message(check)}".rstrip(": ")]
    where = check.where
    at = ", ".join(filter(None, (where.case, "" if where.travel_m is None else f"at {show(where.travel_m, 'm')}")))
    parts += [at] if at else []
    parts += [f"use {figures(check.use, 4)}"] if check.use is not None else []
    parts += [f"{check.measure} at a line pull of {show(check.pull_n, 'N')}"] if check.pull_n is not None else []
    parts += [f"lacks {', '.join(check.missing)}"] if check.missing else []
    parts += [fill(check.remedy, check)] if check.remedy else []
    yield from wrapped(". ".join(parts), "# ", "#   ", width=118)
    for step in check.working:
        yield from wrapped(working(step), "#     ", "#       ", width=118)


def _write(path: Path) -> None:
    outcome, _ = judged(path)
    lines = path.read_text().rstrip("\n").split("\n")
    kept = lines[: len(lines) - len(written(path))]
    path.write_text("\n".join([*kept, *said(outcome)]) + "\n")


if __name__ == "__main__":
    for name in sys.argv[1:]:
        _write(Path(name))
