"""The rig can stand as it is planned.

A redirect that hangs between lines, or a bridle's middle, goes where the forces on it balance. Where there is
no such place, because a line is too short to reach, a redirect would be pulled past what holds it, or nothing
holds it on one side, the plan describes something that can't be built, and nothing about it can be judged.

    sum of (tension * direction) = 0 at everything that floats

A second line that hangs slack while the winch pulls does nothing: the rig is not the one that was meant. That
is a WARNING.

What to do: check the lengths of the lines and the places of the points that hold them; hang the redirect from a
point.

Worked example: two legs at 60 deg on either side hold a floating block against one.
pull = 10 kN; angle = 60 deg; held = 2 * pull * cos(angle) = 10.0 kN
"""

from math import inf

from riglint.outcome import Where
from riglint.rig.model import Line
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.solution import Leg

_BASIS = Basis("derivation", "forces balance at everything that floats")
_WORDS = Words(
    "this rig can't stand as planned: {reason}",
    "the rig stands as planned", "whether the rig stands as planned can't be told",
    "Check the lengths of the lines and the places of what holds them",
)  # fmt: skip
_SLACK = Words(
    "{line} hangs slack {travel} into the travel and pulls nothing", "{line} is taut wherever the winch pulls", "",
    "Shorten it, or move what holds it",
)  # fmt: skip


@rule(
    title="A rig that can stand", grade=Grade.DANGER, guards="line", basis=(_BASIS,),
    worse=Worse.by(taken_away="lines/*/pieces/*/length"),
)  # fmt: skip
def rig_stands(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        where = Where("stage", stage.stage.name, stage.stage.pointer or "/lines", "", stage.stage.index)
        unstated = [p.pointer for line in stage.stage.others for p in line.pieces if p.name in line.unstated]
        if unstated:
            yield holds(None, where, _WORDS, missing=tuple(place(pointer, "length") for pointer in unstated))
        else:
            yield holds(stage.refused is None, where, _WORDS, terms=(("reason", stage.refused or ""),))
            for line in stage.stage.others if stage.stations else ():
                yield _taut(stage, line)


def _slack(leg: Leg) -> bool:
    return max(leg.tension.values(), default=inf) == 0.0


def _taut(stage: StageSolution, line: Line) -> Check:
    travel_m = next(
        (s.travel_m for s in stage.stations for leg in s.legs if leg.line == line.name and _slack(leg)), None
    )
    where = Where("line", line.name, line.pointer, "", stage.stage.index, travel_m)
    return holds(travel_m is None, where, _SLACK, terms=(("line", line.name),), grade=Grade.WARNING)
