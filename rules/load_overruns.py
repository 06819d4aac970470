"""A load that runs ahead of the line that hauls it.

Downhill a load that rolls easily needs no hauling: it runs by itself, towards the winch and whoever stands there, and
a line can't push it back. The line goes slack, and where the load is stopped again it comes taut with a jerk.

How it is judged: where a stage hauls, what the slope drives the load with along its travel, against the least that it
rolls or drags with on its ground, and what it is tied back with besides. A load that is mired or overturned has to be
pulled and is not asked, nor is one whose resistance is stated, but for zones further on: it was found where the load
stands. Brakes, and somebody in the cab to work them, don't count.

    ahead = weight * sin(slope) - weight * cos(slope) * rolling

What to do: let it down by a winch that stands above it and pays out, or keep a second line taut behind it and write
`secured: [tied back]` with what that is rated for in `held_by`.

Worked example: 4 t down 15 degrees of firm track, which takes 3.2 % of the weight.
weight = 39.23 kN; slope = 15 deg; rolling = 0.032
ahead = weight * sin(slope) - weight * cos(slope) * rolling = 8.941 kN
"""

from riglint.outcome import Value, Where
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, first_greatest, holds
from riglint.solve.ground import TIED
from riglint.solve.rope import stages

_STATICS = Basis("derivation", "it runs where the slope's share of the weight is more than it rolls with")
_WORDS = Words(
    "{name} runs ahead of the line: the slope drives it with {ahead} more than it rolls with, and nothing holds it",
    "{name} does not run by itself along its way",
    "whether {name} runs ahead of the line can't be told",
    "Let it down from above by a line that is paid out, or hold it back with a second line")  # fmt: skip
_TIED = _WORDS._replace(
    fails="{name} runs ahead of the line: it is driven with {measured} and held back with {limit}",
    passes="{name} is driven with {measured} and held back with {limit}",
)


@rule(
    title="Load that runs ahead of the line", grade=Grade.WARNING, guards="load", basis=(_STATICS,),
    worse=Worse.by(lower="bodies/*/held_by", taken_away="bodies/*/ground/slope bodies/*/held_by"),
)  # fmt: skip
def load_overruns(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        if stage.stage.works == "hauling":
            yield _worst(stage)


def _worst(stage: StageSolution) -> Check:
    load = stage.stage.load
    known = [(s, s.resistance.ahead.high) for s in stage.stations if s.resistance.ahead]
    untold = [s.resistance for s in stage.stations if s.resistance.ahead is None]
    lacks = tuple(dict.fromkeys(fact for found in untold for fact in found.rest_missing or found.missing))
    station, ahead_n = first_greatest(known, lambda x: x[1]) if known else (stage.stations[0], 0.0)
    where = Where("load", load.name, load.pointer, "expected", stage.stage.index, station.travel_m)
    if TIED & set(load.facts.secured or ()) and ahead_n:
        held = load.facts.held_by
        missing = lacks + (() if held else (place(load.pointer, "held_by"),))
        return at_most(ahead_n, held.low if held else None, "N", where, _TIED, missing=missing)
    return holds(not ahead_n, where, _WORDS, missing=lacks, terms=(("ahead", Value(ahead_n, "N")),))
