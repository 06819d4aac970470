"""What a solution must reach, goal by goal: reached, missed, or not to be told."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from riglint.debrief.handed import Handed
from riglint.debrief.task import Given, Task
from riglint.outcome import Grade, Result
from riglint.plan.bodies import Body
from riglint.reading.quantity import Span
from riglint.report.material import Inspected
from riglint.report.words import listed
from riglint.rig.model import Rig, RigStage

_SLACK: Final = 1e-6
_DEPTHS: Final = ("none", "wheel depth", "fender depth", "cab depth")
_MOVES: Final = ("rig-stands", "enough-line", "enough-pull")


class Goal(NamedTuple):
    """One goal: `what` says it without saying how it was missed, `why` says that."""

    what: str
    result: Result
    why: str = ""


def goals(task: Task, handed: Handed) -> tuple[Goal, ...]:
    """Every goal of the task, for a plan that could be read."""
    if handed.inspected is None:
        return ()
    rig = handed.inspected.solution.rig
    found = [_moves(handed.inspected)]
    if task.must.distance:
        found.append(_far(rig, task.must.distance))
    if task.must.load:
        found.append(_load(rig.stages[0].load.facts, task.must.load))
    if task.must.only_the_kit:
        found.append(_kit(rig))
    if task.must.no_finding_above:
        found.append(_grade(handed.inspected, Grade(task.must.no_finding_above)))
    return tuple(found)


def _moves(inspected: Inspected) -> Goal:
    """By the rules on a rig that stands, line and line pull; without any of them it can't be told."""
    what = "the rig moves the load over the whole way"
    outcomes = {o.rule: o.result for o in inspected.inspection.outcomes if o.rule in _MOVES}
    failed = [rule for rule in _MOVES if outcomes.get(rule) is Result.FAILED]
    if failed:
        return Goal(what, Result.FAILED, f"failed: {listed(failed)}")
    open_ = [rule for rule in _MOVES if outcomes.get(rule) not in (Result.PASSED, Result.INAPPLICABLE)]
    if open_:
        return Goal(what, Result.CANT_TELL, f"can't be told: {listed(open_)}")
    return Goal(what, Result.PASSED)


def _far(rig: Rig, distance: Span) -> Goal:
    what = "the load goes as far as the scenario asks"
    moved_m = rig.stages[-1].begins_m + rig.stages[-1].travel.low
    short = moved_m < distance.low * (1.0 - _SLACK)
    return Goal(what, Result.FAILED if short else Result.PASSED, "the way that is planned is shorter" if short else "")


def _load(facts: Body, given: Given) -> Goal:
    what = "the load is that of the scenario"
    easier: list[str] = []
    unsaid: list[str] = []
    for name, result in _against(facts, given):
        (easier if result is Result.FAILED else unsaid if result is Result.CANT_TELL else []).append(name)
    if easier:
        return Goal(what, Result.FAILED, f"made easier: {listed(easier)}")
    return Goal(what, Result.CANT_TELL, f"not said: {listed(unsaid)}") if unsaid else Goal(what, Result.PASSED)


def _against(facts: Body, given: Given) -> Iterator[tuple[str, Result]]:
    ground = facts.ground
    if given.weight:
        yield "weight", _at_least(facts.weight, given.weight)
    if given.slope:
        yield "slope", _at_least(ground.slope if ground else None, given.slope)
    if given.mired:
        depth = ground.mired if ground else None
        worse = depth is not None and _DEPTHS.index(depth) >= _DEPTHS.index(given.mired)
        yield "mired", Result.CANT_TELL if depth is None else Result.PASSED if worse else Result.FAILED
    if given.surface:
        own = ground.surface if ground else None
        same = own is not None and own.split() == given.surface.split()
        yield "surface", Result.CANT_TELL if own is None else Result.PASSED if same else Result.FAILED


def _at_least(own: Span | None, given: Span) -> Result:
    if own is None:
        return Result.CANT_TELL
    return Result.PASSED if own.high >= given.high - _SLACK * abs(given.high) else Result.FAILED


def _kit(rig: Rig) -> Goal:
    what = "the gear is that of the kit"
    other = sorted({name for stage in rig.stages for pointer, name in _gear(stage) if pointer not in rig.kit})
    return Goal(what, Result.FAILED if other else Result.PASSED, f"not from the kit: {listed(other)}" if other else "")


def _gear(stage: RigStage) -> Iterator[tuple[str, str]]:
    """Everything rigged that a kit could hold: points belong to the ground and the vehicles."""
    yield stage.winch.pointer, "winch"
    for line in stage.lines:
        yield from ((piece.pointer, piece.name) for piece in line.pieces)
    yield from ((redirect.pointer, name) for name, redirect in stage.redirects.items())
    yield from ((connector.pointer, name) for name, connector in stage.connectors.items())


def _grade(inspected: Inspected, most: Grade) -> Goal:
    what = f"nothing is found above {most.value}"
    above = [f for f in inspected.inspection.findings if f.grade.rank < most.rank]
    failed = sorted({f.rule for f in above if f.result is Result.FAILED})
    if failed:
        return Goal(what, Result.FAILED, f"found: {listed(failed)}")
    unsaid = sorted({f.rule for f in above})
    return Goal(what, Result.CANT_TELL, f"can't be told: {listed(unsaid)}") if unsaid else Goal(what, Result.PASSED)
