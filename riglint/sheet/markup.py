"""HTML written by hand: whatever is not made here is escaped, so that no text of a plan can become markup."""

from __future__ import annotations

import json
import re
from html import escape
from typing import Any, Final

from riglint.report.words import plain

# A number and its unit stay on one line.
_GAP: Final = re.compile(r"(?<=\d) (?=(?:kN|N|mm?|t|kg|lbf?|ft|in|deg|wraps?|kPa|MPa|psi)\b|%)")


class Html(str):
    """Markup that this module made. Any other text is escaped before it gets in."""

    __slots__ = ()


def el(name: str, /, *children: Any, **attributes: str | bool | None) -> Html:
    """An element. Children are text, elements, lists of them or None; `_` in an attribute's name stands for `-`."""
    return Html(f"{_open(name, attributes)}{inner(*children)}</{name}>")


def void(name: str, /, **attributes: str | bool | None) -> Html:
    """An element that has no content, such as `input`."""
    return Html(_open(name, attributes))


def inner(*children: Any) -> Html:
    """Children one after the other."""
    return Html("".join(map(_child, children)))


def trusted(markup: str) -> Html:
    """Markup of another module that does its own escaping."""
    return Html(markup)


def data_block(data: object, name: str) -> Html:
    """Data for the page's script, in a block that no browser runs and that no text in it can end."""
    text = json.dumps(data, ensure_ascii=True, sort_keys=True, separators=(",", ":"))
    for char in "<>&":
        text = text.replace(char, f"\\u{ord(char):04x}")
    return Html(f'<script type="application/json" id="{escape(name)}">{text}</script>')


def _child(child: Any) -> str:
    if child is None:
        return ""
    if isinstance(child, Html):
        return child
    if isinstance(child, str):
        return _GAP.sub("&nbsp;", escape(plain(child)))
    return inner(*child)


def _open(name: str, attributes: dict[str, str | bool | None]) -> str:
    parts = [name]
    for key, value in attributes.items():
        label = key.rstrip("_").replace("_", "-")
        if value is True:
            parts.append(label)
        elif isinstance(value, str):
            parts.append(f'{label}="{escape(plain(value))}"')
    return f"<{' '.join(parts)}>"
