"""The picture of a rig: one SVG with title, views, legend and a description in words.

Takes what was solved and found, and reckons no force itself.
"""

from __future__ import annotations

from math import cos, sin
from typing import Final, NamedTuple

from riglint.mechanics.vectors import Vec, along
from riglint.outcome import Inspection
from riglint.picture import legend, symbols
from riglint.picture.areas import widths
from riglint.picture.boxes import Box
from riglint.picture.describe import described, heading
from riglint.picture.labels import SIZE, Label, Words
from riglint.picture.metrics import clipped, width
from riglint.picture.panel import Drawing, Panel
from riglint.picture.scene import Scene, scene
from riglint.picture.stops import bare_station, station_at
from riglint.picture.svg import INK, PAPER, escaped, number, path, plate, tag
from riglint.picture.uses import uses
from riglint.picture.view import EDGE, WIDTH, View, from_above, from_side
from riglint.report.numbers import show
from riglint.solve.solution import Solution, Station

_HEAD: Final = 52.0
_LEVEL_M: Final = 0.01  # heights that differ by less need no side view
_LEAST_HEIGHT: Final = 230.0
_PER_LABEL: Final = 8.0
_SIDE_HEIGHT: Final = 170.0
_MORE: Final = (90.0, 220.0)  # room that is added where labels find none
_BARS: Final = (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0)
_FOOT: Final = 0.3048
_CLEARING: Final[dict[str, str | float]] = {"fill": PAPER, "fill_opacity": 0.9}


class Picture(NamedTuple):
    """The SVG, and where its labels lie, by view, for those who check that none lies on another."""

    svg: str
    labels: tuple[tuple[Box, ...], ...]
    below: tuple[str, ...]  # labels that found no room and are written under the views


def draw(
    solution: Solution, stage: int = 0, station: str = "start", inspection: Inspection | None = None,
    prefix: str = "rig-",
) -> str:  # fmt: skip
    """The SVG of a stage at a place of its travel; `prefix` keeps the ids of several pictures on a page apart.

    Raises NoSuchPlaceError for a place that the travel does not have.
    """
    return picture(solution, stage, station, inspection, prefix).svg


def picture(
    solution: Solution, stage: int = 0, station: str = "start", inspection: Inspection | None = None,
    prefix: str = "rig-",
) -> Picture:  # fmt: skip
    """The same with where its labels lie."""
    solved = solution.stages[stage]
    place = station_at(solution, solved, station) if solved.stations else bare_station(solved.stage)
    found = scene(solved, place, uses(inspection, stage), solution.rig.north_rad)
    return _Sheet(solution, found, inspection, prefix).picture()


