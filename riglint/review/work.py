"""One plan of a review, from its bytes to its part of the report. Runs in any process; keeps nothing between plans
but what is read once: rulebooks, house files and kits.
"""

from __future__ import annotations

import os
import stat
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from riglint.house.context import Context, Contexts
from riglint.outcome import Grade
from riglint.reading.problems import ReadingFailed
from riglint.report.review_forms import FORMS
from riglint.report.reviewed import Head, Reviewed, head
from riglint.review.cache import Cache
from riglint.review.gather import is_plan, is_yaml
from riglint.review.key import Keys, digest
from riglint.review.record import BROKEN, CLEAR, HALTED, Record, bare, code_of, failed_on, reviewed, unopened, unread
from riglint.review.since import Old, compared, gone_plan
from riglint.solve.solve import solve


@dataclass(frozen=True, slots=True)
class Settings:
    """What every process of a review needs to know."""

    form: str
    halting: Grade
    rulebooks: tuple[Path, ...]
    house: Path | None
    kit: Path | None
    today: date | None
    cache: Path | None
    program: str
    base: str
    rule_index: dict[str, int]
    since: bool = False
    only_new: bool = False
    remedies: bool = False

    def contexts(self) -> Contexts:
        """What plans are inspected with."""
        return Contexts(self.rulebooks, self.house, self.kit, self.today)


class Task(NamedTuple):
    """One thing to do: a file to review, or a record of a merged report; and what the earlier review said of it."""

    uri: str
    name: str
    path: str = ""
    record: Record | None = None
    old: list[Old] | None = None
    gone: bool = False


class Done(NamedTuple):
    """One plan's part of the report, in the form asked for, and what the whole needs to know of it."""

    head: Head
    sections: tuple[str, ...]


class Worker:
    """Does tasks, one after another."""

    def __init__(self, settings: Settings, contexts: Contexts | None = None) -> None:
        self.settings = settings
        self._contexts = contexts or settings.contexts()
        self._of_folder: dict[str, Context] = {}
        self._keys = Keys(settings.program, settings.halting, remedies=settings.remedies)
        self._cache = Cache(settings.cache) if settings.cache else None
        self._form = FORMS[settings.form]()
        shown = [settings.form, *(f"{rule} {index}" for rule, index in settings.rule_index.items())]
        self._shown = digest(text.encode() for text in shown).encode()

    def do(self, task: Task) -> Done:
        """One plan, whatever becomes of it."""
        if task.record is not None or task.gone:
            return self._shown_as(task, task.record or bare("gone"))
        try:
            mode = os.stat(task.path).st_mode
            if not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):  # a pipe would be waited for
                return self._shown_as(task, unopened("a pipe or a device"))
            with open(task.path, "rb") as stream:
                text = stream.read()
        except (OSError, ValueError) as error:
            return self._shown_as(task, unopened(str(getattr(error, "strerror", None) or error)))
        if is_yaml(task.path) and not is_plan(text):
            return self._shown_as(task, bare("no plan"))
        return self._reviewed(task, text)

    def _reviewed(self, task: Task, text: bytes) -> Done:
        try:
            context = self._context(task.path)
        except ReadingFailed as failed:  # of the house file
            return self._shown_as(task, unread(failed, task.name, self.settings.base))
        if self._cache is None:
            return self._shown_as(task, self.work_out(text, task.name, context))
        key = self._keys.key(text, context)
        if self.settings.since:
            return self._shown_as(task, self._kept_or_worked_out(key, text, task, context, self._cache))
        shown_key = digest([key.encode(), task.uri.encode(), self._shown])
        held = self._cache.get(shown_key)
        if held is None:
            done = self._shown_as(task, self._kept_or_worked_out(key, text, task, context, self._cache))
            if done.head.code < BROKEN:
                self._cache.put(shown_key, done._asdict())
            return done
        return Done(Head.read(*held["head"]), tuple(held["sections"]))

    def _kept_or_worked_out(self, key: str, text: bytes, task: Task, context: Context, cache: Cache) -> Record:
        record = cache.get(key)
        if record is None:
            record = self.work_out(text, task.name, context)
            if code_of(record) < BROKEN:  # what broke may have broken by chance
                cache.put(key, record)
        return record

    def _context(self, path: str) -> Context:
        """House files are found by folder."""
        folder = os.path.dirname(path)
        if folder not in self._of_folder:
            self._of_folder[folder] = self._contexts.of(Path(path))
        return self._of_folder[folder]._replace(plan=Path(path))

    def _shown_as(self, task: Task, record: Record) -> Done:
        if self.settings.since:
            gone = task.gone or (task.old and record["verdict"] == "no plan")  # a file may have been emptied
            record = gone_plan(task.old or []) if gone else compared(record, task.old)
        one = Reviewed(task.uri, task.name, record, self._code(record))
        return Done(head(one), self._form.part(one, self.settings.rule_index))

    def work_out(self, text: bytes, name: str, context: Context) -> Record:
        """Read, solve and inspect a plan, and keep what reports show of it."""
        record = self._worked_out(text, name, context)
        record["sha256"] = sha256(text).hexdigest()
        return record

    def _worked_out(self, text: bytes, name: str, context: Context) -> Record:
        try:
            loaded = context.load(text, name)
            solution = solve(loaded.rig)
            inspection = context.inspect(solution, self.settings.halting)
            record = reviewed(loaded, solution, inspection)
            if self.settings.remedies:
                from riglint.review.mend import mended  # noqa: PLC0415 -- only where asked for

                for index, entries in mended(loaded, solution, inspection, context).items():
                    record["findings"][index]["remedies"] = entries
            return record
        except ReadingFailed as failed:
            return unread(failed, name, self.settings.base)
        except Exception as error:  # one plan that breaks the program must not hide the others
            return failed_on(error)

    def _code(self, record: Record) -> int:
        """What the plan ends with; where only new findings halt, whether one does."""
        code = code_of(record)
        if code != HALTED or not self.settings.only_new:
            return code
        grave = [f for f in record["findings"] if self._halts(f)]
        # A verdict that no finding explains, such as a rig that no rule looked at, is never let pass.
        return HALTED if not grave or any(f["state"] in ("new", "worse") for f in grave) else CLEAR

    def _halts(self, finding: dict[str, Any]) -> bool:
        return not finding["waived"] and Grade(finding["grade"]).at_least(self.settings.halting)
