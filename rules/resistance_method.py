"""How a resistance was found.

Everything that is judged as expected stands on one number: what the load resists with. A number that somebody
just wrote down is worth less than a gauge, a trial pull or a reckoning that can be gone over again. So a
resistance that is stated says what it was `found_by`. One that isn't stated is worked out from the ground; what
that lacks is asked for.

    found_by = "gauge on a trial pull", "1 x weight by the manual", "rolling on loose gravel and 4 deg of slope"

What to do: write how it was found; if nobody knows, leave the figure out and describe the ground.

Worked example: a trial pull on two parts with the gauge on the line at 12 kN, 5 % lost at the sheave.
line = 12 kN; kept = 0.95; resistance = line + line * kept = 23.4 kN
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, rule
from riglint.rulebook.judge import Words, holds

_BASIS = Basis("common practice", "a figure says how it was found")
_STATED = Words(
    "the resistance of {name} is stated, and not how it was found",
    "the resistance of {name} was found by {method}", "",
    "Write what it was found by, or leave it out and describe the ground",
)  # fmt: skip
_WORKED_OUT = Words(
    "", "the resistance of {name} is worked out: {method}", "what {name} resists with can't be worked out"
)


@rule(
    title="How the resistance was found", grade=Grade.NOTICE, guards="load", basis=(_BASIS,),
    worse=Worse.by(taken_away="bodies/*/resistance/found_by"),
)  # fmt: skip
def resistance_method(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        load = stage.stage.load
        if load.facts.resistance is not None:
            where = Where("body", load.name, f"{load.pointer}/resistance", "expected", stage.stage.index)
            found_by = load.facts.resistance.found_by
            yield holds(found_by is not None, where, _STATED, terms=(("method", found_by or ""),))
        elif stage.stations:
            where = Where("body", load.name, load.pointer, "expected", stage.stage.index)
            lacks = tuple(dict.fromkeys(fact for s in stage.stations for fact in s.resistance.missing))
            start, *_ = stage.stations
            yield holds(True, where, _WORKED_OUT, missing=lacks, terms=(("method", start.resistance.used),))
