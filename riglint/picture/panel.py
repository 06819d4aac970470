"""One frame of the picture: the rig from above or from the side, with its labels."""

from __future__ import annotations

import itertools
from math import hypot
from typing import Final, NamedTuple

from riglint.mechanics.rounding import first_greatest
from riglint.mechanics.vectors import Vec, along, sub
from riglint.picture import symbols
from riglint.picture.areas import Widths, outlines
from riglint.picture.boxes import Box, around
from riglint.picture.ink import band, leg_ink, written
from riglint.picture.labels import Label, Words, pull_share
from riglint.picture.lanes import Lanes, lanes
from riglint.picture.placer import Ground, Placed, place
from riglint.picture.scene import RopeLeg, Scene, Shape
from riglint.picture.svg import BODY, DANGER_EDGE, GREY, INK, PAPER, STRAP, Xy, path, plate, polygon, tag
from riglint.picture.uses import Key
from riglint.picture.view import View
from riglint.rig.model import Person
from riglint.solve.danger_areas import areas_at

_ON_LEG: Final = (0.5, 0.36, 0.64, 0.24, 0.76, 0.43, 0.57, 0.3, 0.7, 0.16, 0.84)
_ARROW: Final = (26.0, 34.0)  # least length of a pull's arrow, and what the greatest adds
_BESIDE: Final = 17.0  # of the travel's arrow from the load's outline


class Panel(NamedTuple):
    """A frame drawn, what found no room in it, and what its legend must explain."""

    svg: str
    left_over: tuple[Label, ...]
    boxes: tuple[Box, ...]  # of its labels
    spread: bool
    shown: frozenset[str]  # kinds of signs in it


