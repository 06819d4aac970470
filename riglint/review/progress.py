"""How far a long run has come, on standard error.

On a terminal one line that changes, elsewhere a line now and then.
"""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Final

_SILENT_S: Final = 2.0
_TERMINAL_S: Final = 0.2
_LOG_S: Final = 15.0
_ENOUGH: Final = 10
"""Plans from which the time that is left can be told: the first ones wait for the workers to start."""


class Progress:
    """Says how many of `whole` are done. Short runs say nothing."""

    def __init__(self, whole: int, *, quiet: bool = False) -> None:
        self._whole, self._quiet = whole, quiet
        self._terminal = sys.stderr.isatty()
        self._begun = time.monotonic()
        self._next = self._begun + _SILENT_S
        self._done = 0
        self._shown = False

    def step(self) -> None:
        """One more is done."""
        self._done += 1
        now = time.monotonic()
        if self._quiet or now < self._next:
            return
        self._next = now + (_TERMINAL_S if self._terminal else _LOG_S)
        left_s = (now - self._begun) / self._done * max(0, self._whole - self._done)
        left = f", about {left_s:.0f} s left" if self._done >= _ENOUGH else ""
        text = f"riglint: {self._done} of {self._whole} files{left}"
        sys.stderr.write(f"\r{text:<70}" if self._terminal else f"{text}\n")
        sys.stderr.flush()
        self._shown = self._terminal

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._shown:
            sys.stderr.write(f"\r{'':<70}\r")
