"""Signs of the drawing, each about its place, of a size of their own (not to scale)."""

from __future__ import annotations

from math import cos, hypot, pi, sin
from typing import Final

from riglint.picture.svg import GREY, INK, PAPER, Xy, number, path, polygon, tag

SIGN: Final = 9.0  # half the size of most signs
_PLAIN: Final[dict[str, str | float]] = {"fill": PAPER, "stroke": INK, "stroke_width": 1.6}


def block(at: Xy) -> str:
    """A block: cheeks, sheave and pin."""
    x, y = at
    return (
        tag("circle", cx=x, cy=y, r=9.0, fill=PAPER, stroke=INK, stroke_width=2.2)
        + tag("circle", cx=x, cy=y, r=5.2, fill="none", stroke=INK, stroke_width=1.2)
        + tag("circle", cx=x, cy=y, r=1.8, fill=INK)
    )


def ring(at: Xy) -> str:
    """A ring, thick and open."""
    x, y = at
    return tag("circle", cx=x, cy=y, r=7.0, fill=PAPER, stroke=INK, stroke_width=5.0) + tag(
        "circle", cx=x, cy=y, r=7.0, fill="none", stroke=PAPER, stroke_width=1.0
    )


def winch(at: Xy, way: Xy) -> str:
    """A drum between its flanges, across the way that the line leaves it."""
    return (
        _quad(at, way, -15.0, -1.0, -10.0, 10.0, **_PLAIN)
        + "".join(_quad(at, way, k, k, -8.0, 8.0, stroke=INK, stroke_width=1.0) for k in (-12.0, -8.0, -4.0))
        + _quad(at, way, -16.0, 0.0, -12.0, -9.0, fill=INK)
        + _quad(at, way, -16.0, 0.0, 9.0, 12.0, fill=INK)
    )


def _quad(at: Xy, way: Xy, back: float, ahead: float, left: float, right: float, **style: str | float) -> str:
    corners = ((back, left), (ahead, left), (ahead, right), (back, right))
    return polygon([off(at, way, a, b) for a, b in corners], **style)


def off(at: Xy, way: Xy, along: float, aside: float) -> Xy:
    """So far along a direction and beside it."""
    return (at[0] + along * way[0] - aside * way[1], at[1] + along * way[1] + aside * way[0])


def point(at: Xy, kind: str | None, way: Xy) -> str:
    """A point by its kind."""
    x, y = at
    if kind == "tree":
        return polygon(_star(at, 11.0, 8.0, 9), **_PLAIN) + tag("circle", cx=x, cy=y, r=3.0, fill=INK)
    if kind == "stump":
        return tag("circle", cx=x, cy=y, r=7.0, **_PLAIN) + tag("circle", cx=x, cy=y, r=3.5, fill="none", stroke=INK)
    if kind == "rock":
        return polygon(_star(at, 10.0, 8.5, 3), fill="#d9dcda", stroke=INK, stroke_width=1.6)
    if kind in ("picket holdfast", "deadman", "ground anchor"):
        return _holdfast(at, kind, way)
    if kind == "structure":
        return tag("rect", x=x - 6, y=y - 6, width=12, height=12, **_PLAIN) + path(
            [(x - 6, y - 6), (x + 6, y + 6)], stroke=INK, stroke_width=1.2
        )
    return tag("circle", cx=x, cy=y, r=4.0, **_PLAIN)


def _holdfast(at: Xy, kind: str, way: Xy) -> str:
    if kind == "deadman":
        return _quad(at, way, -3.5, 3.5, -12.0, 12.0, fill="#d9dcda", stroke=INK, stroke_width=1.6)
    if kind == "ground anchor":
        x, y = at
        return polygon([(x - 7, y - 6), (x + 7, y - 6), (x, y + 8)], **_PLAIN)
    rows = [[off(at, way, -k, -6.0), off(at, way, -k, 6.0)] for k in (0.0, 5.0, 10.0)]
    return "".join(path(row, stroke=INK, stroke_width=2.6) for row in rows)


def _star(at: Xy, out: float, in_: float, tips: int) -> list[Xy]:
    sizes = [(in_ if k % 2 else out, k * pi / tips + 0.3) for k in range(2 * tips)]
    return [(at[0] + size * cos(turn), at[1] + size * sin(turn)) for size, turn in sizes]


def join(at: Xy, way: Xy) -> str:
    """A join: a knot with a bar on either side, across the rope."""
    bars = [[off(at, way, k, -7.0), off(at, way, k, 7.0)] for k in (-5.5, 5.5)]
    return "".join(
        path(bar, stroke=PAPER, stroke_width=5.0) + path(bar, stroke=INK, stroke_width=2.2) for bar in bars
    ) + tag("circle", cx=at[0], cy=at[1], r=4.2, fill=INK, stroke=PAPER, stroke_width=1.0)


def person(at: Xy) -> str:
    """Head and shoulders."""
    x, y = at
    shoulders = f"M{number(x - 8)} {number(y + 8)}Q{number(x)} {number(y - 7)} {number(x + 8)} {number(y + 8)}Z"
    return tag("circle", cx=x, cy=y - 5.5, r=4.4, **_PLAIN) + tag("path", d=shoulders, fill=INK)


def edge_mark(at: Xy, way: Xy) -> str:
    """Out of the picture, that way."""
    return polygon([off(at, way, 0.0, 0.0), off(at, way, -11.0, -6.5), off(at, way, -11.0, 6.5)], fill=INK)


def pull_arrow(at: Xy, way: Xy, length: float) -> str:
    """The load on a point: a broad open arrow from it, under everything else."""
    neck = length - 13.0
    shape = ((0.0, -4.5), (neck, -4.5), (neck, -10.0), (length, 0.0), (neck, 10.0), (neck, 4.5), (0.0, 4.5))
    return polygon([off(at, way, a, b) for a, b in shape], fill="#eceeed", stroke=GREY, stroke_width=1.2)


def travel_arrow(start: Xy, end: Xy) -> str:
    """The way that the load goes."""
    size = hypot(end[0] - start[0], end[1] - start[1])
    if size < 4.0:
        return ""
    way = ((end[0] - start[0]) / size, (end[1] - start[1]) / size)
    head = min(16.0, size)
    tip = [end, off(end, way, -head, -7.0), off(end, way, -0.7 * head, 0.0), off(end, way, -head, 7.0)]
    shaft = [start, off(end, way, -0.7 * head, 0.0)]
    line = path(shaft, stroke=INK, stroke_width=2.4, stroke_dasharray="10 5", fill="none")
    return line + polygon(tip, fill=INK)


def north_arrow(at: Xy, way: Xy) -> str:
    """A needle."""
    half = [off(at, way, 19.0, 0.0), off(at, way, -13.0, -7.0), off(at, way, -8.0, 0.0)]
    other = [half[0], off(at, way, -13.0, 7.0), half[2]]
    return polygon(half, fill=INK, stroke=INK) + polygon(other, fill=PAPER, stroke=INK)


def small_head(tip: Xy, way: Xy) -> str:
    """The head of an axis."""
    return polygon([tip, off(tip, way, -6.0, -3.0), off(tip, way, -6.0, 3.0)], fill=INK)
