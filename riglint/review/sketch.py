"""A sketch of a rig for a table of many: the lines as they run at the start, the load and who stands where, seen
from above with the load's way to the right. Plain data in tenths of the frame, a few hundred bytes a plan; the full
picture is `riglint draw`.
"""

from __future__ import annotations

from math import hypot
from typing import Any, Final

from riglint.mechanics.vectors import Vec
from riglint.solve.solution import Solution, StageSolution, Station

WIDTH: Final = 160
HEIGHT: Final = 64
_EDGE: Final = 6
_LEAST_M: Final = 1.0

Sketch = dict[str, Any]


def sketch(solution: Solution) -> Sketch | None:
    """The first stage at its start; None where it can't stand as planned."""
    stage = solution.stages[0] if solution.stages else None
    if stage is None or not stage.stations:
        return None
    return _Frame(stage, stage.stations[0]).drawn()


class _Frame:
    def __init__(self, stage: StageSolution, station: Station) -> None:
        self.stage, self.station = stage, station
        way = stage.stage.direction
        length = hypot(way[0], way[1]) or 1.0
        self.along = (way[0] / length, way[1] / length)
        legs = [self._level(end) for leg in station.legs for end in (leg.start, leg.end)]
        load = [self._level(point.at) for point in stage.stage.points.values() if point.body.moves]
        self.people = [self._level(p.at) for p in stage.stage.people if p.at]
        self.load = load
        seen = legs + load
        self.left, self.low = (min(p[i] for p in seen) for i in (0, 1))
        wide, high = (max(p[i] for p in seen) - low for i, low in ((0, self.left), (1, self.low)))
        room = WIDTH - 2 * _EDGE, HEIGHT - 2 * _EDGE
        self.scale = min(room[0] / max(wide, _LEAST_M), room[1] / max(high, _LEAST_M))
        self.off = (WIDTH - wide * self.scale) / 2, (HEIGHT - high * self.scale) / 2

    def drawn(self) -> Sketch:
        lines: list[list[list[int]]] = []
        for leg in self.station.legs:
            ends = [self._put(self._level(leg.start)), self._put(self._level(leg.end))]
            if lines and leg.index and lines[-1][-1] == ends[0]:
                lines[-1].append(ends[1])
            else:
                lines.append(ends)
        winch = self.station.places.get("winch")
        return {
            "lines": lines,
            "load": [self._put(p) for p in self.load],
            "winch": self._put(self._level(winch)) if winch else None,
            "people": [at for at in map(self._put, self.people) if 0 <= at[0] <= WIDTH and 0 <= at[1] <= HEIGHT],
        }

    def _level(self, at: Vec) -> tuple[float, float]:
        """Along the load's way and across it."""
        x, y = self.along
        return at[0] * x + at[1] * y, at[1] * x - at[0] * y

    def _put(self, at: tuple[float, float]) -> list[int]:
        x = self.off[0] + (at[0] - self.left) * self.scale
        y = HEIGHT - self.off[1] - (at[1] - self.low) * self.scale
        return [round(x), round(y)]
