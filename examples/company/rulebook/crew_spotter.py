"""One of the crew does nothing but watch.

The operator can't see the load and the line at once. Somebody stands by who has no other task and may stop the pull.

What to do: name a `spotter` under `people:`, or wait until there is one.

Worked example: a crew of 3, of whom 1 runs the winch and 1 watches.
crew = 3; operators = 1; spotters = 1; free = crew - operators - spotters = 1
"""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Basis, Check, Grade, Where
from riglint.rulebook.judge import Words, holds
from riglint.rulebook.limits import Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.solution import Solution

_HANDBOOK = Basis("handbook", "one of the crew does nothing but watch", "crew-handbook", "s. 4", "winching", "read")
_WORDS = Words(
    "nobody of the crew is a spotter",
    "the crew have a spotter",
    "whether the crew have a spotter can't be told",
    "Name a spotter, who has no other task",
)


@rule(
    title="A spotter in the crew",
    grade=Grade.CAUTION,
    guards="people",
    basis=(_HANDBOOK,),
    worse=(Worse("people", "taken away"),),
)
def crew_spotter(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in solution.stages:
        where = Where("crew", "crew", "/people" if stage.stage.people_stated else "", "", stage.stage.index)
        if not stage.stage.people_stated:
            yield holds(None, where, _WORDS, missing=("who stands where",))
            continue
        spotters = [person for person in stage.stage.people if "spotter" in person.who.lower()]
        yield holds(bool(spotters), where, _WORDS)
