"""Where labels go: near what they name, off each other always, off symbols and legs where there is room.

Each label tries its own places first, then rings around what it names, then any free place of the frame. One that
finds none is handed back, to be written below the picture: it is never laid over another. A leader line may pass
under a label where there is no better way.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, hypot, pi, sin
from typing import Final, NamedTuple

from riglint.picture.boxes import Box, crossed, meeting, passed, through
from riglint.picture.svg import Xy

GAP: Final = 2.0  # between labels
LEADER_FROM: Final = 9.0  # a label nearer than this needs no leader line
_RINGS: Final = (9.0, 18.0, 30.0, 44.0, 62.0, 84.0, 112.0, 146.0, 190.0)
_WAYS: Final = tuple((cos(k * pi / 6), sin(k * pi / 6)) for k in (1, 11, 5, 7, 2, 10, 4, 8, 3, 9, 0, 6))
_ON_SYMBOL: Final = 160.0
_ON_LEG: Final = 26.0
_LEADER_UNDER_LABEL: Final = 60.0
_LEADER_OVER_LEADER: Final = 45.0
_LEADER_OVER_LEG: Final = 5.0
_LEADER_OVER_SYMBOL: Final = 12.0
_GOOD_ENOUGH: Final = 4.0
_SCAN: Final = 14.0


class Wanted(NamedTuple):
    """A label to place: what it points at, its size, and places for its middle that it would like best, in order."""

    anchor: Xy
    width: float
    height: float
    best: tuple[Xy, ...] = ()
    beside: bool = True  # whether the best places need no leader line, however far from the anchor


class Placed(NamedTuple):
    """Where a label went; `leader` runs from what it names to it."""

    box: Box
    leader: tuple[Xy, Xy] | None


class Ground(NamedTuple):
    """What labels keep off: `walls` always, symbols and legs where they can."""

    frame: Box
    walls: tuple[Box, ...]
    symbols: tuple[Box, ...]
    legs: tuple[tuple[Xy, Xy], ...]


def place(wanted: list[Wanted], ground: Ground) -> list[Placed | None]:
    """A place for each label, in the order given; None for one that finds none."""
    work = _Work(ground)
    return [work.put(label) for label in wanted]


class _Work:
    def __init__(self, ground: Ground) -> None:
        self.ground = ground
        self.edge = ground.frame.grown(0.01)  # what rounding may put a label beyond
        self.taken: list[Box] = list(ground.walls)
        self.leaders: list[tuple[Xy, Xy]] = []

    def put(self, label: Wanted) -> Placed | None:
        found = self._best(label) or self._anywhere(label)
        if found:
            self.taken.append(found.box.grown(GAP))
            if found.leader:
                self.leaders.append(found.leader)
        return found

    def _best(self, label: Wanted) -> Placed | None:
        best: Placed | None = None
        least = 1e9
        for base, middle, beside in _places(label):
            if base >= least:
                break
            placed = self._free(label, middle, leads=not beside)
            if placed is None:
                continue
            cost = base + self._cost(placed, least - base)
            if cost < least:
                best, least = placed, cost
                if cost - base < _GOOD_ENOUGH:
                    break
        return best

    def _free(self, label: Wanted, middle: Xy, *, leads: bool) -> Placed | None:
        """The label there, or as near as the frame allows, if it meets no other."""
        frame, (x, y) = self.ground.frame, middle
        wide, high = label.width / 2, label.height / 2
        x = min(max(x, frame.left + wide), frame.right - wide)
        y = min(max(y, frame.top + high), frame.bottom - high)
        box = Box(x - wide, y - high, x + wide, y + high)
        if not box.inside(self.edge) or meeting(box, self.taken):
            return None
        return Placed(box, _leader(box, label.anchor) if leads else None)

    def _cost(self, placed: Placed, limit: float) -> float:
        box, leader = placed
        cost = _ON_SYMBOL * meeting(box, self.ground.symbols)
        if cost >= limit:
            return cost
        cost += _ON_LEG * through(box, self.ground.legs)
        if cost < limit:
            cost += _LEADER_UNDER_LABEL * through(box, self.leaders)
        return cost if leader is None or cost >= limit else cost + self._leader_cost(leader)

    def _leader_cost(self, leader: tuple[Xy, Xy]) -> float:
        cost = _LEADER_UNDER_LABEL * passed(leader, self.taken)
        cost += _LEADER_OVER_LEADER * crossed(leader, self.leaders)
        cost += _LEADER_OVER_LEG * crossed(leader, self.ground.legs)
        return cost + _LEADER_OVER_SYMBOL * passed(leader, self.ground.symbols)

    def _anywhere(self, label: Wanted) -> Placed | None:
        """The nearest free place in the frame."""
        spots = sorted(_grid(label, self.ground.frame))
        return next((p for _, spot in spots if (p := self._free(label, spot, leads=True))), None)


def _places(label: Wanted) -> Iterator[tuple[float, Xy, bool]]:
    """Cost, middle and whether no leader is needed, cheapest first."""
    for i, middle in enumerate(label.best):
        yield 0.5 * i, middle, label.beside
    x, y = label.anchor
    start = 0.5 * len(label.best) + (6.0 if label.best else 0.0)
    for ring in _RINGS:
        for k, (c, s) in enumerate(_WAYS):
            middle = (x + c * (ring + label.width / 2), y + s * (ring + label.height / 2))
            yield start + 0.35 * ring + 0.1 * k, middle, ring < LEADER_FROM + 1.0


def _grid(label: Wanted, frame: Box) -> Iterator[tuple[float, Xy]]:
    x = frame.left + label.width / 2
    while x <= frame.right - label.width / 2:
        y = frame.top + label.height / 2
        while y <= frame.bottom - label.height / 2:
            yield hypot(x - label.anchor[0], y - label.anchor[1]), (x, y)
            y += _SCAN
        x += _SCAN


def _leader(box: Box, anchor: Xy) -> tuple[Xy, Xy] | None:
    end = box.nearest(anchor)
    return (anchor, end) if hypot(end[0] - anchor[0], end[1] - anchor[1]) > LEADER_FROM else None
