"""What each rated thing carries at its worst: pieces, connectors, bridles' legs, seats and the fairlead.

For rules. Steady is the pull as expected, or the load at rest where that carries more; stall is the winch kept on.
A load that facts are missing for has no upper end.
"""

from collections.abc import Iterator
from math import inf, radians, sin
from typing import Final, NamedTuple

from riglint.mechanics.rounding import surpasses
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

    @classmethod
    def untold(cls, case: Case) -> "Load":
        """A load of which nothing is known. Units: N. Source: definition."""
        return cls(case, 0.0, inf, 0, None)


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


class _Loads:
    """The worst loads of a stage, with what is the same for all of them looked up once."""

    __slots__ = ("_discount", "_known", "_peaks", "_pulls")

    def __init__(self, stage: StageSolution) -> None:
        self._peaks = stage.peaks
        self._known = {case: not missing for case, missing in stage.missing.items()}
        # A turn whose loss isn't stated was reckoned with one; without it the load may be so much less.
        self._discount = (1.0 - SHEAVE_LOSS.value) ** len(stage.losses_assumed)
        self._pulls = [s.rows[s.row_of["winch", "winch"]][1] for s in stage.stations]

    def of(self, key: Key, case: Case) -> Load | None:
        """A component's worst load in a case; None where the case does not occur or nothing is known of it."""
        peak = self._peaks[case].get(key)
        return None if peak is None else self.at(case, peak.load_n, peak.station)

    def at(self, case: Case, load_n: float, station: int) -> Load:
        """A load with its range."""
        pull_n = self._pulls[station] if case == "stall" else None
        if self._known[case]:
            return Load(case, load_n, load_n, station, pull_n)
        return Load(case, load_n if case == "stall" else load_n * self._discount, inf, station, pull_n)


def strains(stage: StageSolution) -> Iterator[Strain]:
    """Everything of a stage that rope loads and that a working load is asked for."""
    loads = _Loads(stage)
    lines = _line_loads(stage, loads)
    for component in stage.components:
        if component.kind == "redirect":
            yield from _seats(stage, component, loads, lines)
        elif component.kind == "fairlead":
            yield from _fairlead(stage, component, loads)
        elif rating := rating_of(component):
            yield _strain(component, rating, loads)


def _strain(component: Component, rating: Rating, loads: _Loads) -> Strain:
    key = component.key
    steady = _worse(loads.of(key, "expected"), loads.of(key, "holding"))
    return Strain(component.kind, component.name, component.pointer, rating, steady, loads.of(key, "stall"))


def _worse(expected: Load | None, holding: Load | None) -> Load | None:
    if expected is None or holding is None:
        return expected or holding
    return holding if (holding.most_n, holding.least_n) > (expected.most_n, expected.least_n) else expected


def _fairlead(stage: StageSolution, component: Component, loads: _Loads) -> Iterator[Strain]:
    fairlead = stage.stage.winch.facts.fairlead
    rated = fairlead.rated if fairlead else None
    if rated is not None:
        yield _strain(component, Rating(rated.low, None, (), STRAIGHT, ()), loads)
        return
    for case in ("stall", "expected"):
        bend, pull = loads.of(component.key, case), loads.of(("winch", "winch"), case)
        if bend and pull and bend.least_n > FAIRLEAD_FREE * pull.least_n:
            unrated = Rating(None, None, (), STRAIGHT, (place(component.pointer, "rated"),))
            yield _strain(component, unrated, loads)
            return


def _seats(stage: StageSolution, component: Component, loads: _Loads, lines: LineLoads) -> Iterator[Strain]:
    """The seats that rope runs through, and the hanger's where a rating of its own is stated."""
    redirect = component.item
    if not isinstance(redirect, Redirect):
        return
    resultant = [loads.of(component.key, case) for case in _CASES]
    used = [seat for name, seat in lines if name == redirect.name]
    for name in used:
        yield _seat(redirect, name, lines[redirect.name, name], resultant)
    hung, hanger = redirect.facts.hung_through or ("head" if redirect.facts.head else None), redirect.hanger
    seat = redirect.facts.seat(hung) if hung and hung not in used else None
    if hung and hanger and seat and (seat.rated or seat.breaking):
        key: Key = ("connector", hanger.connectors[0].name) if hanger.connectors else component.key
        carried = [loads.of(key, case) for case in _CASES]
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


def _line_loads(stage: StageSolution, loads: _Loads) -> LineLoads:
    """For each redirect and seat, the worst pull in the line on either side of it: expected, holding and stall."""
    worst: dict[tuple[str, str], dict[Case, tuple[float, int]]] = {}
    for station in stage.stations:
        for figures in station.turns:
            own = worst.setdefault((figures.turn.redirect, figures.turn.seat_name), {})
            for case, line_n in figures.line_n.items():
                if case not in own or surpasses(line_n, own[case][0]):
                    own[case] = (line_n, station.index)
    return {
        seat: [loads.at(case, *own[case]) if case in own else None for case in _CASES] for seat, own in worst.items()
    }
