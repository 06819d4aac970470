"""Questions and a kit to ask them with."""

from datetime import date
from pathlib import Path

from riglint.estimate.ask import ask
from riglint.estimate.estimate import Estimate, estimate
from riglint.house.context import Contexts
from riglint.outcome import Inspection
from riglint.rulebook.find import standard_rulebook
from riglint.solve.solution import Solution
from riglint.solve.solve import solve

BOOK = standard_rulebook()

KIT = """\
rig_kit: 1
title: A lorry's kit
gear:
  W-1: {is: winch, rated_pull: 32 kN, rated_layer: 1, stall_pull: 38 kN,
        drum: {diameter: 280 mm, width: 300 mm, flange: 430 mm}, fairlead: {ahead: 0.2 m, from_drum: 0.5 m}}
  R-1: {is: piece, rope: "wire, steel core", diameter: 14 mm, length: 110 m, breaking: 124 kN}
  R-2: {is: piece, rope: "wire, steel core", diameter: 14 mm, length: 60 m, breaking: 124 kN}
  B-1: {is: redirect, kind: block, loss: 4 % to 8 %,
        sheave: {tread: 250 mm, groove_for: 13 mm to 15 mm, rated: 50 kN, rated_for: line}}
  B-2: {is: redirect, kind: block, loss: 4 % to 8 %,
        sheave: {tread: 250 mm, groove_for: 13 mm to 15 mm, rated: 50 kN, rated_for: line}}
  B-3: {is: redirect, kind: block, sheave: {groove_for: 9 mm to 11 mm, rated: 50 kN, rated_for: line}}
  B-4: {is: redirect, kind: block, sheave: {groove_for: 13 mm to 15 mm, rated: 500 kN}}
  S-1: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 83 kN}
  S-2: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 83 kN}
  S-3: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 46 kN}
  S-4: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 20 kN}
  S-5: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 300 kN, retired: bent}
"""
TRUCK = """\
weight: 5.6 t to 6.0 t
ground: {mired: wheel depth, slope: 4 deg up}
distance: 6 m
reach: 25 m
"""
BOG = """\
reports_in: imperial
weight: 25000 lb
ground: {mired: fender depth, slope: 0 deg}
running_gear: wheels
distance: 20 ft
reach: 80 ft
winch: {rated_pull: 20000 lbf, rated_layer: 1}
"""


def asked(folder: Path, text: str = "", kit: str = "", *, day: date | None = None, **options: str | int) -> Estimate:
    """An estimate from a file's text and options; `ground__mired` is the option `ground/mired`."""
    file = folder / "question.yaml"
    file.write_text(text)
    if kit:
        (folder / "kit.yaml").write_text(kit)
    places = {place.replace("__", "/"): value for place, value in options.items()}
    return estimate(ask(file if text else None, places, folder / "kit.yaml" if kit else None, day), BOOK)


def checked(plan: Path) -> tuple[Solution, Inspection]:
    """What prepull makes of a plan. Raises ReadingFailed where it can't be read."""
    context = Contexts().of(plan)
    solution = solve(context.load(plan.read_bytes(), plan.name).rig)
    return solution, context.inspect(solution)
