"""Values written as YAML on one line: plain where they are read back as what they are, else in quotes."""

from __future__ import annotations

import json
import re
from typing import Any, Final

from riglint.reading.scalars import UnheldNumberError, plain_value

_PLAIN: Final = re.compile(r"[A-Za-z0-9][^:#,\[\]{}\n\"'`|>@!*&?=]*")
_WORDS: Final = frozenset({"yes", "no", "on", "off", "y", "n"})  # text here, and not so for other readers of YAML


def flow(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{scalar(key)}: {flow(inner)}" for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return scalar(value)


def scalar(value: Any) -> str:
    """A single value."""
    if not isinstance(value, str):
        return json.dumps(value)
    return value if _is_plain(value) else json.dumps(value, ensure_ascii=False)


def _is_plain(text: str) -> bool:
    try:
        same = plain_value(text) == text
    except UnheldNumberError:
        same = False
    return same and bool(_PLAIN.fullmatch(text)) and text == text.strip() and text.lower() not in _WORDS
