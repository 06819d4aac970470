"""The run of the pull, station by station: where, what is done, what to watch, who takes over."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from riglint.outcome import Result
from riglint.report.material import Inspected
from riglint.report.numbers import show, travel
from riglint.report.words import listed, sentence
from riglint.sheet.head import figures
from riglint.sheet.markup import Html, el, void
from riglint.sheet.picture import picture
from riglint.sheet.words import anchor, part, signal
from riglint.solve.solution import Event, StageSolution, Station

_SAME_M = 1e-6
_STOP = el("b", "STOP", class_="stop")
_COLUMNS = ("At", "What happens, what to do", "Watch", "Hand over")


def run(inspected: Inspected) -> Html:
    """Every stage's table; a later stage has its own picture."""
    stages = inspected.solution.stages
    several = len(stages) > 1
    parts = []
    for index, stage in enumerate(stages):
        title = el("h3", f"Stage {index + 1}: {stage.stage.name}") if several else None
        shown = [figures(inspected, index), picture(inspected, index)] if index else None
        parts.append(el("div", title, shown, _table(stage, inspected)))
    return el("section", part("Run of the pull"), parts, id="run")


def _table(stage: StageSolution, inspected: Inspected) -> Html:
    if stage.refused or not stage.stations:
        reason = stage.refused or "no place of it could be worked out"
        return el("p", sentence(f"This rig can't stand as planned: {reason}"))
    head = el("tr", [el("th", name, scope="col") for name in _COLUMNS])
    rows = [_row(station, stage, inspected) for station in stage.stations]
    several = len(inspected.solution.stages) > 1
    of = f"stage {stage.stage.name}" if several else "the pull"
    caption = el("caption", f"Run of {of}, by distance travelled")
    widths = el("colgroup", [void("col") for _ in _COLUMNS])
    return el("table", caption, widths, el("thead", head), el("tbody", rows), class_="run")


def _row(station: Station, stage: StageSolution, inspected: Inspected) -> Html:
    last = station.index == len(stage.stations) - 1
    halts = any(event.kind == "planned stop" for event in station.events)
    return el(
        "tr",
        el("th", travel(station.travel_m, inspected.system), scope="row"),
        el("td", _does(station, inspected, stage, last=last), _marks(inspected, stage, station)),
        el("td", [el("p", text) for text in _watch(station, stage, inspected.system)]),
        el("td", [el("p", sentence(text)) for text in _hands(station, stage, inspected, last=last)]),
        class_="halt" if halts or station.index == 0 else None,
    )


def _does(station: Station, inspected: Inspected, stage: StageSolution, *, last: bool) -> Iterator[Html]:
    if station.index == 0:
        takes = "Take the load on the winch" if stage.stage.works == "paying out" else "Take up slack"
        yield el("p", _STOP, f" {takes}, stop, look again: every pin, join, hitch and anchor.")
    for event in station.events:
        yield _event(event)
    if last and station.index:
        of = "this stage" if len(inspected.solution.stages) > 1 else "the travel"
        yield el("p", _STOP, f" End of {of}: make the load fast before easing the line.")


def _event(event: Event) -> Html:
    if event.kind == "planned stop" and event.stop:
        return el("p", _STOP, " ", sentence(event.stop.facts.do))
    return el("p", sentence(event.text))


def _marks(inspected: Inspected, stage: StageSolution, station: Station) -> Iterator[Html]:
    """Rules that failed right here, so that the two lists point at one another."""
    found = {
        (f.grade, f.rule): f
        for f in inspected.inspection.findings
        if f.result is Result.FAILED and f.check.where.stage == stage.stage.index
        and f.check.where.travel_m is not None and station.travel_m > 0
        and abs(f.check.where.travel_m - station.travel_m) <= _SAME_M
    }  # fmt: skip
    for finding in found.values():
        yield el("p", signal(finding.grade), " ", el("a", finding.title, href=f"#{anchor(finding)}"))


def _watch(station: Station, stage: StageSolution, system: str) -> Iterator[str]:
    names = {name for event in station.events for name in _names(event, stage)}
    for person in stage.stage.people:
        seen = [name for name in person.facts.watches or () if name in names or station.index == 0]
        if seen:
            yield f"{person.who}: {listed(seen)}"
    pull = station.line_pull_most_n
    if pull is not None and isfinite(pull):
        yield f"Line pull: up to {show(pull, 'N', system)}"
    if station.drum and not stage.stage.haul.unstated:
        yield f"On the drum: {show(station.drum.wraps.low, 'wraps', system)}"


def _names(event: Event, stage: StageSolution) -> Iterator[str]:
    """Joins and redirects that an event is about."""
    yield from event.redirects
    if event.join:
        yield event.join.name
    if event.line and event.turn is not None:
        yield stage.line(event.line).turns[event.turn].redirect
    if event.stop:
        yield from event.stop.names


def _hands(station: Station, stage: StageSolution, inspected: Inspected, *, last: bool) -> Iterator[str]:
    if station.index == 0:
        if stage.stage.load_held_by:
            yield f"Load comes from {stage.stage.load_held_by} to the line"
        yield f"{_signaller(stage)} alone gives the signals"
    for event in station.events:
        if event.kind == "planned stop" and event.stop:
            by = event.stop.facts.load_held_by
            yield f"Load to {by}; line slack only then" if by else "The plan does not say what holds the load here"
            yield f"{_signaller(stage)} alone says when to go on"
    if last:
        yield _ends(stage, inspected)


def _signaller(stage: StageSolution) -> str:
    signals = stage.stage.signals
    return (signals.given_by if signals else None) or "one person, named beforehand,"


def _ends(stage: StageSolution, inspected: Inspected) -> str:
    following = inspected.solution.stages[stage.stage.index + 1 :]
    if not following:
        return "Load to whoever takes charge of it, by name, once it is fast"
    by = following[0].stage.load_held_by
    held = f"Load to {by}" if by else "The plan does not say what holds the load"
    return f"{held} while it is re-rigged"