class _Sheet:
    def __init__(self, solution: Solution, found: Scene, inspection: Inspection | None, prefix: str) -> None:
        self.rig, self.scene, self.inspection, self.prefix = solution.rig, found, inspection, prefix
        self.words = Words(found, solution.rig.reports_in)
        self.wide = widths(inspection)

    def picture(self) -> Picture:
        """The views, higher by steps until every label finds room."""
        view, panel, compass = self._above(0.0)
        for more in _MORE:
            if not panel.left_over:
                break
            view, panel, compass = self._above(more)
        views, panels, bottom = [view], [panel], view.frame.bottom
        if _heights_differ(self.scene):
            side = from_side(view, _places(self.scene), bottom + 8.0, _SIDE_HEIGHT)
            second = Drawing(self.scene, side, self.words, self.prefix)
            compass += self._caption(side, second, "from the side, same scale")
            panels.append(second.from_side())
            views.append(side)
            bottom = side.frame.bottom
        body = self._head() + "".join(p.svg for p in panels) + compass
        return self._whole(body, panels, views, bottom)

    def _above(self, more: float) -> tuple[View, Panel, str]:
        """The view from above with so much more room, and what stands in its corners."""
        people = [p.at for p in self.scene.stage.people if p.at]
        view = from_above(_places(self.scene), people, self.scene.stage.direction, _HEAD, self._least_height(), more)
        drawing = Drawing(self.scene, view, self.words, self.prefix)
        corners = self._compass(view, drawing) + self._caption(view, drawing, "from above; the load goes to the right")
        return view, drawing.from_above(self.wide), corners

    def _whole(self, body: str, panels: list[Panel], views: list[View], bottom: float) -> Picture:
        left_over = [label for panel in panels for label in panel.left_over]
        wanted = legend.entries(
            frozenset().union(*(p.shown for p in panels)), spread=any(p.spread for p in panels),
            hauling=self.scene.stage.works == "hauling", used=self.scene.uses.inspected, wide=self.wide,
            system=self.rig.reports_in, prefix=self.prefix,
        )  # fmt: skip
        wanted += [legend.Entry(None, text) for text in self._notes(left_over)]
        key, height = legend.drawn(wanted, bottom + 8.0)
        svg = self._svg(body + key, height, views)
        return Picture(svg, tuple(p.boxes for p in panels), tuple(label.text for label in left_over))

    def _notes(self, left_over: list[Label]) -> list[str]:
        """What has no place in the picture."""
        out = [f"Also: {label.text}" for label in left_over]
        out += [f"{p.who}: place not stated" for p in self.scene.stage.people if p.at is None and p.body is None]
        lost = [k.join.name for k in self.scene.knots if k.leg is None and not k.on_drum]
        out += [f"{name}: where it lies isn't known" for name in lost]
        if self.scene.solution.refused:
            out.insert(0, f"This rig can't stand as planned: {self.scene.solution.refused}")
        return out

    def _svg(self, body: str, height: float, views: list[View]) -> str:
        ids = f"{self.prefix}title {self.prefix}desc"
        head = heading(self.rig.title, self.scene, self.rig.reports_in, several=self._several())
        wide, tall = number(WIDTH), number(height)
        start = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {tall}" width="{wide}" height="{tall}"'
            f' role="img" aria-labelledby="{ids}" font-family="sans-serif">'
        )
        title = tag("title", escaped(head), id=f"{self.prefix}title")
        desc = tag("desc", escaped(described(self.scene, self.words, self.inspection)), id=f"{self.prefix}desc")
        paper = tag("rect", width=WIDTH, height=height, fill=PAPER)
        return f"{start}{title}{desc}{self._defs(views)}{paper}{body}</svg>\n"

    def _defs(self, views: list[View]) -> str:
        hatch = tag("rect", width=9, height=9, fill=PAPER) + path([(0, 0), (0, 9)], stroke="#cf8f88", stroke_width=1.6)
        out = tag("pattern", hatch, id=f"{self.prefix}hatch", width=9, height=9, patternUnits="userSpaceOnUse",
                  patternTransform="rotate(45)")  # fmt: skip
        for view in views:
            out += tag("clipPath", plate(view.frame), id=f"{self.prefix}{'side' if view.side else 'above'}")
        return tag("defs", out)

    def _several(self) -> bool:
        return len(self.rig.stages) > 1

    def _least_height(self) -> float:
        stage = self.scene.stage
        things = (self.scene.legs, stage.points, stage.redirects, self.scene.shapes, stage.people)
        return _LEAST_HEIGHT + _PER_LABEL * sum(map(len, things))

    def _head(self) -> str:
        """Title, place of the travel and verdict."""
        verdict = f"verdict: {self.inspection.verdict.value}" if self.inspection else "not checked by any rule"
        room, system = WIDTH - 2 * EDGE, self.rig.reports_in
        left = WIDTH - EDGE - width(verdict, SIZE["name"], bold=True) - 14.0
        title = clipped(heading(self.rig.title, None, "", several=False), 17.0, room, bold=True)
        under = clipped(heading("", self.scene, system, several=self._several()), SIZE["text"], left - EDGE - 10.0)
        return (
            tag("text", escaped(title) or " ", x=EDGE, y=20.0, font_size=17.0, font_weight="bold", fill=INK)
            + plate((left, 27.0, WIDTH - EDGE, 48.0), fill=PAPER, stroke=INK, stroke_width=1.6)
            + tag("text", tag("tspan", escaped(verdict), font_weight="bold"), x=0.5 * (left + WIDTH - EDGE), y=42.5,
                  font_size=SIZE["name"], fill=INK, text_anchor="middle")
            + tag("text", escaped(under), x=EDGE, y=42.5, font_size=SIZE["text"], fill=INK)
        )  # fmt: skip

    def _compass(self, view: View, drawing: Drawing) -> str:
        """North and the scale bar; labels keep off both."""
        f, north = view.frame, self.rig.north_rad
        if north is None:
            wall = Box(f.right - 122.0, f.top + 2.0, f.right - 2.0, f.top + 90.0)
            inner = _axes(view, (f.right - 36.0, f.top + 36.0))
            inner += _small("north not stated", f.right - 6.0, f.top + 84.0, "end")
        else:
            wall = Box(f.right - 78.0, f.top + 2.0, f.right - 2.0, f.top + 72.0)
            inner = symbols.north_arrow((f.right - 40.0, f.top + 30.0), view.way((cos(north), sin(north), 0.0)))
            inner += _small("north", f.right - 40.0, f.top + 68.0, "middle")
        bar, bar_wall = self._bar(view)
        drawing.walls += [wall, bar_wall]
        return plate(wall, **_CLEARING) + inner + bar

    def _bar(self, view: View) -> tuple[str, Box]:
        """The scale bar, in round metres or feet."""
        steps = [k * (2.0 * _FOOT if self.rig.reports_in == "imperial" else 1.0) for k in _BARS]
        length = max((s for s in steps if s * view.scale <= 150.0), default=steps[0])
        x, y, wide = view.frame.left + 12.0, view.frame.bottom - 14.0, length * view.scale
        text = show(length, "m", self.rig.reports_in)
        wall = Box(x - 8.0, y - 12.0, x + wide + 12.0 + width(text, SIZE["text"]), y + 12.0)
        bar = plate((x, y - 3.0, x + wide, y + 3.0), fill=PAPER, stroke=INK, stroke_width=1.2)
        bar += plate((x, y - 3.0, x + wide / 2, y + 3.0), fill=INK)
        return plate(wall, **_CLEARING) + bar + _small(text, x + wide + 6.0, y + 4.5, "start"), wall

    def _caption(self, view: View, drawing: Drawing, text: str) -> str:
        """Where it is seen from; in a side view, height 0 of the plan."""
        f = view.frame
        wall = Box(f.left + 2.0, f.top + 2.0, f.left + 14.0 + width(text, SIZE["text"]), f.top + 23.0)
        drawing.walls.append(wall)
        y = view.at((0.0, 0.0, 0.0))[1]
        level = ""
        if view.side and f.top < y < f.bottom:
            level = path([(f.left, y), (f.right, y)], stroke=INK, stroke_width=1.0, stroke_dasharray="12 4 2 4")
            level += _small("height 0", f.right - 6.0, y - 4.0, "end")
            drawing.walls.append(Box(f.right - 80.0, y - 17.0, f.right, y + 1.0))
        return level + plate(wall, **_CLEARING) + _small(text, f.left + 8.0, f.top + 17.0, "start")


