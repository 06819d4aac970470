"""A small rig with gear of a kit, to edit."""

from collections.abc import Callable
from datetime import date

from riglint.kit.read import Kit, read_kit
from riglint.plan.load import LoadedPlan, load_plan
from riglint.reading.problems import Problem, ReadingFailed

KIT = """\
rig_kit: 1
title: Lorry 2
gear:
  W-1: {is: winch, rated_pull: 40 kN, rated_layer: 1, stall_pull: 50 kN, drum: {diameter: 90 mm, width: 200 mm}}
  R-1: {is: piece, rope: hmpe, diameter: 11 mm, length: 40 m, breaking: 115 kN, basis: certificate, serial: A7}
  R-2: {is: piece, rope: hmpe, diameter: 11 mm, length: 20 m, breaking: 115 kN, condition: [fuzzy, cut]}
  S-1: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 4.75 t, diameter: 22 mm, serial: B1}
  S-2: {is: connector, kind: soft shackle, breaking: 150 kN, basis: maker's sheet, serial: B2, notes: grey bag}
  S-3: {is: connector, kind: strap, length: 3 m, working_load: 60 kN, retired: cut}
  B-1: {is: redirect, kind: block, loss: 4 %, sheave: {tread: 110 mm, rated: 60 kN, rated_for: line}}
  P-1: {is: point, kind: ground anchor, rated: 30 kN, inspected: 2026-01-31, inspection_interval: 1 month}
  J-1: {is: join, kind: swaged link, breaking: 100 kN}
"""
PLAN = """\
rig_plan: 1
title: Gear of a kit
bodies:
  van: {moves: {distance: 5 m, bearing: 0 deg}, resistance: {steady: 9 kN}}
points:
  eye: {on: van, at: [0 m, 0 m]}
  anchor: {on: ground, at: [30 m, 0 m], from_kit: P-1}
winch: {mounted: anchor, from_kit: W-1, drum: {flange: 190 mm}}
lines:
  haul:
    pieces:
      - main: {from_kit: R-1}
      - join: {from_kit: S-2}
      - more: {from_kit: R-2, condition: glazed, length: 19 m}
    path: [winch, block.sheave, [bow, anchor]]
redirects:
  block: {from_kit: B-1, hung_from: [strap, eye], sheave: {groove_for: 10 mm to 12 mm}}
connectors:
  bow: {from_kit: S-1, wrapped: single}
  strap: {from_kit: S-3, wrapped: basket}
"""


def kit(text: str = KIT) -> Kit:
    return read_kit(text, "kit.yaml")


def written_out(text: str, kit_text: str = KIT, today: date | None = None) -> LoadedPlan:
    """The plan with the kit at hand."""
    return load_plan(text, "plan.yaml", lambda _: kit(kit_text), today)


def problems_of(load: Callable[[], object]) -> tuple[Problem, ...]:
    """What is wrong; fails where nothing is."""
    try:
        load()
    except ReadingFailed as failed:
        return failed.problems
    raise AssertionError("nothing was found wrong")


def edited(text: str, *edits: tuple[str, str]) -> str:
    for old, new in edits:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text
