"""SVG written by hand: every text escaped, every number short, nothing that a viewer would run or fetch."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

Xy = tuple[float, float]

INK: Final = "#16211f"
GREY: Final = "#55605e"
PAPER: Final = "#ffffff"
BODY: Final = "#f3f1ea"
STRAP: Final = "#c9cfcc"
DANGER_EDGE: Final = "#a8453c"

_MARKUP: Final = {ord("&"): "&amp;", ord("<"): "&lt;", ord(">"): "&gt;", ord('"'): "&quot;", ord("'"): "&#39;"}
_UNSEEN: Final = {*range(0x200B, 0x2010), 0x2028, 0x2029, 0xFEFF, *range(0x202A, 0x202F), *range(0x2066, 0x206A)}


def plain(text: str) -> str:
    """On one line, without characters that XML forbids or that turn the reading direction of what follows."""
    if not (text.isascii() and text.isprintable()):
        text = "".join([c if _shown(c) else " " for c in text])
    return " ".join(text.split())


def _shown(char: str) -> bool:
    code = ord(char)
    return 0x20 <= code < 0x7F or (code >= 0xA0 and code not in _UNSEEN and not _forbidden(code))


def _forbidden(code: int) -> bool:
    return 0xD800 <= code <= 0xDFFF or (code & 0xFFFE) == 0xFFFE


def escaped(text: str) -> str:
    """A text as XML, inert in content and in attributes."""
    return plain(text).translate(_MARKUP)


def number(value: float) -> str:
    """To the tenth of a unit."""
    text = f"{value:.1f}"
    text = text.removesuffix(".0")
    return "0" if text == "-0" else text


def tag(name: str, content: str = "", /, **attributes: str | float) -> str:
    """An element; `_` in an attribute's name stands for `-`."""
    parts = [name]
    for key, value in attributes.items():
        shown = value if isinstance(value, str) else number(value)
        parts.append(f'{key.replace("_", "-")}="{shown}"')
    inside = " ".join(parts)
    return f"<{inside}>{content}</{name}>" if content else f"<{inside}/>"


def way(points: Iterable[Xy], *, closed: bool = False) -> str:
    """The `d` of a path through points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if closed else "")


def path(points: Iterable[Xy], /, **attributes: str | float) -> str:
    """A path through points."""
    return tag("path", **{"d": way(points), **attributes})


def polygon(points: Iterable[Xy], /, **attributes: str | float) -> str:
    """A path through points and back to the first."""
    return tag("path", **{"d": way(points, closed=True), **attributes})


def plate(box: tuple[float, float, float, float], /, **attributes: str | float) -> str:
    """A rectangle by its corners."""
    left, top, right, bottom = box
    return tag("rect", **{"x": left, "y": top, "width": right - left, "height": bottom - top, **attributes})
