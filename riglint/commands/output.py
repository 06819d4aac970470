"""Writing to standard output and error: colour only where it serves, no traceback for a reader that left."""

from __future__ import annotations

import os
import sys

from riglint.commands.exits import Exit
from riglint.report.ink import Ink


def emit(text: str) -> None:
    """Write to standard output. Where the reader has left, the run still ends with its own code."""
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        # What is still to come goes nowhere, and the interpreter's own flush finds nothing to complain of.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def complain(text: str, code: Exit) -> Exit:
    """One message on standard error; gives the code back."""
    sys.stderr.write("".join(f"riglint: {line}\n" for line in text.splitlines() or [""]))
    return code


def ink(choice: str) -> Ink:
    """Colour if told so; else only on a terminal that takes it, with NO_COLOR not set."""
    if choice != "auto":
        return Ink(choice == "always")
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return Ink(not plain and sys.stdout.isatty())
