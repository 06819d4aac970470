"""What each rated thing carries at its worst: pieces, connectors, bridles' legs, seats and the fairlead.

For rules. Steady is the pull as expected, or the load at rest where that carries more; stall is the winch kept on.
A load that facts are missing for has no upper end.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf, radians, sin
from typing import Final, NamedTuple

from riglint.mechanics.tackle import SHEAVE_LOSS
from riglint.rig.model import Redirect
from riglint.solve.ratings import STRAIGHT, Rating, place, rating_of, seat_rating
from riglint.solve.solution import Case, Component, Kind, StageSolution

FAIRLEAD_FREE: Final = 2.0 * sin(radians(15.0) / 2.0)
"""Up to a bend of 15 degrees a fairlead that no rating is stated for is left alone: common practice, no source."""

Key = tuple[Kind, str]
_CASES: Final[tuple[Case, ...]] = ("expected", "holding", "stall")


class Load(NamedTuple):
    """A worst load: the least that it is by the facts stated, and the most that it can be (infinite if not told)."""

    case: Case
    least_n: float
    most_n: float
    station: int
    pull_n: float | None  # of the line, in the same case and place


Loads = list[Load | None]  # expected, holding, stall
LineLoads = dict[tuple[str, str], Loads]  # of redirect and seat


class Strain(NamedTuple):
    """What something carries and what is stated of what it may carry."""

    kind: str
    name: str
    pointer: str
    rating: Rating
    steady: Load | None
    stall: Load | None


def strains(stage: StageSolution) -> Iterator[Strain]:
    """Everything of a stage that rope loads and that a working load is asked for."""
    lines = line_loads(stage)
    for component in stage.components:
        if component.kind == "redirect":
            yield from _seats(stage, component, lines)
        elif component.kind == "fairlead":
            yield from _fairlead(stage, component)
        elif rating := rating_of(component):
            yield _strain(stage, component, rating)


def _strain(stage: StageSolution, component: Component, rating: Rating) -> Strain:
    key = component.key
    steady = _worse(load(stage, key, "expected"), load(stage, key, "holding"))
    return Strain(component.kind, component.name, component.pointer, rating, steady, load(stage, key, "stall"))


def load(stage: StageSolution, key: Key, case: Case) -> Load | None:
    """A component's worst load in a case; None where the case does not occur or nothing is known of it."""
    peak = stage.peaks[case].get(key)
    if peak is None:
        return None
    return _load(stage, case, peak.load_n, peak.load_n, peak.station)


def _load(stage: StageSolution, case: Case, least_n: float, most_n: float, station: int) -> Load:
    """A turn whose loss isn't stated was reckoned with one; without it the load may be so much less."""
    if stage.missing[case]:
        most_n = inf
        if case != "stall":
            least_n *= (1.0 - SHEAVE_LOSS.value) ** len(stage.losses_assumed)
    pull = stage.peaks[case].get(("winch", "winch")) if case == "stall" else None
    if pull is None:
        return Load(case, least_n, most_n, station, None)
    here = stage.stations[station]
    return Load(case, least_n, most_n, station, here.rows[here.row_of["winch", "winch"]][1])


def _worse(expected: Load | None, holding: Load | None) -> Load | None:
    if expected is None or holding is None:
        return expected or holding
    return holding if (holding.most_n, holding.least_n) > (expected.most_n, expected.least_n) else expected


def _fairlead(stage: StageSolution, component: Component) -> Iterator[Strain]:
    fairlead = stage.stage.winch.facts.fairlead
    rated = fairlead.rated if fairlead else None
    if rated is not None:
        yield _strain(stage, component, Rating(rated.low, None, (), STRAIGHT, ()))
        return
    bends = [load(stage, component.key, case) for case in ("stall", "expected")]
    pulls = [load(stage, ("winch", "winch"), case) for case in ("stall", "expected")]
    if any(b and p and b.least_n > FAIRLEAD_FREE * p.least_n for b, p in zip(bends, pulls, strict=True)):
        none = Rating(None, None, (), STRAIGHT, (place(component.pointer, "rated"),))
        yield _strain(stage, component, none)


def _seats(stage: StageSolution, component: Component, lines: LineLoads) -> Iterator[Strain]:
    """The seats that rope runs through, and the hanger's where a rating of its own is stated."""
    redirect = component.item
    if not isinstance(redirect, Redirect):
        return
    resultant = [load(stage, component.key, case) for case in _CASES]
    used = [seat for name, seat in lines if name == redirect.name]
    for name in used:
        yield _seat(redirect, name, lines[redirect.name, name], resultant)
    hung, hanger = redirect.facts.hung_through, redirect.hanger
    seat = redirect.facts.seat(hung) if hung and hung not in used else None
    if hung and hanger and seat and (seat.rated or seat.breaking):
        key: Key = ("connector", hanger.connectors[0].name) if hanger.connectors else component.key
        carried = [load(stage, key, case) for case in _CASES]
        yield _seat(redirect, hung, carried, carried)


def _seat(redirect: Redirect, name: str, line: Loads, resultant: Loads) -> Strain:
    seat, rating = seat_rating(redirect, name)
    rated_for = seat.rated_for if seat else None
    if rated_for is None:
        counted = [_either(a, b) for a, b in zip(line, resultant, strict=True)]
    else:
        counted = line if rated_for == "line" else resultant
    pointer = f"{redirect.pointer}/{name}" if seat else redirect.pointer
    return Strain("seat", f"{redirect.name}.{name}", pointer, rating, _worse(counted[0], counted[1]), counted[2])


def _either(line: Load | None, resultant: Load | None) -> Load | None:
    """Where a rating does not say which it counts: from the lesser to the greater of the two."""
    if line is None or resultant is None:
        return None
    least = line if line.least_n < resultant.least_n else resultant
    return least._replace(most_n=max(line.most_n, resultant.most_n))


def line_loads(stage: StageSolution) -> LineLoads:
    """For each redirect and seat, the worst pull in the line on either side of it: expected, holding and stall."""
    worst: dict[tuple[str, str], dict[Case, tuple[float, int]]] = {}
    for station in stage.stations:
        for figures in station.turns:
            own = worst.setdefault((figures.turn.redirect, figures.turn.seat_name), {})
            for case, line_n in figures.line_n.items():
                if case not in own or line_n > own[case][0]:
                    own[case] = (line_n, station.index)
    return {
        seat: [_load(stage, case, own[case][0], own[case][0], own[case][1]) if case in own else None for case in _CASES]
        for seat, own in worst.items()
    }
