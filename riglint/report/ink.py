"""Colour for signal words and verdicts, after ANSI Z535: only ever beside the word itself."""

from __future__ import annotations

from typing import Final

from riglint.outcome import Grade, Verdict

_CODES: Final = {
    Grade.DANGER: "1;97;41",
    Grade.WARNING: "1;30;48;5;208",
    Grade.CAUTION: "1;30;43",
    Grade.NOTICE: "1;97;44",
    Verdict.NOT_CLEAR: "1;97;41",
    Verdict.CANT_TELL: "1;30;43",
    Verdict.CLEAR: "1;97;42",
}


class Ink:
    """Puts colour on a word where colour is on, and leaves it as it is where not."""

    __slots__ = ("on",)

    def __init__(self, on: bool) -> None:
        self.on = on

    def mark(self, kind: Grade | Verdict, word: str) -> str:
        """The word in the colour of its grade or verdict."""
        return f"\x1b[{_CODES[kind]}m{word}\x1b[0m" if self.on else word
