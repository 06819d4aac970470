"""The commands and their options. Thin: each hands over to a module of its own, imported when it runs."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from riglint.commands.day import Day, day_of_pull
from riglint.commands.debrief_call import debrief
from riglint.commands.estimate_call import estimate
from riglint.commands.review_call import review
from riglint.commands.tablet_call import tablet
from riglint.outcome import Grade

app = typer.Typer(
    name="riglint",
    help="Checks a vehicle-recovery rig plan before anybody pulls.",
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)


class As(StrEnum):
    """Forms of a report."""

    text = "text"
    json = "json"


class Colour(StrEnum):
    """When to use colour."""

    auto = "auto"
    always = "always"
    never = "never"


_Rulebooks = Annotated[
    list[Path] | None,
    typer.Option("--rulebook", metavar="FOLDER", help="A further rulebook, whose code is run; repeatable."),
]
_House = Annotated[
    Path | None,
    typer.Option("--house", metavar="FILE", help="The house file, in place of a house.yaml above the plan."),
]
_Kit = Annotated[
    Path | None, typer.Option("--kit", metavar="FILE", help="The kit, in place of the plan's or the house's.")
]
_As = Annotated[As, typer.Option("--as", help="Form of the report.")]


def _version(wanted: bool) -> None:
    if wanted:
        from riglint.version import VERSION  # noqa: PLC0415

        typer.echo(f"riglint {VERSION}")
        raise typer.Exit


@app.callback()
def riglint(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and stop.")
    ] = False,
) -> None:
    """Check a vehicle-recovery rig plan before anybody pulls."""


@app.command()
def prepull(
    plans: Annotated[list[str], typer.Argument(metavar="PLAN...", help="Rig plans; - is standard input.")],
    *,
    form: _As = As.text,
    workings: Annotated[bool, typer.Option("--workings", help="Show each calculation.")] = False,
    halt_at: Annotated[
        Grade, typer.Option("--halt-at", case_sensitive=False, help="The mildest grade that halts the pull.")
    ] = Grade.WARNING,
    rulebook: _Rulebooks = None,
    house: _House = None,
    kit: _Kit = None,
    day: Day = None,
    name: Annotated[str, typer.Option("--name", help="What to call the plan on standard input.")] = "-",
    colour: Annotated[Colour, typer.Option("--colour", help="When to use colour.")] = Colour.auto,
    remedies: Annotated[bool, typer.Option("--remedies", help="Try what would put each finding right.")] = False,
    headroom: Annotated[
        bool, typer.Option("--headroom", help="How far resistance, slope and angles go before the verdict does.")
    ] = False,
    write: Annotated[
        int | None, typer.Option("--write", metavar="N", help="Write remedy N into the plan's file, then report.")
    ] = None,
) -> None:
    """Work out each plan, check it by the rulebook and report.

    Exit code: 0 nothing at or above the halting grade, 1 findings or can't-tells there, 2 wrong call,
    3 a plan that can't be read, 4 a rule or the program itself failed.
    """
    from riglint.commands import prepull as job  # noqa: PLC0415

    call = job.Call(tuple(plans), form.value, workings, halt_at, tuple(rulebook or ()), name, colour.value)
    call = call._replace(house=house, kit=kit, day=day_of_pull(day), remedies=remedies, headroom=headroom, write=write)
    raise typer.Exit(job.prepull(call))


@app.command()
def draw(
    plan: Annotated[str, typer.Argument(metavar="PLAN", help="A rig plan; - is standard input.")],
    *,
    out: Annotated[Path | None, typer.Option("--out", "-o", metavar="FILE.svg", help="Where to write it.")] = None,
    stage: Annotated[str, typer.Option("--stage", help="Number or name of the stage to draw.")] = "1",
    station: Annotated[
        str, typer.Option("--station", help="Place on the travel: start, end, `3.5 m`, or words of an event.")
    ] = "start",
    rulebook: _Rulebooks = None,
    house: _House = None,
    kit: _Kit = None,
    day: Day = None,
) -> None:
    """Draw the rig to scale as an SVG, with pulls, use and danger areas.

    Exit code: 0 drawn, whatever the rules found, 2 wrong call, 3 a plan that can't be read, 4 a rule failed.
    """
    from riglint.commands import draw as job  # noqa: PLC0415

    raise typer.Exit(job.run(job.Call(plan, out, stage, station, tuple(rulebook or ()), house, kit, day_of_pull(day))))


@app.command()
def sheet(
    plan: Annotated[str, typer.Argument(metavar="PLAN", help="A rig plan; - is standard input.")],
    *,
    out: Annotated[Path | None, typer.Option("--out", "-o", metavar="FILE.html", help="Where to write it.")] = None,
    halt_at: Annotated[
        Grade, typer.Option("--halt-at", case_sensitive=False, help="The mildest grade that halts the pull.")
    ] = Grade.WARNING,
    rulebook: _Rulebooks = None,
    house: _House = None,
    kit: _Kit = None,
    day: Day = None,
    name: Annotated[str, typer.Option("--name", help="What to call the plan on standard input.")] = "-",
) -> None:
    """Write the sheet to take to the rig: verdict, picture, checklist to tick and sign, in one file.

    Exit code: 0 clear, 1 findings or can't-tells at or above the halting grade (the sheet is written, and can't be
    signed as clear), 2 wrong call, 3 a plan that can't be read, 4 a rule failed.
    """
    from riglint.commands import sheet as job  # noqa: PLC0415

    call = job.Call(plan, out, halt_at, tuple(rulebook or ()), name, house, kit, day_of_pull(day))
    raise typer.Exit(job.run(call))


@app.command()
def rulebook(
    rule: Annotated[str | None, typer.Argument(metavar="RULE", help="A rule whose page to print.")] = None,
    form: _As = As.text,
    folders: _Rulebooks = None,
    house: _House = None,
) -> None:
    """List the rules with grade, basis and limits, or print one rule's page."""
    from riglint.commands.rulebook import show  # noqa: PLC0415

    raise typer.Exit(show(rule, form.value, tuple(folders or ()), house))


@app.command()
def schemas(
    name: Annotated[str | None, typer.Argument(metavar="SCHEMA", help="The one to print.")] = None,
    *,
    write: Annotated[bool, typer.Option("--write", help="Write those that are generated.")] = False,
    check: Annotated[bool, typer.Option("--check", help="Fail if one isn't as generated.")] = False,
) -> None:
    """List the JSON Schemas, print one, or write or check those that are generated."""
    from riglint.commands.schemas import run  # noqa: PLC0415

    raise typer.Exit(run(name, write=write, check=check))


app.command()(debrief)
app.command()(estimate)
app.command()(review)
app.command()(tablet)
