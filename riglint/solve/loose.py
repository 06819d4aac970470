"""Gear that is rigged and carries nothing: no balance tells where it stands, so nothing is judged by its place."""

from riglint.solve.kept import kept
from riglint.solve.solution import CASES, Kind, StageSolution, Station
from riglint.solve.wiring import sits_on_its_point

STRAIGHT_RAD = 1e-4  # a rope that turns by less runs straight past


def stands_loose(stage: StageSolution, station: Station, redirect: str) -> bool:
    """Whether a redirect may stand anywhere there: rope runs straight past it, or hangs slack.

    Range: a redirect that rope runs through. Source: derivation (a balance of no forces fixes no place).
    """
    hanger = stage.stage.redirects[redirect].hanger
    if hanger and sits_on_its_point(hanger):
        return False
    turns = [turn for turn in station.turns if turn.turn.redirect == redirect]
    return all(turn.wrap_rad < STRAIGHT_RAD for turn in turns) or hangs_slack(stage, station, "redirect", redirect)


@kept
def ever_loose(stage: StageSolution) -> frozenset[str]:
    """The redirects that may stand anywhere at some station. Source: derivation."""
    used = {turn.turn.redirect for station in stage.stations for turn in station.turns}
    return frozenset(name for name in used if any(stands_loose(stage, s, name) for s in stage.stations))


def where_it_stands(redirect: str) -> str:
    """What isn't known of a loose redirect, in the words in which every rule asks for it."""
    return f"where {redirect} stands: the line does not draw it anywhere"


def hangs_slack(stage: StageSolution, station: Station, kind: Kind, name: str) -> bool:
    """Whether a component carries nothing there in any case that can be told. Source: derivation."""
    component = stage.component(kind, name)
    loads = [station.load(component, case) for case in CASES] if component else []
    known = [load for load in loads if load is not None]
    return bool(known) and not any(known)
