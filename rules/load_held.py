"""What holds the load on a slope when the line is slack.

On a slope a load that is let go runs. At a planned stop and between two stages the line is slack, so something
other than the line must hold it there: chocks, its brakes, a tie-back. The winch does not count, since the line
that it holds with is the one that is handled; words that may mean no more than those two can't be told. On level
ground nothing is asked; where the slope isn't stated, it is. While the line is taut the winch's brake holds, which
`brake-holds` judges.

    to be held wherever weight * sin(slope) > 0, whatever its wheels and the ground may hold

What to do: chock the load before the line goes slack, and write it at the stop or stage.

Worked example: 4 t on 12 deg, on wheels that hold a fiftieth of the weight.
weight = 39.2 kN; slope = 12 deg; rolling = 0.02; runs_with = weight * sin(slope) - weight * rolling = 7.37 kN
"""

from typing import NamedTuple

from riglint.outcome import Where
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, holds

_PRACTICE = Basis("common practice", "a load on a slope is held by more than the line while the line is slack")
_NOTHING = frozenset({"nothing", "none", "no", "nobody", "the line", "line", "rope", "the rope", "winch", "the winch",
                      "winch brake", "the winch brake", "the winch's brake"})  # fmt: skip
_HANDLED = frozenset({"winch", "winches", "line", "rope"})
_BESIDES = frozenset({
    "second", "other", "another", "back", "tie", "tied", "tieback", "safety", "holding", "tail", "chain", "strap",
    "chock", "chocks", "chocked", "wedge", "wedges", "anchor", "anchored", "spade", "spades", "parking", "handbrake",
})  # fmt: skip
_HELD = Words(
    "the load stands on a slope and the line goes slack {when}: {by} doesn't hold it then",
    "the load is held by {by} {when}",
    "what holds the load on the slope {when} isn't said",
    "Chock the load or tie it back before the line goes slack, and write so")  # fmt: skip
_SLOPE = Words("", "", "whether the load can run away can't be told")


class _Halt(NamedTuple):
    pointer: str
    by: str | None
    when: str


@rule(
    title="Load held on a slope", grade=Grade.WARNING, guards="load", basis=(_PRACTICE,),
    worse=Worse.by(taken_away="stops/*/load_held_by bodies/*/ground/slope"))  # fmt: skip
def load_held(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        halts = _halts(stage)
        if not halts:
            continue
        runs = _runs(stage)
        if runs is None:
            where = Where("body", stage.stage.load.name, stage.stage.load.pointer, "", stage.stage.index)
            lacks = _lacks(stage) or (place(stage.stage.load.pointer, "ground/slope"),)
            yield holds(None, where, _SLOPE, missing=lacks)
        for halt in halts if runs else ():
            yield _held(halt, stage.stage.index)


def _halts(stage: StageSolution) -> list[_Halt]:
    """Where the line goes slack in this stage."""
    own = stage.stage
    before = [_Halt(own.pointer, own.load_held_by, "before this stage")] if own.index else []
    return before + [_Halt(stop.pointer, stop.facts.load_held_by, "at this stop") for stop in own.stops]


def _runs(stage: StageSolution) -> bool | None:
    """Whether the load would run on the slope; None if that can't be told."""
    spans = [span for s in stage.stations for span in (s.resistance.holding, s.resistance.driving)]
    if any(span.high for span in spans if span):
        return True
    return None if None in spans else False


def _held(halt: _Halt, stage: int) -> Check:
    by = halt.by
    true = _holds(by) if by else None
    fact = "load_held_by, what besides the winch and its line" if by else "load_held_by"
    missing = (place(halt.pointer, fact),) if true is None else ()
    terms = (("by", by or ""), ("when", halt.when))
    return holds(true, Where("stop", "", halt.pointer, "", stage), _HELD, missing=missing, terms=terms)


def _holds(by: str) -> bool | None:
    """Whether what is named holds with the line slack; None for words that may mean the winch and its line alone."""
    text = by.strip().lower().rstrip(".")
    words = set(text.replace("-", " ").replace(",", " ").replace("'s", " ").split())
    return False if text in _NOTHING else None if words & _HANDLED and not words & _BESIDES else True


def _lacks(stage: StageSolution) -> tuple[str, ...]:
    lacks = (fact for s in stage.stations for fact in s.resistance.rest_missing)
    return tuple(dict.fromkeys(fact for fact in lacks if fact.endswith(("weight", "slope"))))
