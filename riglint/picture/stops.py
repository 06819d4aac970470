"""Which place of the travel a picture shows: start, end, an event, or so far along."""

from __future__ import annotations

from riglint.reading.quantity import QuantityError, Span, parse_quantity
from riglint.rig.model import Rig, RigStage
from riglint.solve.solution import ResistanceFigures, Solution, StageSolution, Station
from riglint.solve.solve import SAME_M, solve


class NoSuchPlaceError(ValueError):
    """A place that the travel does not have: what was asked for, and what there is."""


def station_at(solution: Solution, stage: StageSolution, asked: str) -> Station:
    """The station asked for: `start`, `end`, a distance with its unit, or words of an event's text.

    Raises NoSuchPlaceError.
    """
    if not stage.stations:
        raise NoSuchPlaceError("this stage can't stand as planned, so that it has no places")
    word = asked.strip().lower()
    if word in ("", "start"):
        return stage.stations[0]
    if word == "end":
        return stage.stations[-1]
    try:
        travel_m = parse_quantity(asked.strip(), "length", minimum=0.0).mid
    except QuantityError:
        return _at_event(stage, asked)
    if travel_m > stage.stations[-1].travel_m + SAME_M:
        raise NoSuchPlaceError(f"`{asked}` lies past the end of the travel")
    return _at_travel(solution, stage, travel_m)


def _at_event(stage: StageSolution, asked: str) -> Station:
    word = asked.strip().lower()
    named = [s for s in stage.stations if any(word in event.text.lower() for event in s.events)]
    if named:
        return named[0]
    events = "; ".join(f"`{event.text}`" for event in stage.events)
    serves = f", or words of an event: {events}" if events else ""
    raise NoSuchPlaceError(f"no place `{asked}` on the travel: use start, end, a distance such as `3.5 m`{serves}")


def _at_travel(solution: Solution, stage: StageSolution, travel_m: float) -> Station:
    """A station that there is, or the end of the same stage cut short there."""
    for station in stage.stations:
        if abs(station.travel_m - travel_m) <= SAME_M:
            return station
    short = stage.stage._replace(travel=Span(travel_m, travel_m))
    rig = Rig(solution.rig.title, solution.rig.reports_in, solution.rig.north_rad, (short,))
    found = solve(rig).stages[0]
    if not found.stations:
        raise NoSuchPlaceError(f"the rig can't stand there: {found.refused}")
    return found.stations[-1]._replace(title="", events=())


def bare_station(stage: RigStage) -> Station:
    """For a stage that can't stand: its points where the plan puts them, and nothing else."""
    places = {name: point.at for name, point in stage.points.items()}
    nothing = ResistanceFigures(None, None, None, "", (), (), ())
    untold = (None,) * 6
    return Station(0, 0.0, "as planned", (), places, (), (), 0.0, 0.0, 0.0, 0.0, nothing, *untold, (), {})