class Drawing:
    """Gathers ink, what labels must keep off, and labels, for one view."""

    def __init__(self, scene: Scene, view: View, words: Words, prefix: str) -> None:
        self.scene, self.view, self.words, self.prefix = scene, view, words, prefix
        self.ink: list[str] = []
        self.signs: list[Box] = []
        self.walls: list[Box] = []
        self.labels: list[Label] = []
        self.shown: set[str] = set()
        self.lanes: Lanes = lanes([(view.at(r.leg.start), view.at(r.leg.end)) for r in scene.legs])

    def from_above(self, wide: Widths) -> Panel:
        """Everything."""
        self._areas(wide)
        self._bodies()
        self._travel()
        self._pulls()
        self._straps()
        self._legs()
        self._knots()
        self._nodes(heights=False)
        self._people()
        return self._done()

    def from_side(self) -> Panel:
        """Lines, gear and heights."""
        self._bodies_from_side()
        self._travel_from_side()
        self._straps()
        self._legs(brief=True)
        self._nodes(heights=True)
        return self._done()

    # Under the rig

    def _areas(self, wide: Widths) -> None:
        if not self.scene.solution.stations or not self.scene.legs:
            return
        d = outlines(areas_at(self.scene.solution, self.scene.station), self.view, wide)
        self.ink.append(tag("path", d=d, fill="none", stroke=DANGER_EDGE, stroke_width=2.4, stroke_dasharray="7 4"))
        self.ink.append(tag("path", d=d, fill=f"url(#{self.prefix}hatch)", stroke="none"))
        self.shown.add("area")

    def _bodies(self) -> None:
        for shape in self.scene.shapes:
            corners = [self.view.at(c) for c in shape.corners]
            self.ink.append(_outline(corners, shape))
            self.shown.add(shape.known)
            middle = _mean(corners)
            width, height = _size(corners)
            row = self.words.body(shape.body)
            best = (middle, (middle[0], middle[1] + height / 4), (middle[0], middle[1] - height / 4))
            self.labels.append(Label(row, middle, best if min(width, height) > 30.0 else (), 6.0))
        ghost = [self.view.at(c) for c in self.scene.ghost]
        if ghost:
            self.ink.append(polygon(ghost, fill="none", stroke=GREY, stroke_width=1.4, stroke_dasharray="2 5"))
            self.shown.add("ghost")

    def _bodies_from_side(self) -> None:
        for shape in self.scene.shapes:
            if shape.top_m is None:
                continue
            low = min(c[2] for c in shape.corners)
            xs = [self.view.at(c)[0] for c in shape.corners]
            base, top = self.view.at((0.0, 0.0, low))[1], self.view.at((0.0, 0.0, low + shape.top_m))[1]
            corners = [(min(xs), base), (max(xs), base), (max(xs), top), (min(xs), top)]
            self.ink.append(_outline(corners, shape))
            self.labels.append(Label(((self.words.body(shape.body)[0])[:1],), _mean(corners), (_mean(corners),), 6.0))

    def _travel(self) -> None:
        load = next((s for s in self.scene.shapes if s.body.moves), None)
        if load is None or self.scene.to_go_m <= 0.0:
            return
        corners = [self.view.at(c) for c in load.corners]
        below = max(y for _, y in corners) + _BESIDE
        x = max(x for x, _ in corners)
        way = self.view.way(self.scene.stage.direction)
        here, there = _mean(corners), _mean([self.view.at(c) for c in self.scene.ghost])
        size = hypot(there[0] - here[0], there[1] - here[1])
        start, end = (x, below), (x + way[0] * size, below + way[1] * size)
        self.ink.append(symbols.travel_arrow(start, end))
        self.signs.append(Box(min(start[0], end[0]), below - 6, max(start[0], end[0]), below + 6))
        middle = (0.5 * (start[0] + end[0]), 0.5 * (start[1] + end[1]))
        self.labels.append(
            Label(self.words.travel(), middle, ((middle[0], below + 24.0), (middle[0], below + 38.0)), 4.0)
        )

    def _travel_from_side(self) -> None:
        """From the load's foremost point, so that the climb shows."""
        stage, station = self.scene.stage, self.scene.station
        own = [station.places.get(p.name, p.at) for p in stage.points.values() if p.body.moves]
        if own and self.scene.to_go_m > 0.0:
            start = max(own, key=lambda at: self.view.at(at)[0])
            self.ink.append(
                symbols.travel_arrow(
                    self.view.at(start), self.view.at(along(start, stage.direction, self.scene.to_go_m))
                )
            )

    def _pulls(self) -> None:
        shares = pull_share(self.scene.pulls)
        for pull in self.scene.pulls:
            way = self.view.way(pull.way)
            if way != (0.0, 0.0):
                length = _ARROW[0] + _ARROW[1] * shares[pull.point.name]
                self.ink.append(symbols.pull_arrow(self.view.at(pull.at), way, length))
                self.shown.add("pull")

    # The rig

    def _straps(self) -> None:
        for strap in self.scene.straps:
            way = [self.view.at(strap.start), self.view.at(strap.end)]
            self.ink.append(path(way, stroke=INK, stroke_width=7.0, fill="none"))
            self.ink.append(path(way, stroke=STRAP, stroke_width=4.0, fill="none"))
            self.shown.add("strap")

    def _legs(self, *, brief: bool = False) -> None:
        failed = _failed_ropes(self.scene)
        for i, (rope, way) in enumerate(zip(self.scene.legs, self.lanes.ways, strict=True)):
            self.ink.append(leg_ink(way, rope.use, untold=rope.untold, slack=_slack(rope)))
            self.shown.add("slack" if _slack(rope) else band(rope.use, untold=rope.untold))
            rows = self.words.leg(rope, failed.get(i, ()))
            if brief:
                rows = ((rows[0][0],),)  # the number alone
            best = tuple(_on(way, share) for share in _ON_LEG)
            self.labels.insert(i, Label(rows, best[0], best))

    def _knots(self) -> None:
        for knot in self.scene.knots:
            if knot.leg is None:
                continue
            way = self.lanes.ways[knot.leg]
            at, ahead = _on(way, knot.share), _on(way, min(1.0, knot.share + 0.01))
            behind = _on(way, max(0.0, knot.share - 0.01))
            size = hypot(ahead[0] - behind[0], ahead[1] - behind[1]) or 1.0
            self.ink.append(symbols.join(at, ((ahead[0] - behind[0]) / size, (ahead[1] - behind[1]) / size)))
            self._sign(Label(self.words.join(knot), at, (), 8.0), 8.0)
            self.shown.add("join")

    def _nodes(self, *, heights: bool) -> None:
        station, stage = self.scene.station, self.scene.stage
        for name, point in stage.points.items():
            if point is not stage.winch.mount or not station.legs:
                self._point(name, heights=heights)
        for name, redirect in stage.redirects.items():
            if name in station.places:
                at = self.view.at(station.places[name])
                self.ink.append(symbols.block(at) if redirect.facts.kind == "block" else symbols.ring(at))
                rows = self.words.high(name, station.places[name][2]) if heights else self.words.redirect(name)
                self._sign(Label(rows, at, (), 10.0), 10.0)
                self.shown.add(redirect.facts.kind)
        if station.legs:
            self._winch(heights=heights)

    def _point(self, name: str, *, heights: bool) -> None:
        point = self.scene.stage.points[name]
        place = self.scene.station.places.get(name, point.at)
        pull = next((p.way for p in self.scene.pulls if p.point.name == name), (1.0, 0.0, 0.0))
        self.ink.append(symbols.point(self.view.at(place), point.facts.kind, self.view.way(pull)))
        rows = self.words.high(name, place[2]) if heights else self.words.point(name)
        self._sign(Label(rows, self.view.at(place), (), 7.0), 8.0)

    def _winch(self, *, heights: bool) -> None:
        """The drum, at its fairlead, and the point it is mounted on."""
        leg = self.scene.legs[0].leg
        at = self.view.at(leg.start)
        way = self.view.way(sub(leg.end, leg.start))
        self.ink.append(symbols.winch(at, way if way != (0.0, 0.0) else (1.0, 0.0)))
        if heights:
            self._sign(Label(self.words.high("winch", leg.start[2]), at, (), 10.0), 13.0)
            return
        self._sign(Label(self.words.winch(), at, (), 10.0), 14.0)

    # People and labels

    def _people(self) -> None:
        load = next((s for s in self.scene.shapes if s.body.moves), None)
        for person in self.scene.stage.people:
            if person.at is None:
                continue
            at = self.view.at(person.at)
            if around(at, 20.0, 24.0).inside(self.view.frame):
                self.ink.append(symbols.person(at))
                self._sign(Label(self.words.person(person), at, (), 10.0), 10.0)
            else:
                self._far(person, person.at, load)
            self.shown.add("person")

    def _far(self, person: Person, where: Vec, load: Shape | None) -> None:
        """Somebody beyond the frame: which way, and how far off the load."""
        frame = self.view.frame
        middle, at = frame.middle, self.view.at(where)
        edge = _leave(frame.grown(-3.0), middle, at)
        size = hypot(at[0] - middle[0], at[1] - middle[1])
        way = ((at[0] - middle[0]) / size, (at[1] - middle[1]) / size)
        back = symbols.off(edge, way, -24.0, 0.0)
        self.ink.append(symbols.edge_mark(edge, way) + symbols.person(back))
        origin = _middle(load) if load else self.scene.station.places["winch"]
        off_m = hypot(where[0] - origin[0], where[1] - origin[1])
        self.signs.append(around(edge, 22.0, 22.0))
        self._sign(Label(self.words.person(person, off_m), back, (), 10.0), 10.0)
        self.shown.add("far")

    def _sign(self, label: Label, half: float) -> None:
        self.signs.append(around(label.anchor, 2 * half, 2 * half))
        self.labels.append(label)

    def _done(self) -> Panel:
        legs = tuple((a, b) for way in self.lanes.ways for a, b in itertools.pairwise(way))
        frame = self.view.frame
        ground = Ground(frame.grown(-4.0), tuple(self.walls), tuple(self.signs), legs)
        legs_first = self.labels[: len(self.scene.legs)]
        labels = legs_first + sorted(
            self.labels[len(legs_first) :], key=lambda label: (not label.best, -len(label.rows))
        )
        placed = place([label.wanted for label in labels], ground)
        texts, leaders, left_over, boxes = [], [], [], []
        for label, spot in zip(labels, placed, strict=True):
            if spot is None:
                left_over.append(label)
                continue
            leaders.append(_leader(spot, label.clear))
            texts.append(written(label.rows, spot.box))
            boxes.append(spot.box)
        clip = f"url(#{self.prefix}{'side' if self.view.side else 'above'})"
        rig = tag("g", "".join(self.ink), clip_path=clip)
        edge = plate(frame, fill="none", stroke=INK, stroke_width=1.6)
        return Panel(rig + "".join(leaders) + "".join(texts) + edge, tuple(left_over), tuple(boxes), self.lanes.spread,
                     frozenset(self.shown))  # fmt: skip


