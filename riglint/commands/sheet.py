"""The command `sheet`: one plan as a page to take to the rig, tick and sign."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import NamedTuple

from riglint.commands.exits import Exit, of
from riglint.commands.output import complain, emit
from riglint.commands.put_right import extra_of
from riglint.house.context import Context, Contexts
from riglint.outcome import Grade
from riglint.reading.problems import ReadingFailed
from riglint.report.material import Inspected
from riglint.rulebook.book import RulebookError
from riglint.sheet.page import sheet
from riglint.solve.solve import solve


class Call(NamedTuple):
    """What the user asked for."""

    plan: str
    out: Path | None = None  # None: standard output
    halt_at: Grade = Grade.WARNING
    rulebooks: tuple[Path, ...] = ()
    name: str = "-"
    house: Path | None = None
    kit: Path | None = None
    day: date | None = None  # of the pull


def run(call: Call) -> Exit:
    """Write the sheet and give the code to end with: the sheet of a plan that halts is written all the same."""
    try:
        source = sys.stdin.buffer.read() if call.plan == "-" else Path(call.plan).read_bytes()
        inspected, context = _inspected(call, source)
        tried = extra_of(inspected, context, with_remedies=True, with_headroom=False).remedies
        _write(sheet(inspected, source, tried), call.out)
    except ReadingFailed as failed:
        return complain(str(failed), Exit.UNREADABLE)
    except RulebookError as error:
        return complain(str(error), Exit.WRONG_CALL)
    except OSError as error:
        return complain(f"{error.filename or call.plan}: {error.strerror or error}", Exit.UNREADABLE)
    return of(inspected.inspection)


def _inspected(call: Call, source: bytes) -> tuple[Inspected, Context]:
    piped = call.plan == "-"
    contexts = Contexts(call.rulebooks, call.house, call.kit, call.day)
    context = contexts.of(None if piped else Path(call.plan))
    file = call.name if piped else call.plan
    loaded = context.load(source, file)
    solution = solve(loaded.rig)
    inspection = context.inspect(solution, call.halt_at)
    return Inspected(file, loaded.document, solution, inspection, context.rulebook, context.sources), context


def _write(page: str, out: Path | None) -> None:
    if out is None or str(out) == "-":
        emit(page)
    else:
        out.write_text(page, encoding="utf-8")
