"""Signals are agreed on, and one person gives them.

The operator often can't see the load or the line, and the person who sees that something is wrong has seconds.
So the crew agree beforehand by what means they talk, try them, and name one person who gives signals (anybody
may give `stop`). A voice does not carry over an engine: signals by voice alone are a finding. Signals that the plan
says are not agreed on are a CAUTION; what nobody wrote down may still have been agreed, and is a NOTICE.

No equation.

What to do: agree on signals, try them, and write in the plan by what, and by whom they are given.

Worked example: a load that moves at 8 m a minute goes this far while a shout is asked for again.
speed = 0.133 m/s; again = 5 s; goes = speed * again = 0.665 m
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, rule
from riglint.rulebook.judge import Words, holds

_BASIS = Basis("common practice", "signals agreed on and tried, given by one person")
_WORDS = Words(
    "the signals by {by} are not agreed on", "signals by {by} are agreed on, given by {given_by}",
    "it isn't said how the crew talk", "Agree on the signals and try them before the line is taken up",
)  # fmt: skip
_HALF_SAID = _WORDS._replace(unknown="it isn't said whether the signals by {by} are agreed on, or who gives them")
_VOICE = Words("the crew talk by voice alone, which does not carry over an engine", "", "",
               "Agree on hand signals or use radio")  # fmt: skip


@rule(
    title="Signals agreed on", grade=Grade.NOTICE, guards="people", basis=(_BASIS,), once=True,
    worse=Worse.by(taken_away="signals signals/agreed signals/given_by"),
)  # fmt: skip
def signals_agreed(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        signals = stage.stage.signals
        where = Where("signals", "signals", "/signals" if signals else "", "", stage.stage.index)
        if signals is None:
            yield holds(None, where, _WORDS, missing=("signals: by what, agreed, and given by whom",))
            continue
        if signals.by == "voice":
            yield holds(False, where, _VOICE)
        there = (("agreed", signals.agreed), ("given_by", signals.given_by))
        missing = tuple(f"signals: {fact}" for fact, value in there if value is None)
        terms = (("by", signals.by), ("given_by", signals.given_by or ""))
        grade = Grade.CAUTION if signals.agreed is False else None
        yield holds(signals.agreed is not False, where, _HALF_SAID, missing=missing, terms=terms, grade=grade)
