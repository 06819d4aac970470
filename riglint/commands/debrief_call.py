"""The command `debrief` and its options. Thin: the work is imported when it runs."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from riglint.commands.day import told_day


class DebriefAs(StrEnum):
    """Forms of a debrief."""

    text = "text"
    html = "html"
    csv = "csv"


_Paths = Annotated[list[Path], typer.Argument(metavar="PLAN...", help="Students' plans; a folder is a class.")]
_Day = Annotated[
    str | None,
    typer.Option("--on", metavar="DAY", help="Day of the pull, such as 2026-03-14; the task's or today if left out."),
]
_Rulebooks = Annotated[
    list[Path] | None,
    typer.Option("--rulebook", metavar="FOLDER", help="A further rulebook, whose code is run; repeatable."),
]


def debrief(
    plans: _Paths,
    *,
    hints: Annotated[
        int, typer.Option("--hints", min=1, max=3, help="1 where to look, 2 what to ask yourself, 3 the working.")
    ] = 1,
    model: Annotated[Path | None, typer.Option("--model", metavar="PLAN", help="A model plan to compare with.")] = None,
    brief: Annotated[Path | None, typer.Option("--brief", metavar="TASK", help="The task: goals and marks.")] = None,
    form: Annotated[DebriefAs, typer.Option("--as", help="Form of the debrief; csv is the table of a class.")] = (
        DebriefAs.text
    ),
    out: Annotated[Path | None, typer.Option("--out", "-o", metavar="FILE", help="Where to write it.")] = None,
    kit: Annotated[Path | None, typer.Option("--kit", metavar="FILE", help="The kit for all plans.")] = None,
    house: Annotated[Path | None, typer.Option("--house", metavar="FILE", help="The house file for all plans.")] = None,
    on: _Day = None,
    rulebook: _Rulebooks = None,
) -> None:
    """Feedback that teaches: where to look, what to ask yourself, or the working; for a folder the table of a class.

    Exit code: 0 debriefed, whatever was found, 2 wrong call, 3 a plan that can't be read, 4 a rule or the program
    itself failed.
    """
    from riglint.commands.debrief import DebriefCall, run  # noqa: PLC0415

    further, day = tuple(rulebook or ()), told_day(on)
    call = DebriefCall(tuple(plans), hints, model, brief, form.value, out, kit, house, further, day)  # type: ignore[arg-type]
    raise typer.Exit(run(call))
