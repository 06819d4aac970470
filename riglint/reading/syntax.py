"""YAML's event layer, and our own words for what is wrong with a text it can't parse.

The compiled parser is only believed when it finds nothing to complain of; whatever it trips over is read
again by the one in Python, which is all a browser has. So both give the same problems by construction.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from yaml.error import MarkedYAMLError, YAMLError
from yaml.parser import Parser
from yaml.reader import Reader
from yaml.scanner import Scanner

try:
    from yaml._yaml import CParser
except ImportError:  # no libyaml here, as in a browser
    CParser = None  # type: ignore[assignment, misc]

NextEvent = Callable[[], Any]

# What the two parsers read differently though both accept it, found by comparing the two: a tab, a `?` inside
# brackets, and a comment right behind the head of a block text.
_READ_APART = ("\t", "?")
_COMMENT_BEHIND_HEAD = re.compile(r"[|>][-+0-9]*#")


class _PureParser(Reader, Scanner, Parser):
    def __init__(self, text: str) -> None:
        Reader.__init__(self, text)
        Scanner.__init__(self)
        Parser.__init__(self)


class NotYamlError(Exception):
    """The text stops being YAML at this place (0-based line and column)."""

    def __init__(self, line: int, column: int, what: str, serves: str) -> None:
        super().__init__(what)
        self.line, self.column, self.what, self.serves = line, column, what, serves


def compiled_events(text: str) -> NextEvent | None:
    """The compiled parser's event source, or None where it is missing or can't be trusted with this text."""
    if CParser is None or any(mark in text for mark in _READ_APART):
        return None
    if ("|" in text or ">" in text) and _COMMENT_BEHIND_HEAD.search(text):
        return None
    following: NextEvent = CParser(text).get_event
    return following


def pure_events(text: str) -> NextEvent:
    """The Python parser's event source; what it can't parse comes as NotYamlError."""
    parser = _PureParser(text)

    def following() -> Any:
        try:
            return parser.get_event()  # type: ignore[no-untyped-call]
        except MarkedYAMLError as error:
            raise _explained(text, error) from None
        except (YAMLError, ValueError, OverflowError):
            # An escape beyond Unicode's end: the parser itself falls over it.
            mark = parser.get_mark()
            raise NotYamlError(mark.line, mark.column, "an escape stands for no character", _ESCAPES) from None

    return following


_ESCAPES = "write the character itself, or put single quotes round the text"
_QUOTE_IT = "put quotes round a text that has or starts with such a mark"
_LINE_UP = "line it up with its neighbours, with spaces"

# (form of the parser's complaint, what was found, what serves); {opened} is the line where the thing began.
_COMPLAINTS: tuple[tuple[str, str, str], ...] = (
    (r".*'\\t' that cannot start", "a tab stands here", "use spaces: two for each step of indentation"),
    (r".*that cannot start", "{found} can't start a text here", _QUOTE_IT),
    (
        r".*could not find expected ':'",
        "this key has no `:` behind it",
        "write `key: value`, or line the text up under the one it belongs to",
    ),
    (
        r".*sequence entries are not allowed",
        "a list's `-` can't stand here",
        "put the list on its own lines, each `-` under the one before",
    ),
    (r".*mapping keys are not allowed", "a `?` key can't stand here", "write `key: value`"),
    (
        r".*mapping values are not allowed",
        "a `:` stands where no key can be",
        "put quotes round a text that has `: ` in it, or line the key up with its neighbours",
    ),
    (
        r"while scanning an (alias|anchor)",
        "{found} can't follow `&` or `*` here",
        "put quotes round a text that starts with `&` or `*`",
    ),
    (
        r"while (scanning|parsing) a tag|.*tag handle",
        "a `!` tag stands here",
        "leave it out, or put quotes round a text that starts with `!`",
    ),
    (
        r"while scanning a block scalar",
        "{found} can't follow `|` or `>` here",
        "put the text on the lines below, further in",
    ),
    (
        r".*hexadecimal|.*unknown escape",
        "`\\` begins an escape that means nothing here",
        "write `\\\\` for a backslash, or put single quotes round the text",
    ),
    (r"while scanning a quoted scalar", "the quote that opens here is never closed", "close the quote"),
    (
        r"while parsing a flow sequence",
        "{found} stands where `,` or `]` should be: a list opens on line {opened}",
        "write `,` between its items and `]` behind the last; quotes keep such marks as text",
    ),
    (
        r"while parsing a flow mapping",
        "{found} stands where `,` or `}` should be: a mapping opens on line {opened}",
        "write `,` between its entries and `}` behind the last; quotes keep such marks as text",
    ),
    (r"while parsing a block mapping.*found ':'", "a `:` has no key before it", "write `key: value`"),
    (
        r"while parsing a block (mapping|collection)",
        "{found} doesn't line up with what began on line {opened}",
        _LINE_UP,
    ),
    (
        r".*expected the node content",
        "{found} stands where a value should be",
        "write a value, or leave the key out",
    ),
    (
        r".*document start",
        "{found} stands behind the end of the plan",
        "take it out, or line it up with the rest",
    ),
)
# Where these are at fault, the place to look at is where they began.
_FAULT_AT_START = ("while scanning a simple key", "while scanning a quoted scalar")
_COMPILED: list[tuple[re.Pattern[str], str, str]] = []


def _explained(text: str, error: MarkedYAMLError) -> NotYamlError:
    mark = error.context_mark if error.context in _FAULT_AT_START else error.problem_mark
    line, column = (mark.line, mark.column) if mark else (0, 0)
    opened = (error.context_mark or mark).line + 1 if mark else 1
    found = _found(text, mark.index if mark else 0)
    what, serves = _words(f"{error.context or ''} {error.problem or ''}")
    return NotYamlError(line, column, what.replace("{opened}", str(opened)).replace("{found}", found), serves)


def _words(complaint: str) -> tuple[str, str]:
    if not _COMPILED:
        _COMPILED.extend((re.compile(form), what, serves) for form, what, serves in _COMPLAINTS)
    fits = ((what, serves) for form, what, serves in _COMPILED if form.match(complaint))
    return next(fits, ("{found} can't be read as YAML here", "write `key: value` lines, one under the other"))


def _found(text: str, index: int) -> str:
    from riglint.reading.problems import quoted  # noqa: PLC0415 -- only for messages

    rest = text[index:]
    if not rest:
        return "the end of the file"
    if rest[0] in "\r\n":
        return "the end of the line"
    return quoted(re.match(r"\s|\w+|.", rest)[0])  # type: ignore[index]
