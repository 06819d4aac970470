"""The command `estimate` and its options. Thin: the work is imported when it runs."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from riglint.commands.day import Day, day_of_pull


class EstimateAs(StrEnum):
    """Forms of an estimate."""

    text = "text"
    json = "json"


class ReportsIn(StrEnum):
    """Systems of units, as a plan names them."""

    metric = "metric"
    imperial = "imperial"


def _text(name: str, example: str, about: str) -> object:
    return typer.Option(name, metavar=example, help=about)


_Text = str | None
_File = Annotated[Path | None, typer.Argument(metavar="[FILE]", help="A few lines of YAML; options go before them.")]
_Rulebooks = Annotated[
    list[Path] | None,
    typer.Option("--rulebook", metavar="FOLDER", help="A further rulebook, whose code is run; repeatable."),
]


def estimate(
    file: _File = None,
    *,
    weight: Annotated[_Text, _text("--weight", "'6 t'", "Weight of the load, with cargo.")] = None,
    mired: Annotated[_Text, _text("--mired", "DEPTH", "none, wheel depth, fender depth or cab depth.")] = None,
    surface: Annotated[_Text, _text("--surface", "GROUND", "What the load stands on, such as gravel.")] = None,
    penetration: Annotated[_Text, _text("--penetration", "'60 mm'", "How deep its tyres sink in.")] = None,
    slope: Annotated[_Text, _text("--slope", "'4 deg up'", "Along the pull.")] = None,
    resistance: Annotated[_Text, _text("--resistance", "'30 kN'", "What it resists with, if known.")] = None,
    distance: Annotated[_Text, _text("--distance", "'6 m'", "How far the load must go.")] = None,
    reach: Annotated[_Text, _text("--reach", "'25 m'", "From the winch to the load, as it stands.")] = None,
    winch: Annotated[_Text, _text("--winch", "NUMBER", "The winch's number in the kit.")] = None,
    rated_pull: Annotated[_Text, _text("--rated-pull", "'50 kN'", "What the winch is rated for.")] = None,
    rated_layer: Annotated[int | None, typer.Option("--rated-layer", help="The layer that it is rated for.")] = None,
    stall_pull: Annotated[_Text, _text("--stall-pull", "'60 kN'", "The most that it can pull there.")] = None,
    rope: Annotated[_Text, _text("--rope", "NUMBER", "The rope's number in the kit.")] = None,
    reports_in: Annotated[
        ReportsIn | None, typer.Option("--reports-in", help="Units of the report and the plan.")
    ] = None,
    kit: Annotated[Path | None, typer.Option("--kit", metavar="FILE", help="The kit to choose from.")] = None,
    out: Annotated[Path | None, typer.Option("--out", "-o", metavar="PLAN", help="Write a plan to start from.")] = None,
    form: Annotated[EstimateAs, typer.Option("--as", help="Form of the report.")] = EstimateAs.text,
    on: Day = None,
    rulebook: _Rulebooks = None,
) -> None:
    """From weight, ground, distance, winch and kit to the fewest parts that do it, by doctrine's ladder.

    Exit code: 0 so many parts do it, 1 none do, or the rope or the kit doesn't reach, or facts are missing without
    which it may take more or the rope may not do, 2 wrong call, 3 a file or an option that can't be read.
    """
    from riglint.commands.estimate import EstimateCall, run  # noqa: PLC0415

    texts: dict[str, str | int | None] = {
        "weight": weight, "ground/mired": mired, "ground/surface": surface, "ground/penetration": penetration,
        "ground/slope": slope, "resistance": resistance, "distance": distance, "reach": reach,
        "winch/from_kit": winch, "winch/rated_pull": rated_pull, "winch/rated_layer": rated_layer,
        "winch/stall_pull": stall_pull, "rope/from_kit": rope,
        "reports_in": reports_in.value if reports_in else None,
    }  # fmt: skip
    options = {place: text for place, text in texts.items() if text is not None}  # a layer is a number
    raise typer.Exit(run(EstimateCall(file, options, kit, out, form.value, tuple(rulebook or ()), day_of_pull(on))))
