"""Rope that was wound on loose.

The outer layer under load cuts down between loose wraps, jams there or drops with a jerk,
and on the way out it may wind itself in backwards.

How it is judged: a drum wound loose fails if the rope leaves it from the second layer or
higher at any station; on the bottom layer alone there is nothing to cut into. How the
rope was wound on has to be stated where more than one layer is in use.

Common practice; no published clause was read.

No equation.

What to do: pay all of it out but the wraps that stay, and wind it on again under a pull
of about a tenth of the rated one.

Worked example: the pull to wind on with, for a winch of 53 kN.
rated = 53 kN; wind_on = 0.1 * rated = 5.3 kN
"""

from math import inf, isfinite

from riglint.outcome import Where
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.rope import stages

_BASIS = Basis("common practice", "rope is wound on under tension", scope="winching")

_WORDS = Words(
    "the rope was wound on loose, and the pull is from layer {layer}: it cuts in between the wraps",
    "the rope was wound on under tension, or leaves from the bottom layer",
    "nobody says whether the rope was wound on under tension",
    "Pay it out and wind it on again under a steady pull",
)


@rule(
    title="Rope wound on loose", grade=Grade.CAUTION, guards="drum", basis=(_BASIS,),
    worse=Worse.by(higher="lines/*/pieces/*/length", taken_away="winch/spooled"),
)  # fmt: skip
def spooled_loose(solution: Solution, limits: Limits) -> Checks:
    found = list(stages(solution))
    if found:
        yield _check(max(found, key=_layer))


def _layer(stage: StageSolution) -> float:
    """The highest layer in use; of a drum that isn't known, more than one."""
    return max(station.drum.layer[1] if station.drum else inf for station in stage.stations)


def _check(stage: StageSolution) -> Check:
    winch, layer = stage.stage.winch, _layer(stage)
    where = Where("drum", "drum", winch.pointer, "", stage.stage.index)
    how = winch.facts.spooled
    missing = (place(winch.pointer, "spooled"),) if how is None and layer > 1 else ()
    terms = (("layer", str(layer) if isfinite(layer) else "more than the first"),)
    grade = Grade.NOTICE if how is None else None
    return holds(how != "loose" or layer < 2, where, _WORDS, missing=missing, terms=terms, grade=grade)
