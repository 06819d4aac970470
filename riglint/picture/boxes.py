"""Boxes and segments on the sheet. Plain geometry; x to the right, y down."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from riglint.picture.svg import Xy

Segment = tuple[Xy, Xy]


class Box(NamedTuple):
    """A rectangle by its corners."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def middle(self) -> Xy:
        """Its centre."""
        return (0.5 * (self.left + self.right), 0.5 * (self.top + self.bottom))

    def meets(self, other: Box) -> bool:
        """Whether the two share an area."""
        return (
            self.left < other.right and other.left < self.right
            and self.top < other.bottom and other.top < self.bottom
        )  # fmt: skip

    def inside(self, other: Box) -> bool:
        """Whether it lies within the other."""
        return (
            self.left >= other.left and self.right <= other.right
            and self.top >= other.top and self.bottom <= other.bottom
        )  # fmt: skip

    def grown(self, by: float) -> Box:
        """Wider by so much on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def nearest(self, to: Xy) -> Xy:
        """Its place nearest to a place."""
        return (min(max(to[0], self.left), self.right), min(max(to[1], self.top), self.bottom))


def around(middle: Xy, width: float, height: float) -> Box:
    """The box of that size about a place."""
    x, y = middle
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


def meeting(box: Box, others: Sequence[Box]) -> int:
    """How many of them share an area with a box; written out, since a picture asks this tens of thousands of times."""
    left, top, right, bottom = box
    count = 0
    for other_left, other_top, other_right, other_bottom in others:
        if left < other_right and other_left < right and top < other_bottom and other_top < bottom:
            count += 1
    return count


def crosses(box: Box, a: Xy, b: Xy) -> bool:
    """Whether a segment passes through a box."""
    left, top, right, bottom = box
    ax, ay = a
    bx, by = b
    aside = (ax < left and bx < left) or (ax > right and bx > right)
    if aside or (ay < top and by < top) or (ay > bottom and by > bottom):  # most of them, quickly
        return False
    low, high = 0.0, 1.0
    for start, way, least, most in ((ax, bx - ax, left, right), (ay, by - ay, top, bottom)):
        if way == 0.0:
            if not least < start < most:
                return False
            continue
        one, other = (least - start) / way, (most - start) / way
        low, high = max(low, min(one, other)), min(high, max(one, other))
    return low < high


def through(box: Box, segments: Sequence[Segment]) -> int:
    """How many segments pass through a box; most are told to be aside before anything is called."""
    left, top, right, bottom = box
    count = 0
    for a, b in segments:
        (ax, ay), (bx, by) = a, b
        if (ax < left and bx < left) or (ax > right and bx > right):
            continue
        if (ay < top and by < top) or (ay > bottom and by > bottom):
            continue
        count += crosses(box, a, b)
    return count


def passed(segment: Segment, boxes: Sequence[Box]) -> int:
    """How many boxes a segment passes through."""
    a, b = segment
    west, east, north, south = *sorted((a[0], b[0])), *sorted((a[1], b[1]))
    count = 0
    for box in boxes:
        left, top, right, bottom = box
        if not (east < left or west > right or south < top or north > bottom):
            count += crosses(box, a, b)
    return count


def crossed(segment: Segment, others: Sequence[Segment]) -> int:
    """How many segments another one crosses."""
    a, b = segment
    west, east, north, south = *sorted((a[0], b[0])), *sorted((a[1], b[1]))
    count = 0
    for c, d in others:
        (cx, cy), (dx, dy) = c, d
        if (cx < west and dx < west) or (cx > east and dx > east):
            continue
        if (cy < north and dy < north) or (cy > south and dy > south):
            continue
        count += cross(a, b, c, d)
    return count


def cross(a: Xy, b: Xy, c: Xy, d: Xy) -> bool:
    """Whether two segments cross."""
    return _side(a, b, c) * _side(a, b, d) < 0.0 and _side(c, d, a) * _side(c, d, b) < 0.0


def _side(a: Xy, b: Xy, c: Xy) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
