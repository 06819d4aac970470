"""Drawing a plan: read, solved, inspected, and written as an SVG."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import NamedTuple

from riglint.commands.exits import Exit
from riglint.commands.output import complain, emit
from riglint.house.context import Contexts
from riglint.picture.draw import draw
from riglint.picture.stops import NoSuchPlaceError
from riglint.reading.problems import ReadingFailed
from riglint.rulebook.book import RulebookError
from riglint.solve.solution import Solution
from riglint.solve.solve import solve


class Call(NamedTuple):
    """What the user asked for."""

    plan: str
    out: Path | None  # None: standard output
    stage: str
    station: str
    rulebooks: tuple[Path, ...]
    house: Path | None = None
    kit: Path | None = None
    day: date | None = None  # of the pull


class NoSuchStageError(ValueError):
    """A stage that the plan does not have."""


def run(call: Call) -> Exit:
    """Draw the plan and give the code to end with. What the rules found is in the picture, not in the code."""
    try:
        plan = None if call.plan == "-" else Path(call.plan)
        context = Contexts(call.rulebooks, call.house, call.kit, call.day).of(plan)
        text = sys.stdin.buffer.read() if call.plan == "-" else Path(call.plan).read_bytes()
        solution = solve(context.load(text, call.plan).rig)
        stage = _stage(solution, call.stage)
        inspection = context.inspect(solution)
        _write(draw(solution, stage, call.station, inspection), call.out)
    except ReadingFailed as failed:
        return complain(str(failed), Exit.UNREADABLE)
    except (RulebookError, NoSuchPlaceError, NoSuchStageError) as error:
        return complain(str(error), Exit.WRONG_CALL)
    except OSError as error:
        return complain(f"{error.filename or call.plan}: {error.strerror or error}", Exit.UNREADABLE)
    if inspection.untested:
        broken = ", ".join(outcome.rule for outcome in inspection.untested)
        return complain(f"drawn without what these rules would say, for they failed: {broken}", Exit.BROKEN)
    return Exit.CLEAR


def _stage(solution: Solution, asked: str) -> int:
    """By number from 1, or by name."""
    names = [stage.stage.name for stage in solution.stages]
    if asked in names:
        return names.index(asked)
    if asked.isdecimal() and 1 <= int(asked) <= len(names):
        return int(asked) - 1
    known = ", ".join(f"{i} `{name}`" for i, name in enumerate(names, start=1))
    raise NoSuchStageError(f"there is no stage `{asked}`; there is {known}")


def _write(svg: str, out: Path | None) -> None:
    if out is None or str(out) == "-":
        emit(svg)
    else:
        out.write_text(svg, encoding="utf-8")
