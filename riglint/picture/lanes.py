"""Parallel legs spread apart: at true scale the legs of a tackle lie within a hand's breadth and make one thick stroke.

Legs that run beside each other closer than can be told apart are drawn side by side, in reeving order where they lie
upon each other. Their ends stay where they are.
"""

from __future__ import annotations

import itertools
from math import hypot
from typing import Final, NamedTuple

from riglint.picture.svg import Xy

Segment = tuple[Xy, Xy]

APART: Final = 21.5  # room for a label on each leg
_CLOSE: Final = 16.0
_PARALLEL: Final = 0.14  # sine of the angle between legs
_TOGETHER: Final = 0.4  # share of the shorter leg that runs beside the longer
_SAME: Final = 4.0  # legs nearer than this lie upon each other
_MOST: Final = 240.0  # how wide a spread may be


class Lanes(NamedTuple):
    """Each leg as drawn, and whether any were spread."""

    ways: tuple[tuple[Xy, ...], ...]
    spread: bool


def lanes(legs: list[Segment]) -> Lanes:
    """Draw legs apart where they would hide each other."""
    ways: list[tuple[Xy, ...]] = list(legs)
    groups = [g for g in _groups(legs) if len(g) > 1]
    for group in groups:
        for leg, offset, axis in _spread(legs, group):
            ways[leg] = _lane(legs[leg], offset, axis)
    return Lanes(tuple(ways), bool(groups))


def _groups(legs: list[Segment]) -> list[list[int]]:
    owner = list(range(len(legs)))
    for i in range(len(legs)):
        for j in range(i):
            if owner[i] != owner[j] and _beside(legs[i], legs[j]):
                old, new = owner[i], owner[j]
                owner = [new if o == old else o for o in owner]
    return [[i for i, o in enumerate(owner) if o == root] for root in dict.fromkeys(owner)]


class _Axis(NamedTuple):
    """A direction to the right, with a place on it."""

    origin: Xy
    x: float
    y: float

    def along(self, at: Xy) -> float:
        return (at[0] - self.origin[0]) * self.x + (at[1] - self.origin[1]) * self.y

    def off(self, at: Xy) -> float:
        return (at[1] - self.origin[1]) * self.x - (at[0] - self.origin[0]) * self.y

    def at(self, along: float, off: float) -> Xy:
        return (self.origin[0] + along * self.x - off * self.y, self.origin[1] + along * self.y + off * self.x)


def _axis(leg: Segment) -> _Axis | None:
    (ax, ay), (bx, by) = leg
    size = hypot(bx - ax, by - ay)
    if size < 1.0:
        return None
    sign = 1.0 if (bx - ax, by - ay) > (0.0, 0.0) else -1.0
    return _Axis(leg[0], sign * (bx - ax) / size, sign * (by - ay) / size)


def _beside(one: Segment, other: Segment) -> bool:
    axis, second = _axis(one), _axis(other)
    if axis is None or second is None or abs(axis.x * second.y - axis.y * second.x) > _PARALLEL:
        return False
    a, b = sorted(map(axis.along, one)), sorted(map(axis.along, other))
    low, high = max(a[0], b[0]), min(a[1], b[1])
    if high - low < _TOGETHER * min(a[1] - a[0], b[1] - b[0]):
        return False
    return abs(_off_at(axis, other, 0.5 * (low + high))) < _CLOSE


def _off_at(axis: _Axis, leg: Segment, along: float) -> float:
    """How far off the axis a leg lies there."""
    a, b = axis.along(leg[0]), axis.along(leg[1])
    share = (along - a) / (b - a) if b != a else 0.5
    return axis.off(leg[0]) + share * (axis.off(leg[1]) - axis.off(leg[0]))


def _spread(legs: list[Segment], group: list[int]) -> list[tuple[int, float, _Axis]]:
    longest = max(group, key=lambda i: (hypot(legs[i][1][0] - legs[i][0][0], legs[i][1][1] - legs[i][0][1]), -i))
    axis = _axis(legs[longest])
    if axis is None:
        return []
    reach = [sorted(map(axis.along, legs[i])) for i in group]
    middle = 0.5 * (max(r[0] for r in reach) + min(r[1] for r in reach))
    true = {i: _off_at(axis, legs[i], middle) for i in group}
    order = min((_order(true, sign) for sign in (1, -1)), key=_jumps)
    apart = min(APART, _MOST / len(group))
    offsets: list[float] = []
    for i in order:
        offsets.append(max(true[i], offsets[-1] + apart) if offsets else true[i])
    shift = sum(true[i] - off for i, off in zip(order, offsets, strict=True)) / len(order)
    return [(i, off + shift, axis) for i, off in zip(order, offsets, strict=True)]


def _order(true: dict[int, float], sign: int) -> list[int]:
    """From one side to the other; legs upon each other in reeving order, or against it."""
    out: list[int] = []
    heap: list[int] = []
    for i in sorted(true, key=lambda k: (true[k], k)):
        if heap and true[i] - true[heap[-1]] > _SAME:
            out += sorted(heap, key=lambda k: sign * k)
            heap = []
        heap.append(i)
    return out + sorted(heap, key=lambda k: sign * k)


def _jumps(order: list[int]) -> int:
    return sum(abs(b - a) for a, b in itertools.pairwise(order))


def _lane(leg: Segment, offset: float, axis: _Axis) -> tuple[Xy, ...]:
    start, end = axis.along(leg[0]), axis.along(leg[1])
    ease = min(44.0, 0.22 * abs(end - start)) * (1.0 if end > start else -1.0)
    return (leg[0], axis.at(start + ease, offset), axis.at(end - ease, offset), leg[1])
