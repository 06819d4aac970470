"""The job `review`: many plans at once, for CI and the safety officer."""

from __future__ import annotations

from collections.abc import Iterable
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

from riglint.commands.exits import Exit
from riglint.commands.output import complain, emit
from riglint.reading.problems import ReadingFailed
from riglint.review.merge import MergeError
from riglint.review.run import Order, review
from riglint.review.since import SinceError
from riglint.review.whole_file import whole_file
from riglint.rulebook.book import RulebookError


def run(order: Order, out: Path | None = None) -> Exit:
    """Review, write the report, and give the code to end with."""
    if out and not out.absolute().parent.is_dir():  # better said now than when all is done
        return complain(f"the report can't be written: there is no folder {out.parent}", Exit.WRONG_CALL)
    try:
        with review(order) as done:
            _write(done.pieces, out)
            if not done.plans and not order.slice:  # a folder that was mistyped must not pass for clear
                return complain("there was no plan to review", Exit.WRONG_CALL)
            return Exit(done.code)
    except (RulebookError, MergeError, SinceError, ReadingFailed) as error:
        return complain(str(error), Exit.WRONG_CALL)
    except OSError as error:
        what = f"{error.strerror or error}: {error.filename or ''}"
        return complain(f"the report can't be written: {what}", Exit.WRONG_CALL)
    except BrokenProcessPool:
        return complain("a process of the review was ended from outside; nothing was written", Exit.BROKEN)


def _write(pieces: Iterable[str], out: Path | None) -> None:
    """To standard output, or to a file that is there whole or not at all."""
    if out is None:
        for piece in pieces:
            emit(piece)
        return
    with whole_file(out) as stream:
        stream.writelines(piece.encode("utf-8", "backslashreplace") for piece in pieces)
