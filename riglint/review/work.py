"""One plan of a review, from its bytes to its part of the report. Runs in any process; keeps nothing between plans
but what is read once: rulebooks, house files and kits."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path
from typing import Any, NamedTuple

from riglint.house.context import Context, Contexts
from riglint.outcome import Grade
from riglint.reading.problems import ReadingFailed
from riglint.report.reviewed import FORMS, Head, Reviewed, head
from riglint.review.cache import Cache
from riglint.review.gather import is_plan
from riglint.review.key import Keys
from riglint.review.record import CLEAR, HALTED, Record, bare, code_of, failed_on, reviewed, unopened, unread
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

    def __init__(self, settings: Settings) -> None:
        self.settings = settings
        self._contexts = settings.contexts()
        self._keys = Keys(settings.program, settings.halting)
        self._cache = Cache(settings.cache) if settings.cache else None
        self._form = FORMS[settings.form]()

    def do(self, task: Task) -> Done:
        """One plan, whatever becomes of it."""
        record = self._record(task)
        if self.settings.since:
            record = gone_plan(task.old or []) if task.gone else compared(record, task.old)
        code = self._code(record)
        one = Reviewed(task.uri, task.name, record, code)
        return Done(head(one), self._form.part(one, self.settings.rule_index))

    def _record(self, task: Task) -> Record:
        if task.record is not None:
            return task.record
        if task.gone:
            return bare("gone")
        try:
            with open(task.path, "rb") as stream:
                text = stream.read()
        except (OSError, ValueError) as error:
            return unopened(str(getattr(error, "strerror", None) or error))
        if task.path.endswith((".yaml", ".yml")) and not is_plan(text):
            return bare("no plan")
        record = self._of_text(text, task)
        record["sha256"] = sha256(text).hexdigest()
        return record

    def _of_text(self, text: bytes, task: Task) -> Record:
        try:
            context = self._contexts.of(Path(task.path))
        except ReadingFailed as failed:
            return unread(failed, task.name, self.settings.base)
        if self._cache is None:
            return self.work_out(text, task.name, context)
        key = self._keys.key(text, context)
        record = self._cache.get(key)
        if record is not None:
            self._cache.keep(key)
            return record
        record = self.work_out(text, task.name, context)
        if record["verdict"] != "program failed" and not record["untested"]:
            self._cache.put(key, record)
        return record

    def work_out(self, text: bytes, name: str, context: Context) -> Record:
        """Read, solve and inspect a plan, and keep what reports show of it."""
        try:
            loaded = context.load(text, name)
            solution = solve(loaded.rig)
            return reviewed(loaded, solution, context.inspect(solution, self.settings.halting))
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
