"""The other way: from weight, ground, distance, winch and kit to the fewest parts, and a plan to start from."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import NamedTuple

from riglint.commands.exits import Exit
from riglint.commands.output import complain, emit
from riglint.estimate.ask import ask
from riglint.estimate.estimate import Estimate, estimate
from riglint.estimate.starter import NoStartError, starter
from riglint.reading.problems import ReadingFailed
from riglint.review.whole_file import whole_file
from riglint.rulebook.book import RulebookError
from riglint.rulebook.find import rulebooks


class EstimateCall(NamedTuple):
    """What the user asked for; `options` are texts by their place in the question."""

    file: Path | None
    options: Mapping[str, str | int]
    kit: Path | None = None
    out: Path | None = None
    form: str = "text"
    rulebooks: tuple[Path, ...] = ()
    day: date | None = None


def run(call: EstimateCall) -> Exit:
    """Estimate, print, write the plan if one is wanted, and give the code to end with."""
    try:
        found = estimate(ask(call.file, call.options, call.kit, call.day), rulebooks(call.rulebooks))
        _print(found, call.form)
        if call.out:
            with whole_file(call.out) as stream:
                stream.write(starter(found, call.out.parent).encode("utf-8"))
    except ReadingFailed as failed:
        return complain(str(failed), Exit.UNREADABLE)
    except (RulebookError, NoStartError) as error:
        return complain(str(error), Exit.WRONG_CALL if isinstance(error, RulebookError) else Exit.HALTED)
    except OSError as error:
        return complain(f"{error.filename}: {error.strerror or error}", Exit.WRONG_CALL)
    return Exit.CLEAR if found.is_done else Exit.HALTED


def _print(found: Estimate, form: str) -> None:
    if form == "json":
        from riglint.estimate.data import as_json  # noqa: PLC0415 -- only the form that was asked for

        emit(as_json(found))
    else:
        from riglint.estimate.text import report  # noqa: PLC0415 -- as above

        emit(report(found))
