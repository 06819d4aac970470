"""What the page asks of the program: one call with a plan's text, one answer with all that the page shows.

It runs in the browser's worker and, for tests, anywhere else. The report in the answer is the one that the
command writes, made by the same functions.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from datetime import date
from functools import cached_property
from hashlib import sha256
from importlib.util import find_spec
from pathlib import Path, PurePosixPath
from types import ModuleType
from typing import Any, Final

from riglint.house.context import Context, Contexts
from riglint.outcome import Grade
from riglint.picture.draw import draw
from riglint.picture.stops import NoSuchPlaceError
from riglint.plan.load import LoadedPlan
from riglint.reading.document import Document, read_document
from riglint.reading.problems import ReadingFailed
from riglint.report import json_report
from riglint.report.material import Inspected
from riglint.rulebook.book import RulebookError
from riglint.shipped import shipped
from riglint.solve.solve import solve
from riglint.tablet.edit import EditError, edited
from riglint.tablet.remedies import tried
from riglint.tablet.signing import checks
from riglint.tablet.view import Answer, view
from riglint.version import VERSION

BUILT_IN: Final = "built-in.json"
RULEBOOKS: Final = "rulebooks"
_UNREADABLE: Final = {"verdict": "can't be read", "verdict_words": "the plan has places to mend"}
_SCHEMA_CHECK: Final = "riglint.rulebook.manifest"


class Engine:
    """The program with what was built into this tablet: `folder` holds a kit, a house file and rulebooks."""

    def __init__(self, folder: Path) -> None:
        _without_schema_check()
        self.folder = folder

    @cached_property
    def _contexts(self) -> dict[str, Contexts]:
        return {}

    def _context(self, name: str, today: str) -> Context:
        if today not in self._contexts:
            house = self._built_in.get("house")
            self._contexts[today] = Contexts(
                [self.folder / RULEBOOKS / name for name in self._built_in.get("rulebooks", ())],
                house=self.folder / house if house else None,
                today=date.fromisoformat(today) if today else None,
            )
        return self._contexts[today].of(self.folder / _below(name))

    @cached_property
    def _built_in(self) -> dict[str, Any]:
        """Names of the house file, the kits and the rulebooks' folders."""
        file = self.folder / BUILT_IN
        return json.loads(file.read_text("utf-8")) if file.is_file() else {}

    def keep(self, name: str, text: str) -> str:
        """Take in a kit's text under a file's name, for plans that name it; gives its gear, or its problems."""
        from riglint.kit.read import read_kit  # noqa: PLC0415 -- only where there is a kit

        try:
            kit = read_kit(text, name)
        except ReadingFailed as failed:
            return json.dumps({"problems": json_report.unread(name, failed)["problems"]})
        (self.folder / Path(name).name).write_text(text, "utf-8")
        self._contexts.clear()
        return json.dumps({"name": Path(name).name, "gear": _gear(kit.document.data)}, ensure_ascii=False)

    def about(self) -> str:
        """Versions, the plan's schema and the kits that are built in: what the page needs once."""
        names = self._built_in.get("kits", ())
        kits = [{"name": n, "gear": _gear(read_document((self.folder / n).read_bytes(), n).data)} for n in names]
        schema = json.loads((shipped("schemas") / "plan.schema.json").read_text("utf-8"))
        return json.dumps({"version": VERSION, "schema": schema, "kits": kits}, ensure_ascii=False)

    def work(self, text: str, options: str) -> str:
        """Edit the text as told, read, solve, inspect, draw: everything about one plan, as JSON.

        Options: `name` of the plan's file, `today` (ISO), `edits`, `stage` and `station` of the picture,
        `halt_at`; with `report` the answer is the whole report as the command writes it, and nothing else.
        """
        wanted: dict[str, Any] = json.loads(options)
        answer: Answer = {"version": VERSION, "program": "riglint"}
        try:
            text = edited(text, wanted.get("edits") or [])
        except (EditError, ReadingFailed) as error:
            answer["unedited"] = str(error)
        answer["text"] = text
        answer |= self._worked(text, wanted)
        return json.dumps(answer, ensure_ascii=False, separators=(",", ":"))

    def remedies(self, text: str, options: str, told: Callable[[int], object]) -> str:
        """What would put a finding right, as JSON; `told` hears how many changes were tried so far.

        Options: as for `work`, and `finding`, its place in the findings told; without it all are tried.
        """
        wanted: dict[str, Any] = json.loads(options)
        name, source = wanted.get("name") or "plan.yaml", text.encode("utf-8")
        context = self._context(name, wanted.get("today") or "")
        inspected = _inspected(context, context.load(source, name), name, wanted)
        return json.dumps({"remedies": tried(inspected, context, told, wanted.get("finding"))}, ensure_ascii=False)

    def _worked(self, text: str, wanted: dict[str, Any]) -> Answer:
        name = wanted.get("name") or "plan.yaml"
        try:
            context = self._context(name, wanted.get("today") or "")
            return _found(context, context.load(text.encode("utf-8"), name), name, wanted)
        except ReadingFailed as failed:
            return _unread(name, failed, _read(text, name), wanted)
        except (RulebookError, UnicodeError) as error:
            return _broke(name, str(error), _read(text, name), wanted)
        except Exception as error:  # the page must say so, and keep the plan
            return _broke(name, " ".join(f"{type(error).__name__}: {error}".split()), _read(text, name), wanted)


