"""The day of the pull, as every command with options takes it. Only this and the call without any look at the clock."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

Day = Annotated[
    str | None, typer.Option("--on", metavar="DAY", help="Day of the pull, such as 2026-03-14; today if left out.")
]


def told_day(text: str | None) -> date | None:
    """The day that the user names, if any."""
    from riglint.kit.dates import parse_day  # noqa: PLC0415 -- only when a command runs

    day = None if text is None else parse_day(text)
    if text is not None and day is None:
        raise typer.BadParameter("write year, month and day, such as 2026-03-14", param_hint="--on")
    return day


def day_of_pull(text: str | None) -> date:
    """The day that the user names, or else today."""
    return told_day(text) or today()


def today() -> date:
    """What the clock says."""
    return date.today()
