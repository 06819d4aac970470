"""What the labels say: names, loads as expected and at stall, use of what a thing may carry, signal words."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite
from typing import Final, Literal, NamedTuple

from riglint.outcome import Grade
from riglint.picture.metrics import clipped, width
from riglint.picture.placer import Wanted
from riglint.picture.scene import Knot, Pull, RopeLeg, Scene
from riglint.picture.svg import Xy, plain
from riglint.picture.uses import Key, use_words
from riglint.report.numbers import show, travel
from riglint.rig.model import Body, Chain, Person
from riglint.solve.solution import Case, Component, Kind

Style = Literal["name", "text", "number", "word"]
SIZE: Final[dict[Style, float]] = {"name": 14.0, "text": 13.0, "number": 12.5, "word": 11.5}
ROW: Final = 17.0
EDGE: Final = 3.0
_LONGEST: Final = 210.0  # a name wider than this is cut; the description has it whole
SPACE: Final = 5.0
STEADY: Final[tuple[Case, ...]] = ("expected", "holding")


class Run(NamedTuple):
    """Text of one style; a signal word has its grade."""

    text: str
    style: Style = "text"
    grade: Grade | None = None

    @property
    def width(self) -> float:
        """With what is drawn round it."""
        wide = width(self.text, SIZE[self.style], bold=self.style != "text")
        return max(19.0, wide + 8.0) if self.style == "number" else wide + (8.0 if self.style == "word" else 0.0)


Row = tuple[Run, ...]


class Label(NamedTuple):
    """A label and what it points at; `clear` is how far from there a leader line begins."""

    rows: tuple[Row, ...]
    anchor: Xy
    best: tuple[Xy, ...] = ()
    clear: float = 0.0

    @property
    def wanted(self) -> Wanted:
        """What it asks of the placer."""
        wide = max(row_width(row) for row in self.rows)
        return Wanted(self.anchor, wide + 2 * EDGE, ROW * len(self.rows) + 2.0, self.best)

    @property
    def text(self) -> str:
        """All of it on one line."""
        return ", ".join(" ".join(run.text for run in row) for row in self.rows)


def row_width(row: Row) -> float:
    """Of its runs and the spaces between them."""
    return sum(run.width for run in row) + SPACE * (len(row) - 1)


def name_run(text: str) -> Run:
    """A name, cut where it is too long for a label."""
    return Run(clipped(plain(text), SIZE["name"], _LONGEST, bold=True), "name")


def text_run(text: str) -> Run:
    """Plain words, cut where they are too long."""
    return Run(clipped(plain(text), SIZE["text"], 1.2 * _LONGEST))


class Words:
    """The words of one scene in its units."""

    def __init__(self, scene: Scene, system: str) -> None:
        self.scene = scene
        self.system = system

    # Loads

    def loads(self, expected: float | None, stall: float | None) -> str:
        """`24.3 / 46.5 kN`: as expected, and at stall; `?` for what isn't known."""
        texts = [self.force(n) for n in (expected, stall)]
        if self.scene.stage.works != "hauling":
            return texts[0]
        one, other = (text.rpartition(" ") for text in texts)
        return f"{one[0] if one[2] == other[2] and one[0] else texts[0]} / {texts[1]}"

    def force(self, load_n: float | None) -> str:
        """A force, or `?`."""
        return "?" if load_n is None or not isfinite(load_n) else show(load_n, "N", self.system)

    def carried(self, kind: Kind, name: str) -> str:
        """The loads of a component here."""
        component = self.scene.solution.component(kind, name)
        return self.loads(*self._pair(component)) if component else ""

    def _pair(self, component: Component) -> tuple[float | None, float | None]:
        station = self.scene.station
        steady = [n for case in STEADY if (n := station.load(component, case)) is not None]
        return (max(steady) if steady else None), station.load(component, "stall")

    # Rows

    def row(self, loads: str, *keys: Key) -> Iterable[Row]:
        """Loads, and the greatest use of the things named."""
        used = self.used(keys)
        text = " · ".join(part for part in (loads, used) if part)
        return ((text_run(text),),) if text else ()

    def used(self, keys: Iterable[Key]) -> str:
        """The greatest use among them, and whether it can't be told for some."""
        keys = tuple(keys)
        known = [u for key in keys if (u := self.scene.uses.use.get(key)) is not None]
        return use_words(max(known) if known else None, untold=any(key in self.scene.uses.untold for key in keys))

    def gear(self, chain: Chain | None) -> Iterable[Row]:
        """Those connectors of a chain that are used beyond what they may carry."""
        for connector in chain.connectors if chain else ():
            use = self.scene.uses.use.get(("connector", connector.name), 0.0)
            if use > 1.0:
                yield (text_run(f"{connector.name} {use_words(use, untold=False)}"),)

    def word(self, *keys: Key) -> Iterable[Row]:
        """The signal word of the gravest failure among them."""
        grades = [grade for key in keys if (grade := self.scene.uses.failed.get(key))]
        if grades:
            worst = min(grades, key=lambda grade: grade.rank)
            yield (Run(worst.value, "word", worst),)

    # Labels' rows

    def leg(self, leg: RopeLeg, failed: Iterable[Key]) -> tuple[Row, ...]:
        """Number, tensions and use on one row."""
        tension = leg.leg.tension
        steady = [t for case in STEADY if (t := tension.get(case)) is not None]
        text = self.loads(max(steady) if steady else None, tension.get("stall"))
        used = use_words(leg.use, untold=leg.untold)
        runs = [Run(leg.number, "number"), text_run(" · ".join(p for p in (text, used) if p))]
        words = [run for row in self.word(*failed) for run in row]
        return ((runs[0], *words, *runs[1:]),)

    def redirect(self, name: str) -> tuple[Row, ...]:
        """Its seats in use, its resultant, what hangs it."""
        redirect = self.scene.stage.redirects[name]
        turns = [t.turn for t in self.scene.station.turns if t.turn.redirect == name]
        seats = ", ".join(dict.fromkeys(turn.seat_name for turn in turns))
        times = f" \u00d7{len(turns)}" if len(turns) > 1 else ""
        keys: list[Key] = [("redirect", name), *(("seat", f"{name}.{s}") for s in _SEATS)]
        gear = _gear_keys(redirect.hanger)
        rows = ((name_run(name), text_run(f"{seats}{times}")),) if seats else ((name_run(name),),)
        return (
            *rows, *self.row(self.carried("redirect", name), *keys), *self.gear(redirect.hanger),
            *self.word(*keys, *gear),
        )  # fmt: skip

    def point(self, name: str) -> tuple[Row, ...]:
        """Its kind and load, and the gear of a dead end on it."""
        point = self.scene.stage.points[name]
        ends = [c for line in self.scene.stage.lines for c in (line.first, line.dead_end) if c and _holds(c, name)]
        arms: list[Key] = [key for key in (*self.scene.uses.use, *self.scene.uses.failed, *self.scene.uses.untold)
                           if key[0] == "bridle leg" and key[1].endswith(f" to {name}")]  # fmt: skip
        own: Key = ("point", name)
        head = (name_run(name), text_run(point.facts.kind)) if point.facts.kind else (name_run(name),)
        gear = [row for chain in ends for row in self.gear(chain)]
        keys = [own, *arms, *(key for chain in ends for key in _gear_keys(chain))]
        return (head, *self.row(self.carried("point", name), own, *arms), *gear, *self.word(*keys))

    def winch(self) -> tuple[Row, ...]:
        """Its drum, the point that it is mounted on and what that must hold."""
        drum, mount = self.scene.station.drum, self.scene.stage.winch.mount.name
        on = f"layer {drum.layer[1]}, {show(max(0.0, drum.wraps.low), 'wraps', self.system)} on" if drum else ""
        head = (name_run("winch"), text_run(on)) if on else (name_run("winch"),)
        own: Key = ("point", mount)
        joins = [k.join.name for k in self.scene.knots if k.on_drum]
        rows = [(text_run(f"{name} on the drum"),) for name in joins]
        keys: tuple[Key, ...] = (own, ("winch", "winch"), ("drum", "drum"), ("fairlead", "fairlead"))
        loads = self.row(self.carried("point", mount), own)
        return (head, (text_run("on"), name_run(mount)), *loads, *rows, *self.word(*keys))

    def body(self, body: Body) -> tuple[Row, ...]:
        """Its weight and who sits in it."""
        weight = body.facts.weight
        head = [name_run(body.name)]
        if weight:
            texts = [show(n, "N weight", self.system) for n in (weight.low, weight.high)]
            head.append(text_run(texts[0] if texts[0] == texts[1] else " to ".join(texts)))
        inside = [p for p in self.scene.stage.people if p.body is body]
        rows = [(text_run(f"{p.who} in {'the cab' if p.cab else 'it'}"),) for p in inside]
        kind = "load" if body.moves else "body"
        people: list[Key] = [("person", p.pointer) for p in inside]
        return (tuple(head), *rows, *self.word((kind, body.name), ("body", body.name), *people))

    def join(self, knot: Knot) -> tuple[Row, ...]:
        """Its name and use."""
        used = self.used([knot.key])
        return ((name_run(knot.join.name), *((text_run(used),) if used else ())), *self.word(knot.key))

    def person(self, person: Person, off_m: float | None = None) -> tuple[Row, ...]:
        """Who, and how far from the load if out of the picture."""
        far = () if off_m is None else ((text_run(f"{show(off_m, 'm', self.system)} from the load"),),)
        return ((name_run(person.who),), *far, *self.word(("person", person.pointer)))

    def travel(self) -> tuple[Row, ...]:
        """How far the load goes, and how far it went."""
        here_m, whole_m = self.scene.station.travel_m, self.scene.stage.travel.high
        rows = [(text_run(f"load goes {travel(whole_m, self.system)}"),)]
        if here_m > 0.0:
            rows.append((text_run(f"here {travel(here_m, self.system)} gone"),))
        return tuple(rows)

    def high(self, name: str, height_m: float) -> tuple[Row, ...]:
        """For a view from the side."""
        return ((name_run(name), text_run(f"{travel(height_m, self.system)} up")),)


_SEATS: Final = ("sheave", "groove", "bore", "head")


def _gear_keys(chain: Chain | None) -> list[Key]:
    return [("connector", c.name) for c in chain.connectors] if chain else []


def _holds(chain: Chain, point: str) -> bool:
    return (chain.point is not None and chain.point.name == point) or any(a.point.name == point for a in chain.arms)


def pull_share(pulls: tuple[Pull, ...]) -> dict[str, float]:
    """For each point, its load over the greatest there is, which says how long its arrow is."""
    most = max((p.load_n for p in pulls), default=1.0)
    return {p.point.name: p.load_n / most for p in pulls}
