"""The pull lies along the way that the load has to go.

A pull from the side swings the load round, rolls a wheel off the track or tips it, and what the plan reckons
with is a load that moves straight ahead. The rig is worked out on the load keeping its heading: yaw is a
finding here, not a motion.

    off_line = atan2(across, along)

Of all that pulls on the load together, at each station, as expected and at stall. No source gives a figure. Up
to 15 deg is common practice: a quarter of the pull then goes across. Past 45 deg more goes across than ahead: a
WARNING.

What to do: move the anchor, lead the line over a redirect that stands ahead of the load, or pull from both
sides.

Worked example: a tree 3 m beside the way and 8 m ahead.
across = 3 m; along = 8 m; off_line = atan2(across, along) = 0.359
"""

from collections.abc import Iterator
from math import atan2, inf, pi, radians

from riglint.mechanics.vectors import scale, unit
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limit, Limits, Solution, StageSolution, rule
from riglint.rulebook.judge import Words, at_most, exceeds, first_greatest, here
from riglint.solve.pulls import off_direction_rad
from riglint.solve.rope import stages
from riglint.solve.solution import Component
from riglint.solve.worst import carrying, untold

_BASIS = Basis("common practice", "pull within 15 deg of the way that the load goes")
_WORDS = Words(
    "{name} is pulled {measured} off the way that it has to go, {limit} at most: it swings round or lifts",
    "{name} is pulled within {measured} of the way that it has to go",
    "how far to the side {name} is pulled can't be told",
    "Move the anchor into line, or lead the line over a redirect ahead of the load")  # fmt: skip


@rule(
    title="Pull off the line of travel", grade=Grade.CAUTION, guards="load", basis=(_BASIS,),
    limits=(Limit("off_line", radians(15.0), "rad", "most angle between the pull and the travel", _BASIS, "higher"),),
)  # fmt: skip
def pull_off_line(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for component in carrying(stage, "load"):
            yield _load(stage, component, limits["off_line"])


def _load(stage: StageSolution, component: Component, limit_rad: float) -> Check:
    pulls = [*_at_stall(stage), *_as_expected(stage, component)]
    if not pulls:
        return at_most(None, limit_rad, "rad", here(stage, component), _WORDS, missing=untold(stage))
    off_rad, station = first_greatest(pulls, lambda pull: pull[0])
    grade = Grade.WARNING if exceeds(off_rad, pi / 4) else None
    return at_most(off_rad, limit_rad, "rad", here(stage, component, "", station), _WORDS, grade=grade)


def _at_stall(stage: StageSolution) -> Iterator[tuple[float, int]]:
    for s in stage.stations:
        if s.pull_along_n is not None and s.pull_across_n is not None:
            yield atan2(s.pull_across_n, s.pull_along_n.low), s.index


def _as_expected(stage: StageSolution, component: Component) -> Iterator[tuple[float, int]]:
    """Lowered, the rope holds back: its pull lies along the travel the other way round."""
    peak = stage.peak(component, "expected")
    if peak is not None and peak.load_n > 0.0 and any(peak.force):
        way = stage.stage.direction if stage.stage.works == "hauling" else scale(stage.stage.direction, -1.0)
        # Square to the travel no pull draws the load on, however great.
        yield (off_direction_rad(unit(peak.force), way) if peak.load_n < inf else pi / 2), peak.station
