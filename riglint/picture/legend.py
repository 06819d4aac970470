"""What the lines and signs mean: only those that the picture has, in rows under it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, NamedTuple

from riglint.picture import symbols
from riglint.picture.areas import Widths
from riglint.picture.boxes import around
from riglint.picture.ink import stroke
from riglint.picture.metrics import clipped, width
from riglint.picture.svg import BODY, DANGER_EDGE, GREY, INK, PAPER, STRAP, Xy, escaped, path, plate, tag
from riglint.picture.view import EDGE, WIDTH
from riglint.report.numbers import show

_ROW: Final = 23.0
_SIZE: Final = 12.0
_SIGN: Final = 40.0  # room of a sign
_AFTER: Final = 14.0

Sign = Callable[[Xy], str]


class Entry(NamedTuple):
    """A sign and its meaning."""

    sign: Sign | None
    text: str


def _line(kind: str) -> Sign:
    return lambda at: stroke([(at[0] - 17, at[1]), (at[0] + 17, at[1])], kind)


def _box(dash: str, ground: str = BODY, ink: str = INK) -> Sign:
    return lambda at: plate(around(at, 30.0, 16.0), fill=ground, stroke=ink, stroke_width=1.6, stroke_dasharray=dash)


def _strap(at: Xy) -> str:
    way = [(at[0] - 15, at[1]), (at[0] + 15, at[1])]
    return path(way, stroke=INK, stroke_width=7.0) + path(way, stroke=STRAP, stroke_width=4.0)


def _pull(at: Xy) -> str:
    return symbols.pull_arrow((at[0] - 17, at[1]), (1.0, 0.0), 34.0)


def entries(
    shown: frozenset[str], *, spread: bool, hauling: bool, used: bool, wide: Widths, system: str, prefix: str
) -> list[Entry]:
    """Those that apply."""
    beside = show(wide.clearance_m, "m", system)
    area = f"nobody here now: {beside} beside a leg, one length past its ends, inside a turn, where gear would fly"
    signs: tuple[tuple[str, Sign, str], ...] = (
        ("light", _line("light"), "rope, under 50 % of what it may carry"),
        ("middling", _line("middling"), "rope, 50 to 80 %"),
        ("heavy", _line("heavy"), "rope, 80 to 100 %"),
        ("over", _line("over"), "rope, over what it may carry"),
        ("untold", _line("untold"), "rope, use can't be told"),
        ("plain", _line("plain"), "rope"),
        ("slack", _line("slack"), "slack"),
        ("block", symbols.block, "block"),
        ("ring", symbols.ring, "ring"),
        ("join", lambda at: symbols.join(at, (1.0, 0.0)), "join"),
        ("strap", _strap, "shackles, straps"),
        ("pull", _pull, "pull on a point, longer for more"),
        ("size", _box("9 3"), "size as stated, place guessed"),
        ("sketch", _box("4 4"), "sketch: size not stated, not to scale"),
        ("ghost", _box("2 5", PAPER, GREY), "where the load ends"),
        ("area", _box("7 4", f"url(#{prefix}hatch)", DANGER_EDGE), area),
        ("far", lambda at: symbols.edge_mark((at[0] + 5, at[1]), (1.0, 0.0)), "out of the picture, that way"),
    )
    out = [Entry(sign, text) for kind, sign, text in signs if kind in shown]
    figures = "24 / 46: as expected / at stall" if hauling else "While paying out, or holding"
    out.append(Entry(None, f"Forces here, at the worst losses. {figures}."))
    if used:
        out.append(Entry(None, "%: the most of what it may carry, over the whole travel; for a leg, here."))
    if spread:
        out.append(Entry(None, "Legs too close to tell apart are drawn side by side, not to scale."))
    return out


def drawn(wanted: list[Entry], top: float) -> tuple[str, float]:
    """The rows from that height down, and where they end."""
    x, y, out = EDGE, top + _ROW / 2, []
    for entry in wanted:
        room = WIDTH - 2 * EDGE - (_SIGN if entry.sign else 0.0)
        text = clipped(entry.text, _SIZE, room)
        size = width(text, _SIZE) + (_SIGN if entry.sign else 0.0)
        if x > EDGE and x + size > WIDTH - EDGE:
            x, y = EDGE, y + _ROW
        if entry.sign:
            out.append(entry.sign((x + _SIGN / 2 - 3, y)))
        out.append(
            tag("text", escaped(text), x=x + (_SIGN if entry.sign else 0.0), y=y + 4.5, font_size=_SIZE, fill=INK)
        )
        x += size + _AFTER
    return "".join(out), y + _ROW / 2 + 4
