"""The taut rig at a place of the travel: where everything stands, how long each leg is and which way it goes."""

from math import sqrt
from typing import NamedTuple

from riglint.mechanics.balance import Balance, balance
from riglint.mechanics.vectors import ZERO, Vec, dot, sub
from riglint.solve.wiring import Wiring

NUDGE_M = 1e-4  # step of travel over which path lengths are differenced
PLACE_DIGITS = 10  # decimals of a metre: coarser than rounding, so that every machine goes on from the same places


class Geometry(NamedTuple):
    """Places of the nodes, and for each leg its length in metres and unit vector.

    `to_end` is for each leg the path from its begin to what holds its line's dead end.
    """

    travel_m: float
    balance: Balance
    places: tuple[Vec, ...]
    lengths: tuple[float, ...]
    ways: tuple[Vec, ...]
    to_end: tuple[float, ...]

    def path_beyond(self, wiring: Wiring, line: int, index: int) -> float:
        """From a line's turn (or with -1 its first end) to what holds its dead end, in metres."""
        return self.to_end[wiring.line_legs[line].start + index + 1]


def look(wiring: Wiring, travel_m: float, near: Geometry | None = None) -> Geometry:
    """The geometry at a travel, found from one nearby where there is one. Raises NoBalance."""
    found = balance(wiring.net, travel_m, near.balance if near else None)
    places = tuple(
        [(round(x, PLACE_DIGITS), round(y, PLACE_DIGITS), round(z, PLACE_DIGITS)) for x, y, z in found.places]
    )
    lengths: list[float] = []
    ways: list[Vec] = []
    for leg in wiring.legs:
        ax, ay, az = places[leg.begin]
        bx, by, bz = places[leg.end]
        x, y, z = bx - ax, by - ay, bz - az
        size = sqrt(x * x + y * y + z * z)
        lengths.append(size)
        ways.append((x / size, y / size, z / size) if size > 0.0 else (0.0, 0.0, 0.0))
    return Geometry(travel_m, found, places, tuple(lengths), tuple(ways), _to_end(wiring, lengths))


def _to_end(wiring: Wiring, lengths: list[float]) -> tuple[float, ...]:
    paths = lengths[:]
    for own in wiring.line_legs:
        for leg in range(own.stop - 2, own.start - 1, -1):
            paths[leg] += paths[leg + 1]
    return tuple(paths)


class Walk:
    """Geometries along the travel, each worked out once."""

    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        self._seen: dict[float, Geometry] = {}
        self._rates: dict[float, tuple[float, ...]] = {}
        self._beside: dict[float, Geometry] = {}
        self._last: Geometry | None = None

    def at(self, travel_m: float) -> Geometry:
        """The geometry there. Raises NoBalance."""
        found = self._seen.get(travel_m)
        if found is None:
            found = look(self.wiring, travel_m, self._last)
            self._seen[travel_m] = found
        self._last = found
        return found

    def rates(self, travel_m: float, end_m: float) -> tuple[float, ...]:
        """How fast each leg's length changes with travel there, in metres a metre."""
        here = self.at(travel_m)
        if here.balance.whole is not None:
            return self._following(here)
        found = self._rates.get(travel_m)
        if found is None:
            there = self.beside(travel_m, end_m)
            step = there.travel_m - travel_m
            found = tuple([(b - a) / step for a, b in zip(here.lengths, there.lengths, strict=True)])
            self._rates[travel_m] = found
        return found

    def beside(self, travel_m: float, end_m: float) -> Geometry:
        """The geometry a nudge farther on, or before the end of the travel a nudge back. Raises NoBalance."""
        found = self._beside.get(travel_m)
        if found is None:
            step = -NUDGE_M if travel_m + NUDGE_M > end_m else NUDGE_M
            found = look(self.wiring, travel_m + step, self.at(travel_m))
            self._beside[travel_m] = found
        return found

    def _velocities(self, here: Geometry) -> list[Vec]:
        """How fast each node goes, in metres a metre of travel."""
        net, whole = self.wiring.net, here.balance.whole
        if whole is not None:
            return net.velocity() + whole.drift
        return [net.direction if moves else ZERO for moves in self.wiring.moves]

    def _following(self, here: Geometry) -> tuple[float, ...]:
        velocity = self._velocities(here)
        return tuple(
            [
                dot(sub(velocity[leg.end], velocity[leg.begin]), way)
                for leg, way in zip(self.wiring.legs, here.ways, strict=True)
            ]
        )
