"""What a YAML scalar is worth here: `true`, `false`, `null` and JSON numbers have types, all else is text."""

from __future__ import annotations

import math
import re

Scalar = str | int | float | bool | None

_JSON_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(\.[0-9]+)?([eE][-+]?[0-9]+)?").fullmatch
_WORDS: dict[str, Scalar] = {"true": True, "false": False, "null": None, "": None}
_DIGITS = frozenset("-0123456789")


class UnheldNumberError(ValueError):
    """A number that no float holds: too large, or so small that it would turn to zero."""


def plain_value(text: str) -> Scalar:
    """The value of a plain (unquoted) scalar. Raises UnheldNumberError.

    So `no`, `1:30`, `012`, `0x1F`, `1_000`, `.inf`, `~` and dates, which YAML 1.1 would turn into
    something else, stay the text that was written.
    """
    if text in _WORDS:
        return _WORDS[text]
    if text[0] not in _DIGITS:
        return text
    match = _JSON_NUMBER(text)
    return text if match is None else _number(text, whole=match.lastindex is None)


def _number(text: str, *, whole: bool) -> int | float:
    value = float(text)
    mantissa = text.lower().partition("e")[0]
    if math.isinf(value) or (value == 0 and mantissa.strip("-0.")):
        raise UnheldNumberError(text)
    return int(text) if whole else value
