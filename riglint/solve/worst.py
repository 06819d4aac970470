"""The worst that a component carries, and the facts without which that is only a lower bound. For rules."""

from __future__ import annotations

from math import inf

from riglint.mechanics.rounding import first_greatest
from riglint.plan.points import PointKind
from riglint.rig.model import Point
from riglint.solve.kept import kept
from riglint.solve.solution import CASES, Case, Component, Kind, Peak, StageSolution


def worst(stage: StageSolution, component: Component) -> tuple[Case, Peak] | None:
    """The case that a component carries most in, and the load; None where no case can be told."""
    found = [(case, stage.peaks[case][component.key]) for case in told(stage, component)]
    return first_greatest(found, lambda one: one[1].load_n) if found else None


def told(stage: StageSolution, component: Component) -> tuple[Case, ...]:
    """The cases in which a component's load is known; a load without end is none that anybody knows."""
    return tuple(case for case in CASES if (peak := stage.peak(component, case)) and peak.load_n < inf)


def untold(stage: StageSolution) -> tuple[str, ...]:
    """The facts without which the worst over all cases is known only as at least what is given.

    At stall everything carries at least what it carries as expected, so that where the stall is known, it is enough.
    """
    stall = stage.missing["stall"] if stage.stage.works == "hauling" else ()
    steady = stage.missing["expected"] if stall or stage.stage.works != "hauling" else ()
    return tuple(dict.fromkeys((*stall, *steady)))


def line_pull_n(stage: StageSolution, case: Case, peak: Peak) -> float | None:
    """The line pull that a load at stall grows with; the winch's best where its drum isn't stated."""
    return pull_at_n(stage, case, peak.station)


def pull_at_n(stage: StageSolution, case: Case, station: int) -> float | None:
    """The same for what is worked out of several loads at one station, such as a moment."""
    winch = stage.component("winch", "winch")
    return stage.stations[station].load(winch, case) if case == "stall" and winch else None


def carrying(stage: StageSolution, kind: Kind) -> tuple[Component, ...]:
    """The components of one kind."""
    return tuple(c for c in stage.components if c.kind == kind)


@kept
def points(stage: StageSolution, *kinds: PointKind) -> tuple[tuple[Component, Point], ...]:
    """The points that carry load, of these kinds or of any; none where the rig can't stand."""
    if kinds:
        return tuple(pair for pair in points(stage) if pair[1].facts.kind in kinds)
    components = stage.components if stage.stations else ()
    return tuple((component, item) for component in components if isinstance(item := component.item, Point))
