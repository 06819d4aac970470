"""What holds the load on a slope when the line is slack, and what the winch's brake has to hold.

On a slope a load that is let go runs. At a planned stop and between two stages the line is slack, so something
other than the line must hold it there: chocks, its brakes, a tie-back. The winch does not count, since the line
that it holds with is the one that is handled. On level ground nothing is asked; where the slope isn't stated,
it is.

While the line is taut the winch's brake holds: the load at rest in a pull up a slope, and the whole of it all
the way in a controlled lowering.

    use = line_tension / brake_hold

The brake's figure is for the layer that the rating is for; on a layer farther out it holds less, by the same
torque. Over it is a DANGER.

What to do: chock the load before the line goes slack, and write it at the stop or stage; a winch with a better
brake, or more parts, so that less comes to it.

Worked example: 4 t on 12 deg lowered on one part, a brake that holds 45 kN.
weight = 39.2 kN; slope = 0.2094; brake_hold = 45 kN; use = weight * sin(slope) / brake_hold = 0.181
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from riglint.outcome import Basis, Check, Formula, Grade, Where
from riglint.rulebook.judge import Words, at_most, here, holds
from riglint.rulebook.limits import Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.ratings import place
from riglint.solve.solution import Case, Solution, StageSolution

_PRACTICE = Basis("common practice", "a load on a slope is held by more than the line while the line is slack")
_TORQUE = Basis("derivation", "a brake holds a torque, so less on a layer farther out")
_NOTHING = frozenset({"nothing", "none", "no", "nobody", "the line", "line", "rope", "the rope", "winch", "the winch",
                      "winch brake", "the winch brake", "the winch's brake"})  # fmt: skip
_USE = Formula("use", "line_tension / brake_hold", (("line_tension", "N"), ("brake_hold", "N")), "share")
_HELD = Words(
    "the load stands on a slope and the line goes slack {when}: {by} doesn't hold it then",
    "the load is held by {by} {when}",
    "what holds the load on the slope {when} isn't said",
    "Chock the load or tie it back before the line goes slack, and write so",
)
_SLOPE = Words("", "", "whether the load can run away can't be told")
_BRAKE = Words(
    "the load pulls the line with {measured} and the winch's brake holds {limit}",
    "the winch's brake holds {limit}, the load pulls the line with {measured}",
    "whether the winch's brake holds can't be told; the load pulls the line with {measured}",
    "Rig more parts, use a winch with a better brake, or hold the load by other means",
)


@rule(
    title="Load held on a slope",
    grade=Grade.WARNING,
    guards="load",
    basis=(_PRACTICE, _TORQUE),
    worse=(
        Worse("winch/brake_hold", "lower"), Worse("winch/brake_hold", "taken away"),
        Worse("stops/*/load_held_by", "taken away"),
    ),
)  # fmt: skip
def load_held(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in solution.stages:
        runs = _runs(stage)
        if runs:
            yield from _brake(stage)
            yield from _slack(stage)
        elif runs is None:
            where = Where("body", stage.stage.load.name, stage.stage.load.pointer, "", stage.stage.index)
            lacks = _lacks(stage) or (place(stage.stage.load.pointer, "ground/slope"),)
            yield holds(None, where, _SLOPE, missing=lacks)


def _runs(stage: StageSolution) -> bool | None:
    """Whether the load would run on the slope; None if that can't be told."""
    known = [s.resistance for s in stage.stations if s.resistance.holding and s.resistance.driving]
    if any(r.holding.high > 0.0 or r.driving.high > 0.0 for r in known if r.holding and r.driving):
        return True
    return None if len(known) < len(stage.stations) else False


def _slack(stage: StageSolution) -> Iterator[Check]:
    own = stage.stage
    halts = [(stop.pointer, stop.facts.load_held_by, "at this stop") for stop in own.stops]
    if own.index > 0:
        halts.insert(0, (own.pointer, own.load_held_by, "before this stage"))
    for pointer, by, when in halts:
        where = Where("stop", "", pointer, "", own.index)
        missing = () if by else (place(pointer, "load_held_by"),)
        true = by.strip().lower().rstrip(".") not in _NOTHING if by else None
        yield holds(true, where, _HELD, missing=missing, terms=(("by", by or ""), ("when", when)))


def _lacks(stage: StageSolution) -> tuple[str, ...]:
    lacks = (fact for s in stage.stations for fact in s.resistance.rest_missing)
    return tuple(dict.fromkeys(fact for fact in lacks if fact.endswith(("weight", "slope"))))


def _brake(stage: StageSolution) -> Iterator[Check]:
    winch = stage.component("winch", "winch")
    case: Case = "holding" if stage.stage.works == "hauling" else "expected"
    peak = stage.peak(winch, case) or stage.peak(winch, "holding") if winch else None
    if winch is None or peak is None:
        return
    facts, drum = stage.stage.winch.facts, stage.stations[peak.station].drum
    hold_n = facts.brake_hold.low if facts.brake_hold else None
    if hold_n is not None and facts.rated_pull and drum and drum.pull_n:
        hold_n *= min(1.0, drum.pull_n / facts.rated_pull.low)
    missing = () if facts.brake_hold else ("winch: brake_hold",)
    steps = (_USE.step(peak.load_n / hold_n, peak.load_n, hold_n),) if hold_n and peak.load_n < inf else ()
    yield at_most(peak.load_n, hold_n, "N", here(stage, winch, case, peak.station), _BRAKE, missing=missing,
                  working=steps, measure="brake", grade=Grade.DANGER)  # fmt: skip
