"""The run of the pull: a short list of stations, what happens there and where to stop."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Result
from riglint.report.material import Inspected
from riglint.report.numbers import travel
from riglint.report.words import plain, sentence, wrapped
from riglint.solve.solution import Event, StageSolution, Station

_INDENT = 12
_SAME_M = 1e-6


def run(stage: StageSolution, inspected: Inspected, *, of_several: bool) -> list[str]:
    """One stage's stations, the first of which is to look again with the slack out."""
    if stage.refused or not stage.stations:
        return []
    name = f" of stage {plain(stage.stage.name)}" if of_several else ""
    lines = [f"Run of the pull{name}:"]
    last = len(stage.stations) - 1
    for station in stage.stations:
        texts = list(_texts(station, stage, last=station.index == last, of_several=of_several))
        marks = _marks(inspected, stage.stage.index, station)
        if texts or marks:
            at = travel(station.travel_m, inspected.system)
            text = " ".join([*(texts or [sentence(plain(station.title))]), f"(see {marks})"] if marks else texts)
            lines += wrapped(text, f"  {at}".ljust(_INDENT), " " * _INDENT)
    return lines


def _texts(station: Station, stage: StageSolution, *, last: bool, of_several: bool) -> Iterator[str]:
    if station.index == 0:
        held = stage.stage.load_held_by
        if held:
            yield sentence(f"Load held by {plain(held)}")
        if stage.stage.works == "paying out":
            yield "Take the load on the winch, stop, look again."
        else:
            yield "Take up slack, stop, look again."
    for event in station.events:
        yield _event(event)
    if last and station.index:
        yield f"End of {'this stage' if of_several else 'the travel'}: make the load fast before easing the line."


def _event(event: Event) -> str:
    if event.kind == "planned stop" and event.stop:
        held = event.stop.facts.load_held_by
        note = f" (load held by {plain(held)})" if held else ""
        return sentence(f"STOP: {plain(event.stop.facts.do)}{note}")
    return sentence(plain(event.text))


def _marks(inspected: Inspected, stage: int, station: Station) -> str:
    """Rules that failed right here, so that the two lists point at one another."""
    rules = {
        (f.grade.rank, f"{f.grade.value} {f.rule}")
        for f in inspected.inspection.findings
        if f.result is Result.FAILED and f.check.where.stage == stage and f.check.where.travel_m is not None
        and abs(f.check.where.travel_m - station.travel_m) <= _SAME_M and station.travel_m > 0
    }  # fmt: skip
    return ", ".join(name for _, name in sorted(rules))  # the gravest first
