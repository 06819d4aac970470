"""How the load of gear comes about, in the student's own numbers: the legs that pull on it, and the angle between."""

from __future__ import annotations

from math import inf
from typing import Final

from riglint.mechanics.angles import resultant_n
from riglint.outcome import Check
from riglint.report.numbers import show, travel
from riglint.rig.model import Chain, RigStage
from riglint.solve.solution import CASES, Case, Solution, Station, TurnFigures

_NEAR: Final = 0.005
"""Each leg is given at its own worst. Where the two can't be so at once, their sum isn't the load, and isn't shown."""


def comes_about(check: Check, solution: Solution, system: str) -> str:
    """For a redirect and what it hangs by, at the place where the load is worst; else nothing."""
    where, load_n = check.where, check.measured
    stage = solution.stages[where.stage]
    case = next((case for case in CASES if case == where.case), None)
    component = next((c for c in stage.components if (c.kind, c.name) == (where.kind, where.name)), None)
    peak = stage.peak(component, case) if component and case else None
    redirect = _redirect(stage.stage, where.name)
    if case is None or peak is None or redirect is None or check.unit != "N" or not load_n:
        return ""
    station = stage.stations[peak.station]
    turns = [turn for turn in station.turns if turn.turn.redirect == redirect]
    if len(turns) != 1:
        return ""
    return _told(station, turns[0], case, load_n, system)


def _told(station: Station, turn: TurnFigures, case: Case, load_n: float, system: str) -> str:
    legs = [leg for leg in station.legs if leg.line == turn.line]
    one, other = legs[turn.index].tension.get(case), legs[turn.index + 1].tension.get(case)
    if one is None or other is None or not max(one, other) < inf:
        return ""
    total = resultant_n(one, other, turn.included_rad)
    if abs(total - load_n) > _NEAR * load_n:
        return ""
    texts = [show(x, "N", system) for x in (one, other)]
    angle, far = show(turn.included_rad, "rad", system), travel(station.travel_m, system)
    return (
        f"{turn.turn.redirect} has two legs on it; at {far} of travel they pull with {texts[0]} and {texts[1]}, "
        f"{angle} apart: load = sqrt(a^2 + b^2 + 2 * a * b * cos(angle)) = {show(total, 'N', system)}"
    )


def _redirect(stage: RigStage, name: str) -> str | None:
    """The redirect of that name or with that seat, or the one that hangs by a connector of that name."""
    owner = name.partition(".")[0]
    if owner in stage.redirects:
        return owner
    return next((r.name for r in stage.redirects.values() if r.hanger and _holds(r.hanger, name)), None)


def _holds(chain: Chain, name: str) -> bool:
    return any(connector.name == name for connector in chain.connectors)
