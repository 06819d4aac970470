"""From the plan's metres to the sheet: the load's travel always goes to the right, from above or from the side."""

from __future__ import annotations

from math import atan2, cos, hypot, sin
from typing import Final, NamedTuple

from riglint.mechanics.vectors import Vec
from riglint.picture.boxes import Box
from riglint.picture.svg import Xy

WIDTH: Final = 840.0  # of the sheet, in units of which a text's height takes 13
EDGE: Final = 10.0
PAD: Final = 62.0  # over and under the rig, for labels
ASIDE: Final = 30.0
TALLEST: Final = 520.0
_LEAST_M: Final = 3.0  # what a frame shows at least, across
_PEOPLE_SHRINK: Final = 0.72  # people farther off than shrinks the rig to this are told at the frame's edge


class View(NamedTuple):
    """A frame on the sheet and the way into it. In a side view, up is height instead of the plan's second axis."""

    frame: Box
    scale: float  # units of the sheet per metre
    cos_: float
    sin_: float
    side: bool
    left_m: float
    top_m: float

    def at(self, place: Vec) -> Xy:
        """Where a place falls on the sheet."""
        right, up = turned(place, self.cos_, self.sin_, side=self.side)
        return (self.frame.left + (right - self.left_m) * self.scale, self.frame.top + (self.top_m - up) * self.scale)

    def way(self, direction: Vec) -> Xy:
        """A direction on the sheet, of length 1, or zero where it goes straight into it."""
        right, up = turned(direction, self.cos_, self.sin_, side=self.side)
        size = hypot(right, up)
        return (right / size, -up / size) if size > 1e-9 else (0.0, 0.0)


def turned(place: Vec, cos_: float, sin_: float, *, side: bool) -> Xy:
    """Right and up of a place, in metres."""
    right = place[0] * cos_ + place[1] * sin_
    return (right, place[2]) if side else (right, place[1] * cos_ - place[0] * sin_)


def turn_of(direction: Vec) -> tuple[float, float]:
    """Cosine and sine of the travel's way, seen from above."""
    if hypot(direction[0], direction[1]) < 1e-9:
        return 1.0, 0.0
    angle = atan2(direction[1], direction[0])
    return cos(angle), sin(angle)


class _Extent(NamedTuple):
    left: float
    bottom: float
    right: float
    top: float

    def with_(self, at: Xy) -> _Extent:
        return _Extent(min(self.left, at[0]), min(self.bottom, at[1]), max(self.right, at[0]), max(self.top, at[1]))

    @property
    def scale(self) -> float:
        """The largest that fits."""
        wide, tall = max(self.right - self.left, _LEAST_M), max(self.top - self.bottom, _LEAST_M)
        return min((WIDTH - 2 * EDGE - 2 * ASIDE) / wide, (TALLEST - 2 * PAD) / tall)


def _extent(places: list[Xy]) -> _Extent:
    xs, ys = [p[0] for p in places], [p[1] for p in places]
    return _Extent(min(xs), min(ys), max(xs), max(ys))


def from_above(rig: list[Vec], people: list[Vec], direction: Vec, top: float, least_height: float, more: float) -> View:
    """The frame round a rig, with the people who stand near enough to be drawn to scale, and so much `more` room."""
    cos_, sin_ = turn_of(direction)
    extent = _extent([turned(p, cos_, sin_, side=False) for p in rig])
    least = extent.scale * _PEOPLE_SHRINK
    for person in people:
        wider = extent.with_(turned(person, cos_, sin_, side=False))
        extent = wider if wider.scale >= least else extent
    scale = extent.scale
    height = min(TALLEST, max(least_height, (extent.top - extent.bottom) * scale + 2 * PAD)) + more
    frame = Box(EDGE, top, WIDTH - EDGE, top + height)
    left_m = 0.5 * (extent.left + extent.right) - 0.5 * (frame.right - frame.left) / scale
    return View(frame, scale, cos_, sin_, False, left_m, 0.5 * (extent.top + extent.bottom) + 0.5 * height / scale)


def from_side(above: View, rig: list[Vec], top: float, least_height: float) -> View:
    """Under the view from above, to the same scale and in line with it."""
    heights = [p[2] for p in rig]
    size = (max(heights) - min(heights)) * above.scale
    height = max(least_height, size + 2 * PAD)
    frame = Box(EDGE, top, WIDTH - EDGE, top + height)
    middle = 0.5 * (max(heights) + min(heights))
    return View(frame, above.scale, above.cos_, above.sin_, True, above.left_m, middle + 0.5 * height / above.scale)
