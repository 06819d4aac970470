"""Strokes and letters: how use reads without colour, and how labels are written."""

from __future__ import annotations

from typing import Final

from riglint.outcome import Grade
from riglint.picture.boxes import Box
from riglint.picture.labels import EDGE, ROW, SIZE, SPACE, Row, Run
from riglint.picture.svg import INK, PAPER, Xy, escaped, path, plate, tag

# Near values of the safety colours of ANSI Z535 and ISO 3864: ground, letters.
SIGNAL: Final[dict[Grade, tuple[str, str]]] = {
    Grade.DANGER: ("#ba2120", "#ffffff"),
    Grade.WARNING: ("#e37700", "#000000"),
    Grade.CAUTION: ("#eac600", "#000000"),
    Grade.NOTICE: ("#005898", "#ffffff"),
}
BANDS: Final = ((0.5, "light"), (0.8, "middling"), (1.0, "heavy"))
_WIDTH: Final = {"light": 1.8, "middling": 3.2, "heavy": 5.2, "over": 8.0, "untold": 2.4, "plain": 2.4, "slack": 1.6}


def band(use: float | None, *, untold: bool) -> str:
    """Which stroke a use is drawn with: it grows with use, and is broken where it can't be told."""
    if use is not None and use > 1.0:
        return "over"
    if untold:
        return "untold"
    if use is None:
        return "plain"
    return next((name for most, name in BANDS if use < most), "heavy")


def leg_ink(way: tuple[Xy, ...], use: float | None, *, untold: bool, slack: bool) -> str:
    """A leg: a stroke by its band, on a white ground that parts it from what it crosses."""
    return stroke(list(way), "slack" if slack else band(use, untold=untold))


def stroke(way: list[Xy], kind: str) -> str:
    """A stroke of the rope's kind of line."""
    wide = _WIDTH[kind]
    dash = {"untold": "11 6", "slack": "2 4"}.get(kind, "none")
    line: dict[str, str | float] = {"fill": "none", "stroke_linejoin": "round"}
    out = path(way, stroke=PAPER, stroke_width=wide + 3.0, **line) + path(
        way, stroke="#9b2423" if kind == "over" else INK, stroke_width=wide, stroke_dasharray=dash, **line
    )
    if kind == "over":
        out += path(way, stroke=PAPER, stroke_width=2.6, stroke_dasharray="9 5", **line)
    return out


def written(rows: tuple[Row, ...], box: Box) -> str:
    """A label in its box."""
    ground = plate(box, rx=3.0, fill=PAPER, fill_opacity=0.9)
    return ground + "".join(_row(row, box.left + EDGE, box.top + 1.0 + ROW * k) for k, row in enumerate(rows))


def _row(row: Row, x: float, top: float) -> str:
    """Names and words that follow each other are one text, so that their gaps are the font's own."""
    out: list[str] = []
    words: list[str] = []
    begin = x
    for run in row:
        if run.style in ("name", "text"):
            begin = begin if words else x
            words.append(_span(run))
        else:
            out += [_text(words, begin, top), _plate(run, x, top)]
            words = []
        x += run.width + SPACE
    return "".join([*out, _text(words, begin, top)])


def _span(run: Run) -> str:
    weight = {"font_weight": "bold"} if run.style == "name" else {}
    return tag("tspan", escaped(run.text), font_size=SIZE[run.style], **weight) if run.text else ""


def _text(spans: list[str], x: float, top: float) -> str:
    return tag("text", " ".join(spans), x=x, y=top + 13.0, fill=INK) if any(spans) else ""


def _plate(run: Run, x: float, top: float) -> str:
    """A leg's number, or a signal word in its colours."""
    right, bottom = x + run.width, top + ROW
    if run.grade:
        ground, ink = SIGNAL[run.grade]
        under = plate((x, top + 1.0, right, bottom - 1.0), fill=ground, stroke=INK, stroke_width=0.8)
    else:
        ink = PAPER
        under = plate((x, top, right, bottom), rx=ROW / 2, fill=INK)
    size = SIZE[run.style]
    return under + tag(
        "text", escaped(run.text), x=x + run.width / 2, y=top + 13.0, font_size=size, font_weight="bold", fill=ink,
        text_anchor="middle",
    )  # fmt: skip
