"""The main job: each plan read, solved, inspected and reported, all of them whatever becomes of one."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from riglint.commands.exits import Exit, gravest, of
from riglint.commands.output import complain, emit, ink
from riglint.house.context import Context, Contexts
from riglint.outcome import Grade
from riglint.reading.problems import ReadingFailed
from riglint.report.material import Inspected
from riglint.rulebook.book import RulebookError
from riglint.solve.solve import solve

if TYPE_CHECKING:
    from riglint.commands.put_right import Extra


class Call(NamedTuple):
    """What the user asked for."""

    plans: tuple[str, ...]
    form: str = "text"
    workings: bool = False
    halt_at: Grade = Grade.WARNING
    rulebooks: tuple[Path, ...] = ()
    name: str = "-"
    colour: str = "auto"
    house: Path | None = None
    kit: Path | None = None
    day: date | None = None  # of the pull
    remedies: bool = False
    headroom: bool = False
    write: int | None = None  # the number of the remedy to write into the plan


class UnopenedError(Exception):
    """A plan's file that can't be opened or read."""


class Told(NamedTuple):
    """What became of one plan: exactly one of the three last."""

    file: str
    code: Exit
    inspected: Inspected | None = None
    unread: ReadingFailed | None = None
    broke: str = ""
    extra: Extra | None = None


def prepull(call: Call) -> Exit:
    """Report on every plan and give the code to end with."""
    contexts = Contexts(call.rulebooks, call.house, call.kit, call.day)
    told = _tell(call, contexts)
    try:
        if call.write is not None and not _written(call, contexts):
            return Exit.WRONG_CALL
        return _as_json(told) if call.form == "json" else _as_text(told, call)
    except RulebookError as error:
        return complain(str(error), Exit.WRONG_CALL)


def _written(call: Call, contexts: Contexts) -> bool:
    """Write the remedy that was asked for; what is reported then is the plan as it has become."""
    from riglint.commands.put_right import CannotEdit, put_right  # noqa: PLC0415 -- only where it was asked for

    if len(call.plans) != 1 or call.plans[0] == "-":
        complain("--write changes one plan in its own file: name one", Exit.WRONG_CALL)
        return False
    [file] = call.plans
    try:
        inspected, context = _worked_out(file, _bytes(file), call.halt_at, contexts)
        done = put_right(Path(file), inspected, context, call.write or 0)
    except (ReadingFailed, UnopenedError):
        return True  # the report says what is wrong
    except (CannotEdit, OSError) as error:
        complain(f"{file}: nothing was written: {error}", Exit.WRONG_CALL)
        return False
    if call.form == "text":
        emit(f"Written into {file}: {done}.\n\n")
    return True


def _tell(call: Call, contexts: Contexts) -> Iterator[Told]:
    for plan in call.plans:
        file = call.name if plan == "-" else plan
        try:
            text = sys.stdin.buffer.read() if plan == "-" else _bytes(plan)
            yield _inspected(file, text, call, contexts)
        except RulebookError:  # the user named it, so it is no fault of this plan
            raise
        except ReadingFailed as failed:
            yield Told(file, Exit.UNREADABLE, unread=failed)
        except UnopenedError as error:
            yield Told(file, Exit.UNREADABLE, broke=str(error))
        except Exception as error:  # one plan that breaks the program must not hide the others' reports
            words = " ".join(f"{type(error).__name__}: {error}".split())
            yield Told(file, Exit.BROKEN, broke=f"the program itself failed on it: {words}")


def _bytes(plan: str) -> bytes:
    try:
        return Path(plan).read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise UnopenedError(f"can't be opened: {reason}") from None


def _inspected(file: str, text: bytes, call: Call, contexts: Contexts) -> Told:
    inspected, context = _worked_out(file, text, call.halt_at, contexts)
    extra: Extra | None = None
    if call.remedies or call.headroom:
        from riglint.commands.put_right import extra_of  # noqa: PLC0415 -- only where it was asked for

        extra = extra_of(inspected, context, with_remedies=call.remedies, with_headroom=call.headroom)
    return Told(file, of(inspected.inspection), inspected, extra=extra)


def _worked_out(file: str, text: bytes, halt_at: Grade, contexts: Contexts) -> tuple[Inspected, Context]:
    context = contexts.of(None if file == "-" else Path(file))
    loaded = context.load(text, file)
    solution = solve(loaded.rig)
    inspection = context.inspect(solution, halt_at)
    book, sources = context.rulebook, context.sources
    return Inspected(file, loaded.document, solution, inspection, book, sources), context


def _as_text(told: Iterator[Told], call: Call) -> Exit:
    from riglint.report import text  # noqa: PLC0415 -- only the form that was asked for is loaded

    codes: list[Exit] = []
    for one in told:
        if codes:
            emit("\n" + "=" * 72 + "\n\n")
        codes.append(one.code)
        if one.inspected:
            further = one.extra.lines(one.inspected) if one.extra else []
            emit(text.report(one.inspected, ink(call.colour), with_workings=call.workings, further=further))
        elif one.unread:
            emit(text.unread(one.file, one.unread))
        else:
            complain(f"{one.file}: {one.broke}", one.code)
    return gravest(codes)


def _as_json(told: Iterator[Told]) -> Exit:
    from riglint.report import json_report  # noqa: PLC0415 -- only the form that was asked for is loaded

    codes, entries = [], []
    for one in told:
        codes.append(one.code)
        if one.inspected:
            further = one.extra.entries(one.inspected) if one.extra else {}
            entries.append(json_report.report(one.inspected) | further)
        elif one.unread:
            entries.append(json_report.unread(one.file, one.unread))
        else:
            entries.append(json_report.broke(one.file, one.broke))
            complain(f"{one.file}: {one.broke}", one.code)
    emit(json_report.document(entries))
    return gravest(codes)
