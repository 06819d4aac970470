"""Places: coordinates, or a distance and a bearing from another place, made into coordinates."""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, pi

from riglint.mechanics.vectors import Vec, add, heading, scale
from riglint.plan.points import Point as PointFacts
from riglint.plan.quantities import BearingPlace, Coordinates
from riglint.rig.faults import Faults


def plan_angle(bearing_rad: float, north_rad: float | None) -> float:
    """A bearing as an angle from +x, counter-clockwise: compass-wise where the plan gives `north`."""
    return bearing_rad if north_rad is None else north_rad - bearing_rad


def level_angle(direction: Vec, north_rad: float | None) -> float:
    """The bearing of a direction seen from above, from 0 to 2 pi, in the plan's own way of giving bearings."""
    return plan_angle(atan2(direction[1], direction[0]), north_rad) % (2.0 * pi)


class Places:
    """Resolves points' places by name, each once, and finds circles among them."""

    def __init__(
        self,
        points: dict[str, PointFacts],
        pointer_of: Callable[[str], str],
        north_rad: float | None,
        faults: Faults,
        known: dict[str, Vec] | None = None,
    ) -> None:
        self.north_rad = north_rad
        self.known: dict[str, Vec] = known or {}
        self._points = points
        self._pointer_of = pointer_of
        self._faults = faults
        self._open: list[str] = []

    def of_point(self, name: str) -> Vec:
        """Where a point stands; a fault is noted and the origin given where that can't be told."""
        if name in self.known:
            return self.known[name]
        pointer = f"{self._pointer_of(name)}/at"
        if name in self._open:
            circle = " from ".join(f"`{n}`" for n in [*self._open[self._open.index(name) :], name])
            self._faults.add(pointer, f"places go in a circle: {circle}", "give one of them by coordinates")
            return (0.0, 0.0, 0.0)
        self._open.append(name)
        self.known[name] = self.of(self._points[name].at, pointer)
        self._open.pop()
        return self.known[name]

    def of(self, place: Coordinates | BearingPlace, pointer: str) -> Vec:
        """A place as coordinates in metres."""
        if isinstance(place, Coordinates):
            return (place[0], place[1], place[2])
        origin = (0.0, 0.0, 0.0)
        if place.origin is not None:
            if place.origin not in self._points and place.origin not in self.known:
                self._faults.unknown(pointer, place.origin, "point", list({**self._points, **self.known}))
                return origin
            origin = self.of_point(place.origin)
        way = heading(plan_angle(place.bearing_rad, self.north_rad))
        x, y, z = add(origin, scale(way, place.distance_m))
        return (x, y, z + place.up_m)
