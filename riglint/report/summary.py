"""What a foreman asks for at once, picked out of the solution and the checks: one summary a stage."""

from collections.abc import Iterator
from math import inf, isclose
from typing import Final, NamedTuple

from riglint.mechanics.rounding import first_greatest, first_least, surpasses
from riglint.outcome import Check, Inspection, Result, Where
from riglint.rig.model import Point
from riglint.solve.first_to_give import Break, Flight, first_to_break, flight, line_pull_n
from riglint.solve.pull import brake_holds_n
from riglint.solve.solution import CASES, Case, Component, StageSolution

_WORTH_A_LINE: Final = 0.01


class Anchor(NamedTuple):
    """The point off the load that carries most in a case."""

    name: str
    load_n: float
    case: Case
    travel_m: float


class Gives(NamedTuple):
    """What reaches its working load first as the line pull grows, and at what line pull."""

    check: Check
    pull_n: float


class Use(NamedTuple):
    """A component's gravest check of those with a use."""

    check: Check
    use: float


class Summary(NamedTuple):
    """The foreman's figures of one stage. None is what can't be told."""

    name: str
    parts: int
    pull_least: float | None  # on the load for each unit of line pull, at the start
    pull_most: float | None
    line_needed_m: float
    line_m: tuple[float, float] | None  # None: a piece's length is not stated
    line_pull_n: float | None  # what the job needs, at its worst
    line_pull_least_n: float | None  # what it needs if nothing is lost to friction
    line_pull_doctrine_n: float | None  # what it needs as field manuals reckon
    stall_n: float | None  # where the winch pulls most
    stall_least_n: float | None  # where the drum is fullest
    stall_stated: bool  # else it is the least that it can be
    stall_told: bool  # whether the plan has all facts that it rests on
    lowers: bool
    brake_n: float | None
    anchors: tuple[Anchor, ...]  # at most one a case
    gives: Gives | None
    not_counted: tuple[str, ...]  # what carries load, and for want of facts nobody can say how much it may
    breaks: Break | None
    flies: Flight | None
    flies_from: str
    stop_n: float | None
    uses: tuple[Use, ...]
    refused: str | None


def summaries(stages: tuple[StageSolution, ...], inspection: Inspection) -> tuple[Summary, ...]:
    """One a stage, in order."""
    checks = [check for outcome in inspection.outcomes for check in outcome.checks]
    return tuple(_summary(stage, [c for c in checks if c.where.stage == stage.stage.index]) for stage in stages)


def _summary(stage: StageSolution, checks: list[Check]) -> Summary:
    start = stage.stations[0] if stage.stations else None
    gives, breaks = _gives(checks), first_to_break(stage)
    flies, source = _flies(stage, gives, breaks)
    stalls = [line_pull_n(stage, station.index) for station in stage.stations]
    known = [n for n in stalls if n is not None]
    stall = max(known, default=None)
    return Summary(
        stage.stage.name,
        stage.parts,
        start.ratio_least if start else None,
        start.ratio_most if start else None,
        stage.line_needed_m,
        None if stage.stage.haul.unstated else (stage.line_m.low, stage.line_m.high),
        _needed(stage),
        _needed_at_least(stage),
        _most([station.line_pull_doctrine_n for station in stage.stations]),
        stall,
        min(known, default=None),
        not any(fact.endswith("/stall_pull") for fact in stage.missing["stall"]),
        not stage.missing["stall"],
        stage.stage.works == "paying out",
        _brake(stage),
        tuple(_anchors(stage)),
        gives,
        _not_counted(checks),
        breaks,
        flies,
        source,
        _stop(gives, stall),
        _uses(checks),
        stage.refused,
    )


def _brake(stage: StageSolution) -> float | None:
    """What the brake holds where the drum is fullest."""
    held = [brake_holds_n(stage, station) for station in stage.stations]
    return min((n for n in held if n is not None), default=None)


def _needed(stage: StageSolution) -> float | None:
    return _most([station.line_pull_most_n for station in stage.stations])


def _most(pulls: list[float | None]) -> float | None:
    known = [pull for pull in pulls if pull is not None]
    return max(known) if known and len(known) == len(pulls) and max(known) < inf else None