def _small(text: str, x: float, y: float, anchor: str) -> str:
    return tag("text", escaped(text), x=x, y=y, font_size=13.0, fill=INK, text_anchor=anchor)


def _axes(view: View, at: tuple[float, float]) -> str:
    """The plan's own axes, since nothing else says which way is which."""
    ways = [("x", view.way((1.0, 0.0, 0.0))), ("y", view.way((0.0, 1.0, 0.0)))]
    origin = (at[0] - 8.0 * (ways[0][1][0] + ways[1][1][0]), at[1] - 8.0 * (ways[0][1][1] + ways[1][1][1]))
    out = []
    for name, way in ways:
        tip = (origin[0] + 17.0 * way[0], origin[1] + 17.0 * way[1])
        out.append(path([origin, tip], stroke=INK, stroke_width=1.4) + symbols.small_head(tip, way))
        out.append(_small(name, origin[0] + 25.0 * way[0], origin[1] + 25.0 * way[1] + 4.0, "middle"))
    return "".join(out)


def _heights_differ(found: Scene) -> bool:
    heights = [place[2] for s in _stations(found) for place in s.places.values()]
    return max(heights, default=0.0) - min(heights, default=0.0) > _LEVEL_M


def _stations(found: Scene) -> list[Station]:
    return [found.station, *found.solution.stations[:1], *found.solution.stations[-1:]]


def _places(found: Scene) -> list[Vec]:
    """What the frame must hold: the rig here, and at both ends, so that the frame stays while the load goes."""
    out = [place for s in _stations(found) for place in s.places.values()]
    out += [end for rope in found.legs for end in (rope.leg.start, rope.leg.end)]
    gone_m, way = found.station.travel_m, found.stage.direction
    for shape in found.shapes:
        shifts = (-gone_m, found.to_go_m) if shape.body.moves else (0.0,)
        out += [along(corner, way, shift) for shift in shifts for corner in shape.corners]
    return out or [(0.0, 0.0, 0.0)]
