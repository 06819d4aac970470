"""How near a join stops to a fairlead or a seat that it comes to no more."""

from collections.abc import Iterator
from typing import NamedTuple

from riglint.mechanics.rounding import first_least
from riglint.rig.model import Join, Line
from riglint.solve.solution import StageSolution, Station


class Gap(NamedTuple):
    """Along the rope at the end of the travel: the ways to the dead end from the seat and from the join [m]."""

    seat: str
    way_m: float
    join_m: float

    @property
    def length_m(self) -> float:
        """What is between them."""
        return abs(self.way_m - self.join_m)


def least_gap(stage: StageSolution, line: Line, join: Join) -> Gap | None:
    """The least gap at the end to a seat that a join comes nearer to and hasn't met; None where it comes to none.

    Seats that by their makers let it through are left out. Both ends of the join's range count.
    """
    before, last = stage.stations[-2:][0], stage.stations[-1]
    met = {-1 if e.turn is None else e.turn for e in stage.events if e.join is join and e.travel_m < last.travel_m}
    gaps = [
        Gap(seat, end_m, join_m)
        for (index, seat, end_m), (_, _, was_m) in zip(_ways(last, line, join), _ways(before, line, join), strict=True)
        for join_m in join.from_dead_end
        if index not in met and abs(end_m - join_m) < abs(was_m - join_m)
    ]
    return first_least(gaps, lambda gap: gap.length_m) if gaps else None


def _ways(station: Station, line: Line, join: Join) -> Iterator[tuple[int, str, float]]:
    """The ways along the rope to the dead end: from the fairlead, by the index -1, and from each turn by its own."""
    if station.legs[0].line == line.name:
        yield -1, "the fairlead", station.path_m
    for figures in station.turns:
        let_through = figures.turn.seat.passes or ()
        if figures.line == line.name and join.facts.kind not in let_through:
            yield figures.index, f"{figures.turn.redirect}.{figures.turn.seat_name}", figures.path_beyond_m