def _needed_at_least(stage: StageSolution) -> float | None:
    """The line pull that the job needs at its worst place if no redirect loses anything."""
    hauled = stage.stage.works == "hauling"
    pulls = []
    for station in stage.stations:
        moving = station.resistance.hauling if hauled else station.resistance.driving
        gain = station.ratio_most if hauled else station.ratio_least
        if moving is None or gain <= 0.0:
            return None
        pulls.append(moving.high / gain)
    return max(pulls, default=None)


def _anchors(stage: StageSolution) -> Iterator[Anchor]:
    """Of the points off the load; the winch's mount, which carries the line pull, only where no other carries any."""
    points = [c for c in stage.components if isinstance(c.item, Point) and not c.item.body.moves]
    points = [c for c in points if c.item is not stage.stage.winch.mount and _loaded(stage, c)] or points
    for case in CASES:
        peaks = [(peak, c.name) for c in points if (peak := stage.peak(c, case))]
        if peaks:
            by_name = sorted(peaks, key=lambda pair: pair[1], reverse=True)
            peak, name = first_greatest(by_name, lambda pair: pair[0].load_n)
            yield Anchor(name, peak.load_n, case, stage.stations[peak.station].travel_m)


def _loaded(stage: StageSolution, component: Component) -> bool:
    return any(peak.load_n > 0.0 for case in CASES if (peak := stage.peak(component, case)))


def _gives(checks: list[Check]) -> Gives | None:
    """Loads grow in proportion to the line pull, so the limit is reached at pull x limit / measured."""
    found = [
        Gives(check, check.pull_n * check.limit / check.measured) for check in checks
        if check.pull_n and check.limit is not None and check.measured
    ]  # fmt: skip
    found.sort(key=lambda gives: gives.check.where[:5])
    return first_least(found, lambda gives: gives.pull_n) if found else None


def _not_counted(checks: list[Check]) -> tuple[str, ...]:
    """Of a load that is known against a limit that isn't, what carries it and what isn't known of it; and what may tip.

    A moment isn't known at all without the facts that its limit lacks; a limit may be told at its best only.
    """
    unlimited = (c for c in checks if c.result is Result.CANT_TELL and (c.limit is None or _lacks_of_its_own(c)))
    carries = (c for c in unlimited if (c.unit == "N" and c.measured and c.where.kind != "load") or c.unit == "N m")
    return tuple(dict.fromkeys(c.where.component + (f" ({c.measure})" if c.measure else "") for c in carries))


def _lacks_of_its_own(check: Check) -> bool:
    return any(fact.partition(":")[0] == check.where.pointer[1:] for fact in check.missing)


def _stop(gives: Gives | None, stall_n: float | None) -> float | None:
    """The line pull at which to stop: where the first thing reaches its working load, or the winch stalls."""
    return min((n for n in (gives and gives.pull_n, stall_n) if n is not None), default=None) if gives else None


def _flies(stage: StageSolution, gives: Gives | None, breaks: Break | None) -> tuple[Flight | None, str]:
    """From what breaks first, or else from what passes its working load first."""
    if breaks:
        component, station = breaks.component, breaks.station
    elif gives:
        where = gives.check.where
        found = next((c for c in stage.components if c.key == (where.kind, where.name)), None)
        if found is None:
            return None, ""
        peak = stage.peak(found, "stall")
        component, station = found, peak.station if peak else 0
    else:
        return None, ""
    peak = stage.peak(component, "stall")
    words = Where(component.kind, component.name, component.pointer).component
    return (flight(stage, component, station, peak.force) if peak else None), words


def _carries(check: Check) -> bool:
    """Whether it compares a load with what may be carried, and not what there is with what there must be."""
    if (
        check.where.kind == "load"
        or check.unit != "N"
        or check.use is None
        or not check.limit
        or check.measured is None
    ):
        return False
    return check.use > _WORTH_A_LINE and isclose(check.use, check.measured / check.limit)


def _uses(checks: list[Check]) -> tuple[Use, ...]:
    """Each component's gravest check that has a use, the most used first; what can't be told has none."""
    worst: dict[tuple[str, str], Use] = {}
    for check in checks:
        key = (check.where.kind, check.where.name)
        use = check.use if _carries(check) else None
        if use is not None and (key not in worst or surpasses(use, worst[key].use)):
            worst[key] = Use(check, use)
    return tuple(sorted(worst.values(), key=lambda u: (-round(u.use, 9), u.check.where)))
