"""The worst that a component carries, and how grave it is to be over what it may carry. For rules."""

from __future__ import annotations

from typing import Final

from riglint.outcome import Grade
from riglint.solve.solution import CASES, Case, Component, Kind, Peak, StageSolution

TIMES_WORKING: Final = 2.0  # the proof load of shackles: past it nothing is promised
SHARE_OF_BREAKING: Final = 0.75  # where fibre is damaged for good


def worst(stage: StageSolution, component: Component) -> tuple[Case, Peak] | None:
    """The case that a component carries most in, and the load; None where no case can be told."""
    found = [(case, peak) for case in CASES if (peak := stage.peak(component, case))]
    return max(found, key=lambda one: one[1].load_n) if found else None


def untold(stage: StageSolution) -> tuple[str, ...]:
    """The facts without which the worst over all cases is known only as at least what is given.

    At stall everything carries at least what it carries as expected, so that where the stall is known, it is enough.
    """
    stall = stage.missing["stall"] if stage.stage.works == "hauling" else ()
    steady = stage.missing["expected"] if stall or stage.stage.works != "hauling" else ()
    return tuple(dict.fromkeys((*stall, *steady)))


def line_pull_n(stage: StageSolution, case: Case, peak: Peak) -> float | None:
    """The line pull that a load at stall grows with."""
    drum = stage.stations[peak.station].drum
    return drum.stall_n if case == "stall" and drum else None


def graded(load_n: float, working_n: float | None, breaking_n: float | None) -> Grade:
    """DANGER for what is far over what it may carry: twice its working load, or three quarters of its strength."""
    far = working_n is not None and load_n > TIMES_WORKING * working_n
    near = breaking_n is not None and load_n > SHARE_OF_BREAKING * breaking_n
    return Grade.DANGER if far or near else Grade.WARNING


def carrying(stage: StageSolution, kind: Kind) -> tuple[Component, ...]:
    """The components of one kind."""
    return tuple(c for c in stage.components if c.kind == kind)
