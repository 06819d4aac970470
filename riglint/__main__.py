"""The command `riglint`."""

from __future__ import annotations

import gc
import os
import sys
from datetime import date

BROKEN = 4
LOOSE = 500_000
"""Objects between two collections: start-up makes a hundred thousand that stay, and looking through them costs."""


def main() -> None:
    """Run the command; whatever goes wrong ends in a line and a code, never in a traceback."""
    gc.set_threshold(LOOSE)
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "1")  # nothing else may have a say in what a plan is
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]
    code = _run(sys.argv[1:])
    for stream in (sys.stdout, sys.stderr):
        stream.flush()
    os._exit(code)  # taking the interpreter apart again costs as much as a plan


def _run(words: list[str]) -> int:
    try:
        return _plainly(words[1:]) if _is_plain(words) else _by_options(words)
    except KeyboardInterrupt:
        sys.stderr.write("riglint: stopped\n")
    except Exception as error:  # the last place where anything can be caught
        said = " ".join(str(error).split())
        sys.stderr.write(f"riglint: the program itself failed: {type(error).__name__}: {said}\n")
    return BROKEN


def _is_plain(words: list[str]) -> bool:
    """Whether it is `prepull` with plans alone: the everyday call, which needs no parser of options."""
    return len(words) > 1 and words[0] == "prepull" and not any(w.startswith("-") and w != "-" for w in words)


def _plainly(plans: list[str]) -> int:
    from riglint.commands import prepull  # noqa: PLC0415 -- imported when needed, told in a line if broken

    return prepull.prepull(prepull.Call(tuple(plans), day=date.today()))


def _by_options(words: list[str]) -> int:
    from riglint.commands.app import app  # noqa: PLC0415 -- as above

    try:
        app(words, prog_name="riglint")
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else 0 if end.code is None else BROKEN
    return 0


if __name__ == "__main__":
    main()
