"""A plan's text, its plain data, and where in the text each value stands."""

import re
from typing import Any, NamedTuple

from yaml.error import YAMLError
from yaml.events import ScalarEvent

from riglint.reading.build import Builder, Mapping, Part, Sequence
from riglint.reading.characters import decoded, line_and_column
from riglint.reading.problems import Problem, ReadingFailed
from riglint.reading.syntax import compiled_events, pure_events

_COLON = re.compile(r"\s*:")
_DIRECTIVE = re.compile(r"(?:[ \t]*(?:#[^\n]*)?\r?\n)*%")


class Region(NamedTuple):
    """A stretch of the text: 1-based lines and columns in code points, the end one past the last.

    `start` and `end` are indexes into `Document.text`. A value that isn't written out is an empty stretch.
    """

    line: int
    column: int
    end_line: int
    end_column: int
    start: int
    end: int


class Document:
    """One plan as it was read."""

    __slots__ = ("_root", "bom", "data", "file", "text")

    def __init__(self, file: str, text: str, bom: str, data: Any, root: Part) -> None:
        self.file = file
        self.text = text
        """Without its byte order mark, which is in `bom` ('' where there was none)."""
        self.bom = bom
        self.data = data
        """dict, list, str, int, float, bool and None only."""
        self._root = root

    def position(self, pointer: str) -> Region:
        """Where the value at an RFC 6901 pointer stands, or its nearest ancestor that is there."""
        return self._region(*self._find(pointer))

    def key_position(self, pointer: str) -> Region:
        """Where the key of the value at a pointer stands; in a list, and at the root, the value itself."""
        key, part = self._find(pointer)
        return self._region(None, part if key is None else key)

    def problem(self, pointer: str, what: str, serves: str, *, key: bool = False) -> Problem:
        """A problem at a place of this document: at the value, or at its key."""
        at = self.key_position(pointer) if key else self.position(pointer)
        return Problem(self.file, at.line, at.column, pointer, what, serves)

    def _find(self, pointer: str) -> tuple[Any, Part]:
        key, part = None, self._root
        for step in pointer.split("/")[1:]:
            found = _child(part, step.replace("~1", "/").replace("~0", "~"))
            if found is None:
                break
            key, part = found
        return key, part

    def _region(self, key: Any, part: Part) -> Region:
        if key is not None and _unwritten(part):
            start = end = self._behind(key)
        else:
            opening = part.start if isinstance(part, Mapping | Sequence) else part
            start, end = opening.start_mark.index, self._end(key, part)
        return Region(*line_and_column(self.text, start), *line_and_column(self.text, end), start, end)

    def _end(self, key: Any, part: Part) -> int:
        """The index of a part's end: what has no closing bracket ends with its last child."""
        while isinstance(part, Mapping | Sequence):
            if part.end.end_mark.index > part.end.start_mark.index:
                return int(part.end.end_mark.index)
            key, part = list(part.entries.values())[-1] if isinstance(part, Mapping) else (None, part.items[-1])
        if key is not None and _unwritten(part):
            return self._behind(key)
        start, end = part.start_mark.index, int(part.end_mark.index)
        if type(part) is ScalarEvent and part.style in ("|", ">"):
            return int(start + len(self.text[start:end].rstrip()))
        return end

    def _behind(self, key: Any) -> int:
        """Behind a key's colon: the place of a value that isn't written, on which the two parsers differ."""
        end = int(key.end_mark.index)
        colon = _COLON.match(self.text, end)
        return colon.end() if colon else end


class HalfRead(ReadingFailed):
    """Faults in a text that could be read to its end; `document` is what stands in it but for them."""

    def __init__(self, problems: list[Problem], document: Document) -> None:
        super().__init__(problems)
        self.document = document


def read_document(source: bytes | str, file: str, *, pure: bool = False) -> Document:
    """Read one YAML text; `pure` leaves the compiled parser alone. Raises ReadingFailed with all faults."""
    text, bom = decoded(source, file)
    built = None if pure else _quick(text, file)
    if built is None:
        built = _thorough(text, file)
    document = Document(file, text, bom, built.data, built.root)
    if built.problems:
        raise HalfRead(built.problems, document) if built.root else ReadingFailed(built.problems)
    return document


def _quick(text: str, file: str) -> Builder | None:
    """What the compiled parser makes of a faultless text; None for any other."""
    events = compiled_events(text)
    if events is None or _DIRECTIVE.match(text):
        return None
    try:
        built = Builder(events, text, file).run()
    except YAMLError:
        return None
    return None if built.problems else built


def _thorough(text: str, file: str) -> Builder:
    directive = _DIRECTIVE.match(text)
    if directive:
        line, column = line_and_column(text, directive.end() - 1)
        raise ReadingFailed([Problem(file, line, column, "", "a `%` directive stands here", "leave it out")])
    return Builder(pure_events(text), text, file).run()


def _child(part: Part, step: str) -> tuple[Any, Part] | None:
    if isinstance(part, Mapping):
        return part.entries.get(step)
    if isinstance(part, Sequence) and re.fullmatch("0|[1-9][0-9]{0,6}", step) and int(step) < len(part.items):
        return None, part.items[int(step)]
    return None


def _unwritten(part: Part) -> bool:
    return type(part) is ScalarEvent and not part.value and not part.style