def _failed_ropes(scene: Scene) -> dict[int, list[Key]]:
    """For each rope with a failure, the leg to say so on: the one that uses it most."""
    out: dict[int, list[Key]] = {}
    for key in scene.uses.failed:
        if key[0] in ("piece", "line"):
            line = next((n.name for n in scene.stage.lines if key[1] in (n.name, *_piece_names(scene, n.name))), "")
            own = [i for i, rope in enumerate(scene.legs) if rope.leg.line == line]
            if own:
                out.setdefault(first_greatest(own, lambda i: scene.legs[i].use or 0.0), []).append(key)
    return out


def _piece_names(scene: Scene, line: str) -> list[str]:
    names = [piece.name for piece in scene.solution.line(line).pieces]
    return [f"{line}/{name}" for name in names] if scene.stage.others else names


def _slack(rope: RopeLeg) -> bool:
    return bool(rope.leg.tension) and max(rope.leg.tension.values()) == 0.0


def _outline(corners: list[Xy], shape: Shape) -> str:
    dash = {"outline": "none", "size": "9 3", "sketch": "4 4"}[shape.known]
    return polygon(corners, fill=BODY, fill_opacity=0.85, stroke=INK, stroke_width=1.8, stroke_dasharray=dash)


def _mean(corners: list[Xy]) -> Xy:
    return (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))


