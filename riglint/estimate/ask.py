"""From a file and options to a question with its kit, or every problem that stands in the way."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any, NamedTuple

from riglint.estimate.question import Question
from riglint.kit.find import KitRefused, kit_file
from riglint.kit.merge import facts_for, merge
from riglint.kit.read import Kit, open_kit, opened
from riglint.plan.sound import elsewhere, sound
from riglint.reading.document import Document, HalfRead, read_document
from riglint.reading.nearest import nearest, one_of
from riglint.reading.problems import Problem, ReadingFailed, quoted

_OPTIONS = "options"
_FROM_KIT = (("winch", "winch"), ("rope", "piece"))


class Asked(NamedTuple):
    """A question, the plain data that it was written as, the kit with its file, and the day that inspections count for.

    Without a day nothing is overdue.
    """

    question: Question
    data: dict[str, Any]
    kit: Kit | None
    kit_path: Path | None
    day: date | None = None


def ask(file: Path | None, options: Mapping[str, str | int], kit: Path | None = None, day: date | None = None) -> Asked:
    """Read a question; `options` are texts by their place, such as `ground/mired`, and go before the file's.

    Raises ReadingFailed.
    """
    document, writing = _written(file, options)
    read, found = None, kit
    problems: list[Problem] = []
    if isinstance(document.data, dict):
        try:
            found = kit or _named(document, file)
            read = open_kit(found) if found else None
            problems += _fill_in(document, read)
        except ReadingFailed as unread:
            problems += unread.problems
    question = sound(Question, document)
    own = elsewhere(question.problems, writing)
    problems += [problem for problem in own if not (problems and _would_lend(problem, document.data))]
    return Asked(question._replace(problems=writing).whole(problems), document.data, read, found, day)


def _written(file: Path | None, options: Mapping[str, str | int]) -> tuple[Document, list[Problem]]:
    """The file's document, with the options put in, and the faults of its writing.

    Where there are options, file and options are checked by themselves first, where their places are known.
    """
    given = read_document(_as_yaml(_nested(options)), _OPTIONS)
    if file is None:
        return given, []
    try:
        written, problems = read_document(opened(file, "name a file that is there"), str(file)), []
    except HalfRead as half:
        written, problems = half.document, list(half.problems)
    if not options or not isinstance(written.data, dict):
        return written, problems
    each = [*elsewhere(sound(Question, written).problems, problems), *sound(Question, given).problems]
    if problems or each:
        raise ReadingFailed([*problems, *each])
    return read_document(_as_yaml(_over(written.data, given.data)), f"{file}, with options"), []


def _nested(options: Mapping[str, str | int]) -> dict[str, Any]:
    data: dict[str, Any] = {}
    for place, text in options.items():
        *above, key = place.split("/")
        at = data
        for step in above:
            at = at.setdefault(step, {})
        at[key] = text
    return data


def _over(below: dict[str, Any], above: dict[str, Any]) -> dict[str, Any]:
    inner = {
        key: _over(below[key], value)
        for key, value in above.items()
        if isinstance(value, dict) and isinstance(below.get(key), dict)
    }
    return below | above | inner


def _as_yaml(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False)


def _named(document: Document, file: Path | None) -> Path | None:
    """The kit that the question names, below the question's folder."""
    named = document.data.get("kit")
    if not isinstance(named, str):
        return None
    try:
        return kit_file(named, [file.parent if file else Path()])
    except KitRefused as refused:
        raise ReadingFailed([document.problem("/kit", refused.found, refused.serves)]) from None


def _fill_in(document: Document, kit: Kit | None) -> Iterator[Problem]:
    """The winch and the rope that are named by their number in the kit; a kit's only winch, where none is named."""
    winches = [g.number for g in kit.gear.values() if g.kind == "winch" and not g.record.retired] if kit else []
    if "winch" not in document.data and len(winches) == 1:
        document.data["winch"] = {"from_kit": winches[0]}
    for key, kind in _FROM_KIT:
        entry = document.data.get(key)
        if isinstance(entry, dict) and isinstance(entry.get("from_kit"), str):
            yield from _lend(document, kit, key, kind, entry)


def _would_lend(problem: Problem, data: Any) -> bool:
    """Whether it is only that a fact is missing that a kit would have given."""
    entry = data.get(problem.place[1:]) if isinstance(data, dict) else None
    return isinstance(entry, dict) and "from_kit" in entry and problem.what.endswith("is missing")


def _lend(document: Document, kit: Kit | None, key: str, kind: str, entry: dict[str, Any]) -> Iterator[Problem]:
    number, at = entry["from_kit"], f"/{key}/from_kit"
    gear = kit.gear.get(number) if kit else None
    numbers = [other.number for other in kit.gear.values() if other.kind == kind] if kit else []
    if gear is None or gear.kind != kind:
        what = f"{quoted(number)} is no {kind} of the kit" if kit else f"{quoted(number)} is gear of a kit"
        near = nearest(number, numbers)
        serves = f"did you mean `{near}`?" if near else f"use {one_of(numbers)}" if numbers else "name the kit's file"
        yield document.problem(at, what, serves)
        return
    if gear.record.retired:
        what = f"{quoted(number)} was taken out of use: {gear.record.retired}"
        yield document.problem(at, what, "use another number")
        return
    clashes = merge(entry, facts_for(kind, gear.kind, gear.written) or {}).clashes
    for clash in clashes:
        keys = "/".join(clash.keys)
        what = f"the kit says something else about `{keys}` of {number}"
        yield document.problem(f"/{key}/{keys}", what, "leave it out here, or mend the kit")
