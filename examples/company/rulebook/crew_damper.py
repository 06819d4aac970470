"""A damper lies on every long leg.

A damper takes some of the recoil out of a line that parts. Our crews lay one on every leg longer than ten metres,
whatever the rope is made of.

What to do: lay a damper near the middle of the leg and write it under `dampers:`.

Worked example: a leg of 17.7 m, where 10 m may go without.
leg = 17.7 m; without = 10 m; use = leg / without = 1.77
"""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Basis, Check, Formula, Grade, Where
from riglint.rulebook.judge import Words, at_most, holds
from riglint.rulebook.limits import Limit, Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.solution import Leg, Solution, StageSolution

_HANDBOOK = Basis("handbook", "a damper on legs of more than 10 m", "crew-handbook", "s. 5", "winching", "read")
_USE = Formula("use", "leg / without", (("leg", "m"), ("without", "m")), "1")
_WORDS = Words(
    "the leg from {begins} to {ends} is {measured} long and has no damper; {limit} may go without",
    "the leg from {begins} to {ends} is short or has a damper",
    remedy="Lay a damper near the middle of the leg",
)


@rule(
    title="Dampers on long legs",
    grade=Grade.CAUTION,
    guards="line",
    basis=(_HANDBOOK,),
    limits=(Limit("without", 10.0, "m", "longest leg that may go without a damper", _HANDBOOK, "higher"),),
    worse=(Worse("dampers", "taken away"),),
)
def crew_damper(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in solution.stages:
        for leg in stage.stations[0].legs if stage.stations else ():
            yield _check(stage, leg, limits["without"])


def _check(stage: StageSolution, leg: Leg, without_m: float) -> Check:
    line = stage.line(leg.line)
    where = Where("line", line.name, line.pointer, "", stage.stage.index)
    terms = (("begins", leg.begins), ("ends", leg.ends))
    if _damped(stage, leg):
        return holds(True, where, _WORDS, terms=terms)
    working = (_USE.step(leg.length_m / without_m, leg.length_m, without_m),)
    return at_most(leg.length_m, without_m, "m", where, _WORDS, terms=terms, working=working)


def _damped(stage: StageSolution, leg: Leg) -> bool:
    ends = {leg.begins, leg.ends}
    return any(damper.line == leg.line and set(damper.between) == ends for damper in stage.stage.dampers or ())
