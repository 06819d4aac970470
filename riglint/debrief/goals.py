"""What a solution must reach, goal by goal: reached, missed, or not to be told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from riglint.debrief.handed import Handed
from riglint.debrief.task import Given, Task
from riglint.mechanics.resistance import tracked_reduction_fraction
from riglint.outcome import Grade, Result
from riglint.plan.bodies import Body, Ground, Resistance
from riglint.reading.quantity import Span
from riglint.report.material import Inspected
from riglint.report.numbers import pair
from riglint.report.words import listed
from riglint.rig.model import Rig, RigStage
from riglint.solve.resistance import ResistanceTable

_SLACK: Final = 1e-6
_DEPTHS: Final = ("none", "wheel depth", "fender depth", "cab depth")
_JOINED_BY_GEAR: Final = ("shackle", "soft shackle", "swaged link")  # any other join is made of the rope itself
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
        found.append(_far(rig, task.must.distance, handed.inspected.system))
    if task.must.load:
        found.append(_load(rig.stages[0].load.facts, task.must.load, task.must.distance, handed.inspected.system))
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


def _far(rig: Rig, distance: Span, system: str) -> Goal:
    what = "the load goes as far as the scenario asks"
    moved_m = rig.stages[-1].begins_m + rig.stages[-1].travel.low
    if moved_m >= distance.low * (1.0 - _SLACK):
        return Goal(what, Result.PASSED)
    planned, asked = pair(moved_m, distance.low, "m", system)
    return Goal(what, Result.FAILED, f"the way that is planned is shorter: {planned}, the scenario asks for {asked}")


def _load(facts: Body, given: Given, distance: Span | None, system: str) -> Goal:
    what = "the load is that of the scenario"
    easier: list[str] = []
    unsaid: list[str] = []
    for name, result in _against(facts, given, distance):
        (easier if result is Result.FAILED else unsaid if result is Result.CANT_TELL else []).append(name)
    if easier:
        weights = ""
        if "weight" in easier and facts.weight and given.weight:
            here, there = pair(facts.weight.high, given.weight.high, "N", system)
            weights = f"; the weight comes to {here} here, and to {there} in the scenario"
        return Goal(what, Result.FAILED, f"made easier: {listed(easier)}{weights}")
    return Goal(what, Result.CANT_TELL, f"not said: {listed(unsaid)}") if unsaid else Goal(what, Result.PASSED)


def _against(facts: Body, given: Given, distance: Span | None) -> Iterator[tuple[str, Result]]:
    ground = facts.ground or Ground()
    # A zone that begins only where the scenario ends makes nothing easier.
    zones = [zone for zone in ground.zones if distance is None or zone.begins_at.low < distance.low]
    if given.weight:
        yield "weight", _at_least(facts.weight, given.weight)
    if given.slope:
        slopes = [ground.slope, *(zone.slope for zone in zones if zone.slope is not None)]
        yield "slope", _worst(_at_least(slope, given.slope) for slope in slopes)
    if given.mired:
        depths = [ground.mired, *(zone.mired for zone in zones if zone.mired is not None)]
        yield "mired", _worst(_as_deep(depth, given.mired) for depth in depths)
    if given.surface:
        surfaces = [ground.surface, *(zone.surface for zone in zones if zone.surface is not None)]
        yield "surface", _worst(_as_given(surface, given.surface) for surface in surfaces)
    if given.running_gear:
        yield "running gear", _as_given(facts.running_gear, given.running_gear)
    if given.running_gear or given.mired:
        yield "help of its tracks", Result.FAILED if _eased(facts) > _eased(given) else Result.PASSED
    if facts.resistance is not None:
        yield "resistance", _not_below_doctrine(facts, facts.resistance)


def _eased(of: Body | Given) -> float:
    """What is taken off a mire for a tracked load that is pulled backwards or drives along."""
    if of.running_gear != "tracks":
        return 0.0
    return tracked_reduction_fraction(
        pulled_backwards=of.pulled == "backwards", power_applied=of.own_power is True
    ).value


def _worst(results: Iterable[Result]) -> Result:
    return max(results, key=(Result.PASSED, Result.CANT_TELL, Result.FAILED).index)


def _as_deep(own: str | None, given: str) -> Result:
    if own is None:
        return Result.CANT_TELL
    return Result.PASSED if _DEPTHS.index(own) >= _DEPTHS.index(given) else Result.FAILED


def _as_given(own: str | None, given: str) -> Result:
    if own is None:
        return Result.CANT_TELL
    return Result.PASSED if own.split() == given.split() else Result.FAILED


def _not_below_doctrine(facts: Body, stated: Resistance) -> Result:
    """A resistance that is written down goes before the scenario's weight, mire and slope: it can't be less than they
    come to.
    """
    bare = facts.model_copy(update={"resistance": None})
    found = ResistanceTable("load", bare).at(0.0, from_rest=True, sets_out=True)
    if found.hauling is None or found.missing:
        return Result.CANT_TELL
    most = max(force.high for force in (stated.steady, stated.breakaway) if force is not None)
    return _at_least(Span(most, most), found.hauling)


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
        yield from ((join.pointer, join.name) for join in line.joins if join.facts.kind in _JOINED_BY_GEAR)
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
