"""The loads of a component against what it may carry: one check a case, alike in every rule that asks for it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Final

from riglint.outcome import Check, Formula, Grade, Step
from riglint.rulebook.design_factors import HAULING
from riglint.rulebook.judge import Words, at_most, exceeds, here
from riglint.solve.ratings import Capacity as MayCarry
from riglint.solve.ratings import Rating
from riglint.solve.solution import Case, Component, StageSolution
from riglint.solve.worst import line_pull_n, told, untold, worst

TIMES_WORKING: Final = 2.0  # the proof load of shackles: past it nothing is promised
SHARE_OF_BREAKING: Final = 0.75  # where fibre is damaged for good

Capacity = tuple[float | None, tuple[Step, ...]]
_MARKED: Final = Formula(
    "may_carry", "working_load * share", (("working_load", "N"), ("share", "1")), "N"
)  # fmt: skip
_DIVIDED: Final = Formula(
    "may_carry", "breaking / factor * share", (("breaking", "N"), ("factor", "1"), ("share", "1")), "N"
)  # fmt: skip


def graded(load_n: float, working_n: float | None, breaking_n: float | None = None) -> Grade:
    """DANGER for what is far over what it may carry: twice its working load, or three quarters of its strength."""
    far = working_n is not None and exceeds(load_n, TIMES_WORKING * working_n)
    near = breaking_n is not None and exceeds(load_n, SHARE_OF_BREAKING * breaking_n)
    return Grade.DANGER if far or near else Grade.WARNING


def grade_of_use(load_n: float, rating: Rating, factor_at_stall: float, *, at_stall: bool) -> Grade:
    """By consequence. Not every factor is one for hauling: past a lifting factor alone is no WARNING."""
    share = rating.share.high
    strength_n = None if rating.breaking_n is None else rating.breaking_n * share
    grade = graded(load_n, None if rating.working_n is None else rating.working_n * share, strength_n)
    if grade is Grade.DANGER or rating.working_n is not None or strength_n is None:
        return grade
    rope = rating.gear[0] in HAULING
    half = not exceeds(load_n, strength_n / factor_at_stall)
    return Grade.CAUTION if rope is at_stall and (rope or half) else grade


def capacity_shown(rating: Rating, may: MayCarry, factors: Sequence[float]) -> Step:
    """How the least that something may carry comes of its mark, or of its strength."""
    if rating.working_n is not None:
        return _MARKED.step(may.low_n, rating.working_n, rating.share.low)
    return _DIVIDED.step(may.low_n, rating.breaking_n or 0.0, max(factors), rating.share.low)


def lacks(stage: StageSolution, case: Case) -> tuple[str, ...]:
    """The facts without which a load in this case is only known to be at least so much."""
    return stage.missing["stall"] if case == "stall" else untold(stage)


def against(
    stage: StageSolution, component: Component, of: Callable[[Case], Capacity], words: tuple[Words, Words],
    measure: str, *, missing: tuple[str, ...] = (), steady: Grade | None = None, breaking_n: float | None = None,
) -> Iterator[Check]:  # fmt: skip
    """Each case's worst load against what `of` gives for it; `words` steady and at stall.

    Over it at stall is graded by how far; in the other cases too, unless `steady` says how grave that is. Where
    what it may carry isn't known, one check says so.
    """
    cases = told(stage, component)
    if not cases:
        yield at_most(None, None, "N", here(stage, component), words[0], missing=missing + untold(stage))
        return
    most = worst(stage, component)
    for case in cases:
        may_n, steps = of(case)
        if may_n is None and most and case != most[0]:
            continue
        peak = stage.peaks[case][component.key]
        over = may_n is not None and exceeds(peak.load_n, may_n)
        grade = steady if steady and case != "stall" else graded(peak.load_n, may_n, breaking_n)
        yield at_most(
            peak.load_n, may_n, "N", here(stage, component, case, peak.station), words[case == "stall"],
            missing=missing if may_n is None else missing + lacks(stage, case), working=steps,
            pull_n=line_pull_n(stage, case, peak), measure=measure, grade=grade if over else None,
        )  # fmt: skip