def _read(text: str, name: str) -> Document | None:
    """The text of a plan that can't be checked, as far as it is YAML."""
    try:
        return read_document(text.encode("utf-8"), name)
    except (ReadingFailed, UnicodeError):
        return None


def _inspected(context: Context, loaded: LoadedPlan, name: str, wanted: dict[str, Any]) -> Inspected:
    solution = solve(loaded.rig)
    inspection = context.inspect(solution, Grade(wanted.get("halt_at") or "WARNING"))
    return Inspected(name, loaded.document, solution, inspection, context.rulebook, context.sources)


def _found(context: Context, loaded: LoadedPlan, name: str, wanted: dict[str, Any]) -> Answer:
    inspected = _inspected(context, loaded, name, wanted)
    if wanted.get("report"):
        return _report(json_report.report(inspected), wanted)
    answer = view(json_report.found(inspected), inspected) | {
        "data": _data_of(loaded),
        "picture": _picture(inspected, wanted),
    }
    return answer | {"checklist": checks(inspected, _digest(loaded.document))}


def _digest(document: Document) -> str:
    """Of the plan's file, byte for byte."""
    return sha256((document.bom + document.text).encode("utf-8")).hexdigest()


def _data_of(loaded: LoadedPlan) -> Any:
    """The plan as it is written, not as the kit fills it in."""
    document = loaded.document
    return read_document(document.text, document.file).data if loaded.rig.kit else document.data


def _picture(inspected: Inspected, wanted: dict[str, Any]) -> str:
    stage = min(int(wanted.get("stage") or 0), len(inspected.solution.stages) - 1)
    try:
        return draw(inspected.solution, stage, wanted.get("station") or "start", inspected.inspection)
    except NoSuchPlaceError:
        return draw(inspected.solution, stage, "start", inspected.inspection)


def _report(entry: dict[str, Any], wanted: dict[str, Any]) -> Answer:
    return {"report": json_report.document([entry])} if wanted.get("report") else {}


def _unread(name: str, failed: ReadingFailed, document: Document | None, wanted: dict[str, Any]) -> Answer:
    entry = json_report.unread(name, failed)
    data = document.data if document else None
    return _UNREADABLE | {"problems": entry["problems"], "data": data} | _report(entry, wanted)


def _broke(name: str, reason: str, document: Document | None, wanted: dict[str, Any]) -> Answer:
    entry = json_report.broke(name, reason)
    data = document.data if document else None
    return _UNREADABLE | {"broke": reason, "problems": [], "data": data} | _report(entry, wanted)


def _below(name: str) -> Path:
    """A plan's name as a place below the engine's folder, wherever its user has it."""
    path = PurePosixPath(name)
    return Path(path.name or "plan.yaml") if path.is_absolute() or ".." in path.parts else Path(path)


def _gear(data: Any) -> dict[str, Any]:
    gear: dict[str, Any] = data.get("gear", {})
    return gear


def _without_schema_check() -> None:
    """Rulebooks' manifests are held to their schema as the tablet is built; the browser has no checker for it."""
    if find_spec("jsonschema") is None and _SCHEMA_CHECK not in sys.modules:
        held = ModuleType(_SCHEMA_CHECK)
        held.faults = lambda *_: []  # type: ignore[attr-defined]
        sys.modules[_SCHEMA_CHECK] = held
