"""What happens along the travel of a stage, found as roots of path lengths."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from riglint.mechanics.envelope import CANCELS
from riglint.mechanics.travel import ROUNDING, convex_roots, root_between
from riglint.mechanics.vectors import dot
from riglint.reading.quantity import Span
from riglint.rig.model import Join, Line, RigStage
from riglint.solve.drum_figures import DrumTable
from riglint.solve.geometry import Geometry, Walk
from riglint.solve.mark import Mark
from riglint.solve.rope import stands_between
from riglint.solve.solution import Event, EventKind
from riglint.solve.wiring import Wiring

LEAST_SIZE_M = 0.05  # a redirect whose tread is not stated is taken to be no bigger than this
STEEPEST = 1.1  # metres of leg per metre of travel, at the most


def ideal_gain(wiring: Wiring, geometry: Geometry) -> float:
    """Pull on the load along the travel per unit of line pull, without friction: -dL/ds. What is rounding is none."""
    ratios = [1.0] * len(wiring.legs)
    paths = zip(wiring.strings, wiring.net.strings, geometry.balance.string_ratios, strict=True)
    for legs, (nodes, _), ratio in paths:
        for leg in legs:
            ratios[leg] = ratio * ((len(nodes) - 1) // len(legs))  # a string may pass along its legs twice
    way = wiring.net.direction
    gain = sum(sign * ratios[leg] * dot(geometry.ways[leg], way) for leg, sign in wiring.load_ends)
    return gain if abs(gain) > CANCELS else 0.0


class Finder:
    """Finds the events of one stage."""

    def __init__(self, stage: RigStage, wiring: Wiring, walk: Walk, drum: DrumTable) -> None:
        self.stage, self.wiring, self.walk, self.drum = stage, wiring, walk, drum
        self.end_m = stage.travel.high

    def find(self) -> tuple[Event, ...]:
        """All events, by travel and then by their words. Raises NoBalance."""
        found = [
            *self._joins(), *self._drum(), *self._redirects(), *self._abeam(), *self._ground(), *self._stops(),
        ]  # fmt: skip
        return tuple(sorted(found, key=lambda e: (round(e.travel_m, 6), e.kind, e.text)))

    def fillings(self) -> tuple[Mark, ...]:
        """Where what the winch can pull goes over to another layer's. Raises NoBalance."""
        beyond = self.stage.haul.dead_end.length_m
        paths = [(path_m, layer) for path_m, layer in self.drum.filling_paths() if path_m > 0.0]
        return tuple(
            Mark(place, f"layer {layer} may be full")
            for path_m, layer in paths
            for place in self._path_roots(0, -1, path_m + beyond)
        )

    def _path_roots(self, line: int, index: int, length_m: float) -> tuple[float, ...]:
        """Where the path from a line's turn (or -1, its first end) to what holds its dead end has a length."""
        own = self.wiring.line_legs[line]
        legs = range(own.start + index + 1, own.stop)
        first = legs.start
        return self._roots(lambda g: g.to_end[first] - length_m, legs)

    def _roots(self, of: Callable[[Geometry], float], legs: range) -> tuple[float, ...]:
        at = self.walk.at
        # A leg shortens by no more than the load moves, and the little by which a redirect swings.
        steepest = STEEPEST * len(legs)
        return convex_roots(
            lambda travel_m: of(at(travel_m)),
            self.end_m,
            lambda: (self._slope(0.0, legs), self._slope(self.end_m, legs)),
            steepest,
        )

    def _slope(self, travel_m: float, legs: range) -> float:
        rates = self.walk.rates(travel_m, self.end_m)
        return sum([rates[i] for i in legs])

    def _joins(self) -> Iterator[Event]:
        for number, line in enumerate(self.stage.lines):
            for join in line.joins:
                if join.from_dead_end.high == float("inf"):
                    continue
                first = -1 if number == 0 else 0
                for index in range(first, len(line.turns)):
                    yield from self._join_at(number, line, join, index)

    def _join_at(self, number: int, line: Line, join: Join, index: int) -> Iterator[Event]:
        for spread in self._join_spreads(number, line, join, index):
            if index < 0:
                text = f"{join.name} reaches the fairlead"
                yield Event("join at fairlead", spread.low, spread, text, join=join, line=line.name)
            else:
                turn = line.turns[index]
                text = f"{join.name} reaches {turn.redirect}.{turn.seat_name}"
                yield Event("join at seat", spread.low, spread, text, join=join, turn=index, line=line.name,
                            redirects=(turn.redirect,))  # fmt: skip

    def _join_spreads(self, number: int, line: Line, join: Join, index: int) -> list[Span]:
        """Where a join may meet a seat: where the path beyond the seat is no longer than it may be, and no shorter.

        The path falls and then rises, so it is no longer than the most between two places, and shorter than the least
        between two others within. What it doesn't come to within the travel ends with the travel.
        """
        beyond = line.dead_end.length_m
        low, high = join.from_dead_end
        far = self._path_roots(number, index, high + beyond)
        near = far if low == high else self._path_roots(number, index, low + beyond)
        start, end = (self.walk.at(s).path_beyond(self.wiring, number, index) - beyond for s in (0.0, self.end_m))
        if not far and start > high:
            return []
        begins = far[0] if far and start > high + ROUNDING else 0.0
        ends = far[-1] if far and end > high + ROUNDING else self.end_m
        falls, rises = start >= low - ROUNDING, end >= low - ROUNDING
        if falls and rises and len(near) < 2:
            return [Span(begins, ends)]  # down to the least at the most
        return ([Span(begins, near[0])] if falls else []) + ([Span(near[-1], ends)] if rises else [])

    def _drum(self) -> Iterator[Event]:
        haul = self.stage.haul
        beyond = haul.dead_end.length_m
        hauling = self.stage.works == "hauling"
        for number, end_m in enumerate(self.drum.layer_ends_m, start=1):
            free = haul.length.mid - self.drum.run_m - end_m
            for place in self._path_roots(0, -1, free + beyond) if free > 0.0 else ():
                text = f"layer {number} is full" if hauling else f"layer {number + 1} is off the drum"
                kind: EventKind = "layer full" if hauling else "layer empty"
                yield Event(kind, place, Span(place, place), text, layer=number)
        if not haul.unstated:
            yield from self._runs_out(haul.length.low - self.drum.run_m + beyond)

    def _runs_out(self, length_m: float) -> Iterator[Event]:
        """Where the path outgrows the line. A path that is too long at first and shortens is no such place."""
        places = self._path_roots(0, -1, length_m)
        if places and self.walk.at(self.end_m).to_end[0] > length_m:
            place = places[-1]
            yield Event("line runs out", place, Span(place, place), "the line runs out", line=self.stage.haul.name)

    def _redirects(self) -> Iterator[Event]:
        for number, leg in enumerate(self.wiring.legs):
            if leg.line < 0:
                continue
            nodes = [self.wiring.names[n] for n in (leg.begin, leg.end)]
            index = number - self.wiring.line_legs[leg.line].start
            names = stands_between(self.stage.lines[leg.line], index, *nodes)
            if any(n not in self.stage.redirects for n in names):
                continue
            gap = sum(0.5 * self._size(name) for name in names)
            for place in self._roots(lambda g, i=number, d=gap: g.lengths[i] - d, range(number, number + 1)):  # type: ignore[misc]
                text = f"{names[0]} and {names[1]} meet"
                yield Event("redirects meet", place, Span(place, place), text, redirects=(names[0], names[1]))

    def _size(self, name: str) -> float:
        facts = self.stage.redirects[name].facts
        treads = [seat.tread.high for seat in (facts.sheave, facts.groove, facts.bore) if seat and seat.tread]
        return float(max(LEAST_SIZE_M, *treads)) if treads else LEAST_SIZE_M

    def _abeam(self) -> Iterator[Event]:
        """Where the pull along the travel falls to nothing: it only ever falls, since path lengths are convex."""

        def f(travel_m: float) -> float:
            return ideal_gain(self.wiring, self.walk.at(travel_m))

        start, end = f(0.0), f(self.end_m)
        if self.stage.works == "hauling" and start > 0.0 > end:
            place = root_between(f, 0.0, self.end_m, start, end)
            yield Event("leg abeam", place, Span(place, place), "the line comes abeam: hauling no longer helps")

    def _ground(self) -> Iterator[Event]:
        ground = self.stage.load.facts.ground
        for i, zone in enumerate(ground.zones if ground else ()):
            low, high = (place - self.stage.begins_m for place in zone.begins_at)
            place = 0.5 * (low + high)
            if 0.0 < place <= self.end_m:
                what = zone.surface or zone.mired or "the slope changes"
                spread = Span(max(0.0, low), min(high, self.end_m))
                yield Event("ground changes", place, spread, f"the ground changes: {what}", zone=i)

    def _stops(self) -> Iterator[Event]:
        for stop in self.stage.stops:
            place = stop.after_m.mid
            if 0.0 <= place <= self.end_m:
                yield Event("planned stop", place, stop.after_m, f"stop: {stop.facts.do}", stop=stop)
