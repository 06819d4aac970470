"""From YAML events to plain values, with every fault on the way; each value's events tell its place."""

from typing import Any, NamedTuple

from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
)

from riglint.reading.characters import MOST_PROBLEMS, refused_character
from riglint.reading.problems import Problem, quoted
from riglint.reading.scalars import Scalar, UnheldNumberError, plain_value
from riglint.reading.syntax import NextEvent, NotYamlError

DEEPEST = 64
"""Collections inside each other; a plan has five."""


_TOO_DEEP = f"lists and mappings are more than {DEEPEST} deep here"


class Mapping(NamedTuple):
    """A mapping's first and last event, and its entries: the key's event, and the value's part."""

    start: Any
    end: Any
    entries: "dict[str, tuple[Any, Part]]"


class Sequence(NamedTuple):
    """A list's first and last event, and its items' parts."""

    start: Any
    end: Any
    items: "list[Part]"


Part = Any
"""A Mapping, a Sequence, or the event of a scalar."""


class _EnoughError(Exception):
    """Nothing more can be learnt from this text."""


class Builder:
    """Reads one document from an event source; `problems` says whether the result may be used."""

    def __init__(self, events: NextEvent, text: str, file: str) -> None:
        self._next = events
        self._text = text
        self._file = file
        self._path: list[str | int] = []
        self.problems: list[Problem] = []
        self.data: Any = None
        self.root: Part = None

    def run(self) -> "Builder":
        """Read as far as the text can be read."""
        try:
            self._document()
        except NotYamlError as stop:
            self._add(stop.line, stop.column, stop.what, stop.serves)
        except _EnoughError:
            pass
        return self

    def _document(self) -> None:
        self._next()  # the stream's start
        if type(self._next()) is not DocumentStartEvent:
            return self._add(0, 0, "the file is empty", "write a plan")
        event = self._next()
        if type(event) is ScalarEvent and not (event.value or event.style):
            self._add(0, 0, "the file is empty", "write a plan")
        self.data, self.root = self._node(event, 0)
        self._next()  # the document's end
        event = self._next()
        if type(event) is DocumentStartEvent:
            self._report(event, "a second document begins here", "keep one plan in one file")
        return None

    def _node(self, event: Any, depth: int) -> tuple[Any, Part]:
        kind = type(event)
        if kind is ScalarEvent:
            return self._scalar(event), event
        if kind is AliasEvent:
            self._report(
                event,
                f"{self._word(event)} refers to an anchor",
                "write the value out, or put quotes round a text that starts with `*`",
            )
            return None, event
        if event.anchor is not None or event.tag is not None:
            self._decorated(event)
        if depth == DEEPEST:
            self._report(event, _TOO_DEEP, "write the plan flatter")
            raise _EnoughError
        if kind is MappingStartEvent:
            return self._mapping(event, depth + 1)
        return self._sequence(event, depth + 1)

    def _mapping(self, start: Any, depth: int) -> tuple[dict[str, Any], Mapping]:
        data: dict[str, Any] = {}
        entries: dict[str, tuple[Any, Part]] = {}
        following, path = self._next, self._path
        while type(key := following()) is not MappingEndEvent:
            name = self._key(key, depth)
            path.append(name)
            if name in entries:
                self._twice(name, key, entries[name][0])
            value, part = self._node(following(), depth)
            path.pop()
            if name not in entries:
                data[name] = value
                entries[name] = key, part
        return data, Mapping(start, key, entries)

    def _sequence(self, start: Any, depth: int) -> tuple[list[Any], Sequence]:
        data: list[Any] = []
        parts: list[Part] = []
        following, path = self._next, self._path
        while type(event := following()) is not SequenceEndEvent:
            path.append(len(data))
            value, part = self._node(event, depth)
            path.pop()
            data.append(value)
            parts.append(part)
        return data, Sequence(start, event, parts)

    def _scalar(self, event: Any) -> Scalar:
        if event.anchor is not None or event.tag is not None:
            self._decorated(event)
        text: str = event.value
        if not event.style:
            try:
                return plain_value(text)
            except UnheldNumberError:
                self._report(event, f"{quoted(text)} is beyond any number", "write a smaller one, or quotes")
        elif event.style == '"' and (unfit := refused_character(text)):
            self._report(event, f"an escape in this text stands for {unfit}", "leave it out")
            return _encodable(text)
        return text

    def _key(self, event: Any, depth: int) -> str:
        if type(event) is not ScalarEvent:
            return self._odd_key(event, depth)
        if event.style or event.anchor is not None or event.tag is not None:
            self._scalar(event)
            return _encodable(event.value)
        if event.value in ("", "null", "<<"):
            self._unfit_key(event)
        name: str = event.value
        return name

    def _odd_key(self, event: Any, depth: int) -> str:
        """Read a key that is no text to its end, so that what follows can still be looked at."""
        if type(event) is not AliasEvent:
            self._report(event, "a list or a mapping stands where a key should be", "use a text as the key")
        self._node(event, depth)
        return self._text[event.start_mark.index : event.end_mark.index]

    def _unfit_key(self, event: Any) -> None:
        if event.value == "<<":
            self._report(event, "`<<` would merge another mapping in", "write its entries out here")
        else:
            self._report(event, "the key is empty or `null`", "use a text as the key, in quotes if need be")

    def _twice(self, name: str, key: Any, first: Any) -> None:
        lines = f"first on line {first.start_mark.line + 1}, again on line {key.start_mark.line + 1}"
        self._report(key, f"the key {quoted(name)} stands twice: {lines}", "keep one, or rename one")

    def _decorated(self, event: Any) -> None:
        if event.anchor is not None:
            self._report(
                event,
                f"an anchor stands here: {self._word(event)}",
                "leave it out, or put quotes round a text that starts with `&`",
            )
        if event.tag is not None:
            self._report(
                event,
                f"a tag stands here: {self._word(event)}",
                "leave it out, or put quotes round a text that starts with `!`",
            )

    def _word(self, event: Any) -> str:
        start = event.start_mark.index
        return quoted(self._text[start : start + 80].split(maxsplit=1)[0].rstrip(",]}"))

    def _report(self, event: Any, what: str, serves: str) -> None:
        self._add(event.start_mark.line, event.start_mark.column, what, serves)

    def _add(self, line: int, column: int, what: str, serves: str) -> None:
        self.problems.append(Problem(self._file, line + 1, column + 1, pointer_of(self._path), what, serves))
        if len(self.problems) == MOST_PROBLEMS:
            raise _EnoughError


def _encodable(text: str) -> str:
    """Without halves of surrogate pairs, which no file and no message can hold."""
    return text.encode("utf-8", "replace").decode()


def pointer_of(path: list[str | int]) -> str:
    """The RFC 6901 pointer of a path of keys and indexes."""
    return "".join(f"/{str(step).replace('~', '~0').replace('/', '~1')}" for step in path)
