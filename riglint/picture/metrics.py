"""How wide a text is, reckoned for the widest of the usual sans-serif fonts: a box is never too small."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

BOLD: Final = 1.13
_OTHER: Final = 1.15  # of an em, for scripts that are not in the table
_CLASSES: Final = {
    "ijlI|!.,:;' ": 0.37,
    'frt()[]{}/\\-\u00b7"': 0.47,
    "aceghknopqsuvxyzbd0123456789$?_*^~`\u2013\u00b0": 0.66,
    "ABCDEFGHJKLNPRSTUVXYZ&": 0.78,
    "mwMOQ#<>=+@W%\u2026\u2192\u00d7": 1.0,
}
_EM: Final = {char: em for chars, em in _CLASSES.items() for char in chars}


@lru_cache(maxsize=4096)
def width(text: str, size: float, *, bold: bool = False) -> float:
    """Of a text on one line."""
    ems = sum(_EM.get(char, 0.7 if "\u00c0" <= char <= "\u024f" else _OTHER) for char in text)
    return ems * size * (BOLD if bold else 1.0)


def clipped(text: str, size: float, room: float, *, bold: bool = False) -> str:
    """The text, cut with an ellipsis where it is wider than the room."""
    if width(text, size, bold=bold) <= room:
        return text
    kept = text
    while kept and width(kept + "\u2026", size, bold=bold) > room:
        kept = kept[: min(len(kept) - 1, int(room / size * 3))]
    return kept.rstrip() + "\u2026"
