"""The line is never pulled harder than the crews are trained for.

Our crews train with the small winches. Whatever the winch and the gear could bear, the most that comes into the
line, with the load stuck and the winch kept on until it stalls, stays below the ceiling.

What to do: more parts and a smaller winch, or call the heavy crew.

Worked example: a winch that stalls at 38 kN, and a ceiling of 50 kN.
stall = 38 kN; ceiling = 50 kN; use = stall / ceiling = 0.76
"""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Basis, Check, Formula, Grade, Where
from riglint.rulebook.judge import Words, at_most
from riglint.rulebook.limits import Limit, Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.solution import Solution

_HANDBOOK = Basis("handbook", "at most 50 kN in the line", "crew-handbook", "s. 2", "winching", "read")
_USE = Formula("use", "stall / ceiling", (("stall", "N"), ("ceiling", "N")), "1")
_WORDS = Words(
    "the line may be pulled with {measured}, over the crew's ceiling of {limit}",
    "the line is pulled with {measured} at most, the crew's ceiling is {limit}",
    "how hard the line may be pulled can't be told",
    "Rig more parts with a smaller winch, or call the heavy crew",
)


@rule(
    title="Line pull over the crew's ceiling",
    grade=Grade.WARNING,
    guards="drum",
    basis=(_HANDBOOK,),
    limits=(Limit("ceiling", 50_000.0, "N", "most pull in the line", _HANDBOOK, "higher"),),
    worse=(Worse("winch/stall_pull", "higher"),),
)
def crew_line_pull(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in solution.stages:
        where = Where("winch", "winch", "/winch", "stall", stage.stage.index)
        pulls = [station.drum.stall_n for station in stage.stations if station.drum and station.drum.stall_n]
        most, ceiling = max(pulls, default=None), limits["ceiling"]
        working = () if most is None else (_USE.step(most / ceiling, most, ceiling),)
        # What is missing may leave a pull that is only known as `at least`: over the ceiling is still over.
        yield at_most(most, ceiling, "N", where, _WORDS, missing=stage.missing["stall"], working=working)
