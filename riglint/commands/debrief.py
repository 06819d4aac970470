"""Feedback that teaches: one plan's debrief, or the table of a class."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Literal, NamedTuple

from riglint.commands.day import today as today_by_the_clock
from riglint.commands.exits import Exit
from riglint.commands.output import complain, emit
from riglint.debrief.classroom import Classroom, classroom
from riglint.debrief.handed import Handed, hand_in, plans_in
from riglint.house.context import Contexts
from riglint.kit.find import KitRefused, kit_file
from riglint.reading.problems import ReadingFailed
from riglint.rulebook.book import RulebookError
from riglint.rulebook.find import rulebooks

if TYPE_CHECKING:
    from datetime import date

    from riglint.debrief.lessons import Level
    from riglint.debrief.task import Task
    from riglint.reading.document import Document
    from riglint.reading.problems import Problem


class DebriefCall(NamedTuple):
    """What the user asked for. `form` is text, html or csv."""

    paths: tuple[Path, ...]
    hints: Level = 1
    model: Path | None = None
    brief: Path | None = None
    form: Literal["text", "html", "csv"] = "text"
    out: Path | None = None
    kit: Path | None = None
    house: Path | None = None
    rulebooks: tuple[Path, ...] = ()
    today: date | None = None


class _Given(NamedTuple):
    task: Task | None
    model: Path | None
    kit: Path | None


def run(call: DebriefCall) -> Exit:
    """Debrief, write it, and give the code to end with."""
    try:
        given = _given(call)
        today = call.today or (given.task and given.task.day) or today_by_the_clock()
        contexts = Contexts(call.rulebooks, call.house, given.kit, today)
        files, is_class = plans_in(call.paths, (call.brief, given.model, given.kit))
        if not files:
            return complain("no plan was found there", Exit.WRONG_CALL)
        model = hand_in(given.model, contexts) if given.model else None
        if model and model.inspected is None:
            raise _unread(model)
        room = classroom((hand_in(file, contexts) for file in files), model, given.task)
        _write(_form(room, call, is_class=is_class), call.out)
    except ReadingFailed as failed:
        return complain(str(failed), Exit.UNREADABLE)
    except (RulebookError, _Broke) as error:
        return complain(str(error), Exit.BROKEN if isinstance(error, _Broke) else Exit.WRONG_CALL)
    except OSError as error:
        return complain(f"{error.filename}: {error.strerror or error}", Exit.WRONG_CALL)
    return _code(room)


class _Broke(Exception):
    """The model plan broke the program."""


def _unread(model: Handed) -> Exception:
    return model.unread or _Broke(f"the model plan {model.file}: {model.broke}")


def _given(call: DebriefCall) -> _Given:
    """The task, and the model plan and kit that the user names, or else the task."""
    if call.brief is None:
        return _Given(None, call.model, call.kit)
    from riglint.debrief.marks import unknown_rules  # noqa: PLC0415 -- only with a task
    from riglint.debrief.task import Task  # noqa: PLC0415
    from riglint.kit.read import opened  # noqa: PLC0415
    from riglint.plan.sound import read_sound  # noqa: PLC0415

    read = read_sound(Task, opened(call.brief, "name a task that is there"), str(call.brief))
    further: list[Problem] = []
    model, kit = call.model, call.kit
    if read.left:
        further += unknown_rules(read.document, read.left, rulebooks(call.rulebooks))
        model = model or _named(read.left.model, "model", call.brief.parent, read.document, further)
        kit = kit or _named(read.left.kit, "kit", call.brief.parent, read.document, further)
    return _Given(read.whole(further), model, kit)


def _named(name: str | None, key: str, folder: Path, document: Document, problems: list[Problem]) -> Path | None:
    """A file that the task names, below the task's own folder; what is wrong with it is added to the problems."""
    if name is None:
        return None
    try:
        return kit_file(name, [folder])
    except KitRefused as refused:
        found = refused.found.replace("the kit", f"the {key}").replace("no kit", f"no {key}")
        serves = "write the file from the task's folder on"
        problems.append(document.problem(f"/{key}", found, serves))
        return None


def _form(room: Classroom, call: DebriefCall, *, is_class: bool) -> str:
    """Only the form that was asked for is loaded."""
    if call.form == "csv":
        from riglint.debrief.sheet import as_csv  # noqa: PLC0415

        return as_csv(room)
    if call.form == "html":
        from riglint.debrief.page import class_page, one_page  # noqa: PLC0415

        alone = not is_class and len(room.debriefs) == 1
        return one_page(room.debriefs[0], call.hints) if alone else class_page(room, call.hints)
    from riglint.debrief.text import report, table  # noqa: PLC0415

    if is_class:
        return table(room)
    return ("\n" + "=" * 72 + "\n\n").join(report(one, call.hints) for one in room.debriefs)


def _write(text: str, out: Path | None) -> None:
    if out is None:
        emit(text)
        return
    from riglint.review.whole_file import whole_file  # noqa: PLC0415 -- only where a file is wanted

    with whole_file(out) as stream:
        stream.write(text.encode("utf-8", "backslashreplace"))


def _code(room: Classroom) -> Exit:
    """Findings are what a debrief is for, so they are no failure of it."""
    if any(one.handed.failed for one in room.debriefs):
        return Exit.BROKEN
    return Exit.UNREADABLE if any(one.handed.inspected is None for one in room.debriefs) else Exit.CLEAR
