"""Gear that is rigged and carries nothing: no balance tells where it stands, so nothing is judged by its place."""

from riglint.solve.solution import CASES, Kind, StageSolution, Station
from riglint.solve.wiring import GONE

STRAIGHT_RAD = 1e-4  # a rope that turns by less runs straight past


def stands_loose(stage: StageSolution, station: Station, redirect: str) -> bool:
    """Whether a redirect may stand anywhere there: rope runs straight past it, or hangs slack.

    Range: a redirect that rope runs through. Source: derivation (a balance of no forces fixes no place).
    """
    hanger = stage.stage.redirects[redirect].hanger
    if hanger and not hanger.arms and hanger.length_m < GONE:
        return False  # it sits on its point
    turns = [turn for turn in station.turns if turn.turn.redirect == redirect]
    return all(turn.wrap_rad < STRAIGHT_RAD for turn in turns) or hangs_slack(stage, station, "redirect", redirect)


def ever_loose(stage: StageSolution, redirect: str) -> bool:
    """Whether a redirect may stand anywhere at some station. Source: derivation."""
    return any(stands_loose(stage, station, redirect) for station in stage.stations)


def where_it_stands(redirect: str) -> str:
    """What isn't known of a loose redirect, in the words in which every rule asks for it."""
    return f"where {redirect} stands: the line does not draw it anywhere"


def hangs_slack(stage: StageSolution, station: Station, kind: Kind, name: str) -> bool:
    """Whether a component carries nothing there in any case that can be told. Source: derivation."""
    component = stage.component(kind, name)
    loads = [station.load(component, case) for case in CASES] if component else []
    known = [load for load in loads if load is not None]
    return bool(known) and not any(known)