def _size(corners: list[Xy]) -> Xy:
    return (
        max(x for x, _ in corners) - min(x for x, _ in corners),
        max(y for _, y in corners) - min(y for _, y in corners),
    )


def _middle(shape: Shape) -> Vec:
    return along(shape.corners[0], sub(shape.corners[2], shape.corners[0]), 0.5)


def _on(way: tuple[Xy, ...], share: float) -> Xy:
    """A place so far along a leg as drawn, by its stretch along the leg's own way."""
    a, b = way[0], way[-1]
    size = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    marks = [((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / size**2 for x, y in way]
    marks[0], marks[-1] = 0.0, 1.0
    for (p, q), (low, high) in zip(itertools.pairwise(way), itertools.pairwise(marks), strict=True):
        if share <= high and high > low:
            part = max(0.0, (share - low) / (high - low))
            return (p[0] + part * (q[0] - p[0]), p[1] + part * (q[1] - p[1]))
    return way[-1]


def _leave(frame: Box, inside: Xy, outside: Xy) -> Xy:
    """Where a straight way leaves a frame."""
    x, y = outside[0] - inside[0], outside[1] - inside[1]
    shares = [1.0]
    if x:
        shares.append(((frame.right if x > 0 else frame.left) - inside[0]) / x)
    if y:
        shares.append(((frame.bottom if y > 0 else frame.top) - inside[1]) / y)
    share = min(shares)
    return (inside[0] + share * x, inside[1] + share * y)


def _leader(spot: Placed, clear: float) -> str:
    if spot.leader is None:
        return ""
    start, end = spot.leader
    size = hypot(end[0] - start[0], end[1] - start[1])
    if size <= clear:
        return ""
    part = clear / size
    begin = (start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1]))
    return path([begin, end], stroke=PAPER, stroke_width=3.4, fill="none") + path(
        [begin, end], stroke=INK, stroke_width=1.0, fill="none"
    )
