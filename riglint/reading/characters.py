"""From bytes to a text in which every tool counts the same lines and columns, or what forbids that."""

from __future__ import annotations

import codecs
import re

from riglint.reading.problems import Problem, ReadingFailed

LARGEST_FILE = 1024 * 1024
"""Bytes; a plan of a hundred lines has five thousand."""

MOST_PROBLEMS = 100
"""After so many problems reading stops: a file that bad is the wrong file."""

BOM = "\ufeff"

# Unseen direction marks can make a line show otherwise than it reads, so they are refused with the controls.
_ASCII_REFUSED = r"\x00-\x08\x0b\x0c\x0e-\x1f\x7f"
_UNICODE_REFUSED = r"\x80-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff\ufeff\ufffe\uffff"
_REFUSED = re.compile(f"[{_ASCII_REFUSED}{_UNICODE_REFUSED}]|\r(?!\n)")
_REFUSED_IN_ASCII = re.compile(f"[{_ASCII_REFUSED}]|\r(?!\n)")
_LINE_BREAKS = {"\x85": "next line", "\u2028": "line separator", "\u2029": "paragraph separator"}


def decoded(source: bytes | str, file: str) -> tuple[str, str]:
    """The text without its byte order mark, and that mark ('' if there was none). Raises ReadingFailed."""
    if _size(source) > LARGEST_FILE:
        raise _failed(file, "", 0, "the file is larger than 1 MiB", "check that it is the plan that was meant")
    text = source if isinstance(source, str) else _from_utf8(source, file)
    bom = BOM if text.startswith(BOM) else ""
    text = text.removeprefix(BOM)
    forms = _REFUSED_IN_ASCII if text.isascii() else _REFUSED
    if forms.search(text):
        raise ReadingFailed(_bad_characters(text, file))
    return text, bom


def refused_character(text: str) -> str | None:
    """The first character of a text that no plan may hold, as words; None if all will do."""
    match = _REFUSED.search(text)
    return _name(match[0]) if match else None


def line_and_column(text: str, index: int) -> tuple[int, int]:
    """The 1-based line and column of a character of the text."""
    return text.count("\n", 0, index) + 1, index - text.rfind("\n", 0, index)


def _size(source: bytes | str) -> int:
    if isinstance(source, bytes) or source.isascii() or len(source) > LARGEST_FILE:
        return len(source)
    return len(source.encode("utf-8", "surrogatepass"))


def _from_utf8(source: bytes, file: str) -> str:
    if source.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise _failed(file, "", 0, "the file is UTF-16", "save it as UTF-8")
    try:
        return source.decode("utf-8")
    except UnicodeDecodeError as error:
        before = source[: error.start].decode("utf-8").removeprefix(BOM)
        found = f"byte {error.start} (0x{source[error.start]:02X}) isn't UTF-8"
        raise _failed(file, before, len(before), found, "save the file as UTF-8") from None


def _bad_characters(text: str, file: str) -> list[Problem]:
    problems = []
    for match in _REFUSED.finditer(text):
        what = f"there is {_name(match[0])} here"
        problems.append(_problem(file, text, match.start(), what, _mend(match[0])))
        if len(problems) == MOST_PROBLEMS:
            break
    return problems


def _name(character: str) -> str:
    code = f"U+{ord(character):04X}"
    if character in _LINE_BREAKS:
        return f"a {_LINE_BREAKS[character]} ({code})"
    if character == "\r":
        return f"a carriage return without a line feed ({code})"
    if character == BOM:
        return f"a byte order mark inside the text ({code})"
    import unicodedata  # noqa: PLC0415 -- only for messages

    kind = {"Cc": "a control character", "Cs": "half a surrogate pair"}.get(unicodedata.category(character))
    return f"{kind or 'an invisible character'} ({code})"


def _mend(character: str) -> str:
    if character in _LINE_BREAKS or character == "\r":
        return "end lines with a line feed"
    return "take it out"


def _problem(file: str, text: str, index: int, what: str, serves: str) -> Problem:
    return Problem(file, *line_and_column(text, index), "", what, serves)


def _failed(file: str, text: str, index: int, what: str, serves: str) -> ReadingFailed:
    return ReadingFailed([_problem(file, text, index, what, serves)])
