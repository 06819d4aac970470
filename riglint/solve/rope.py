"""Lines, pieces and joins as rules that guard the line and the drum ask for them, and facts that are not stated."""

from collections.abc import Iterable, Iterator
from math import inf
from typing import Final, NamedTuple

from riglint.mechanics.vectors import along, between_rad, dot, sub, unit
from riglint.rig.model import Chain, Join, Line, Piece, RigStage
from riglint.solve.loose import ever_loose, where_it_stands
from riglint.solve.ratings import place
from riglint.solve.solution import Event, Solution, StageSolution, Station

TOUCHING_M: Final = 1e-6  # places along the rope nearer than this are one


def is_wire(rope: str) -> bool:
    """Whether rope of that kind is of steel."""
    return rope.startswith("wire")


def stages(solution: Solution) -> Iterator[StageSolution]:
    """Those that stand as planned."""
    return (stage for stage in solution.stages if stage.refused is None)


class Rope(NamedTuple):
    """A line as a stage rigs it, met once however many stages rig it the same way."""

    stage: StageSolution
    line: Line
    pieces: tuple[Piece, ...]
    joins: tuple[Join, ...]


def ropes(solution: Solution) -> Iterator[Rope]:
    """Every line with the pieces and joins of it that no stage before had."""
    seen: set[str] = set()
    for stage in solution.stages:
        for line in stage.stage.lines:
            pieces = tuple(piece for piece in line.pieces if piece.pointer not in seen)
            joins = tuple(join for join in line.joins if join.pointer not in seen)
            seen.update(piece.pointer for piece in pieces)
            seen.update(join.pointer for join in joins)
            yield Rope(stage, line, pieces, joins)


def stands_between(line: Line, index: int, begins: str, ends: str) -> tuple[str, str]:
    """What a leg of a line runs between, by the names of its nodes and its place from the line's first end.

    A redirect that hangs without any length shares its point's node, and goes by its own name all the same.
    """
    first = line.first.redirect if line.first else None
    names = [first or "", *(turn.redirect for turn in line.turns), line.dead_end.redirect or ""]
    return names[index] or begins, names[index + 1] or ends


def drum_lacks(stage: StageSolution) -> tuple[str, ...]:
    """Facts without which nothing is known of what is on the drum, in the words in which every rule asks for them."""
    return layers_lack(stage.stage)


def layers_lack(stage: RigStage) -> tuple[str, ...]:
    """Facts without which a drum's layers aren't known."""
    drum, first = stage.winch.facts.drum, stage.haul.pieces[0]
    lacks = []
    if drum is None:
        lacks.append(place(stage.winch.pointer, "drum"))
    if first.facts.diameter is None:
        lacks.append(place(first.pointer, "diameter"))
    elif drum is not None and first.facts.diameter.high > drum.width.low:
        lacks.append(place(stage.winch.pointer + "/drum", "width, which is less than the rope's diameter"))
    return tuple(lacks)


def from_drum_m(stage: RigStage) -> float:
    """The way from drum to fairlead at its longest; none where it isn't stated."""
    fairlead = stage.winch.facts.fairlead
    return float(fairlead.from_drum.high) if fairlead and fairlead.from_drum else 0.0


def length_lacks(line: Line) -> tuple[str, ...]:
    """Pieces of a line whose length isn't stated."""
    return tuple(place(piece.pointer, "length") for piece in line.pieces if piece.facts.length is None)


def join_lacks(stage: StageSolution, line: Line, join: Join) -> tuple[str, ...]:
    """What the places of a join hang on and isn't known: lengths of pieces beyond it and of connectors on the way, and
    where a redirect stands that the line runs straight past.
    """
    outward = line.pieces[line.joins.index(join) + 1 :] if join.from_dead_end.high == inf else ()
    pieces = tuple(place(piece.pointer, "length") for piece in outward if piece.facts.length is None)
    loose = tuple(where_it_stands(turn.redirect) for turn in line.turns if turn.redirect in ever_loose(stage))
    return pieces + connectors_lack(stage.stage, line) + loose


def connectors_lack(stage: RigStage, line: Line) -> tuple[str, ...]:
    """Connectors that hold a line's ends and redirects whose length isn't stated: where joins meet hangs on them."""
    return hangers_lack(stage, [turn.redirect for turn in line.turns], line.first, line.dead_end)


def hangers_lack(stage: RigStage, redirects: Iterable[str], *ends: Chain | None) -> tuple[str, ...]:
    """Connectors that hold these redirects and ends whose length isn't stated; a bridle's legs always have one."""
    hangers = (stage.redirects[name].hanger for name in redirects)
    held = [connector for chain in (*hangers, *ends) if chain for connector in chain.connectors]
    lacking = [c for c in held if not c.length_stated and c.facts.kind != "bridle"]
    return tuple(dict.fromkeys(place(connector.pointer, "length") for connector in lacking))


def pieces_lack(join: Join, key: str) -> tuple[str, ...]:
    """The two pieces of a join that don't state a fact."""
    return tuple(place(p.pointer, key) for p in (join.inner, join.outer) if getattr(p.facts, key) is None)


class Answer(NamedTuple):
    """A stop planned for a join: how far before its event the earliest of it lies, and whether it is before at all.

    `lacks` are lengths without which that isn't sure.
    """

    ahead_m: float
    before: bool
    lacks: tuple[str, ...]

    @property
    def early_m(self) -> float:
        """How much travel too early it is; none where it isn't."""
        return max(0.0, self.ahead_m)


def answer(stage: StageSolution, event: Event) -> Answer | None:
    """The best stop that names the join, and the redirect where there is one; None if no stop does.

    A stop's range counts at both ends: its late end must be before the event's early end, and its early end is
    what the margin is measured from.
    """
    names = {event.join.name, *event.redirects} if event.join else set(event.redirects)
    best: Answer | None = None
    lacks = connectors_lack(stage.stage, stage.line(event.line)) if event.line else ()
    for stop in stage.stage.stops:
        if not names <= stop.names:
            continue
        before = stop.after_m.high <= event.spread.low + TOUCHING_M
        this = Answer(event.spread.low - stop.after_m.low, before, lacks)
        if best is None or (not this.before, abs(this.ahead_m)) < (not best.before, abs(best.ahead_m)):
            best = this
    return best


LARGEST_TREAD_M: Final = 0.5
"""Metres: no redirect that a crew handles has a larger tread. Source: common practice."""


def widest_tread_m(stage: RigStage, redirect: str) -> float | None:
    """The widest of a redirect's seats, in metres; None where no tread is stated."""
    facts = stage.redirects[redirect].facts
    seats = (facts.sheave, facts.groove, facts.bore, facts.head)
    return max((float(seat.tread.high) for seat in seats if seat and seat.tread), default=None)


class LineEnd(NamedTuple):
    """Where a line is made fast: the chain that holds it, and its leg from there to the next redirect or the winch."""

    line: Line
    chain: Chain
    leg: int  # its place in a station's legs
    other: str


def line_ends(stage: StageSolution) -> Iterator[LineEnd]:
    """The ends of a stage's lines that are made fast to a point or a bridle."""
    begin = 0
    for line in stage.stage.lines:
        names = [turn.redirect for turn in line.turns] or ([] if line.first else ["winch"])
        if names and line.first and not line.first.redirect:
            yield LineEnd(line, line.first, begin, names[0])
        if names and not line.dead_end.redirect:
            yield LineEnd(line, line.dead_end, begin + len(line.turns), names[-1])
        begin += len(line.turns) + 1


DAMAGED: Final = (
    "cut", "melted", "broken wires", "kinked", "crushed", "glazed", "broken stitches",
    "bent", "stretched", "cracked", "burnt", "welded on", "thread damaged", "sheave wobbles",
)  # fmt: skip
"""What may have been seen on gear that is damage: nobody can say what is left of it. Sources: rules `rope-condition`
and `gear-condition`."""
DOUBTFUL: Final = ("stiff", "pulled strand", "corroded", "gouged", "mark missing")
"""What is to be looked into before the gear is used."""


def leads(stage: StageSolution) -> list[tuple[Station, float]]:
    """The angle between the winch's outlook and the first leg, station by station.

    Equation: cos a = f.w, f the way that the fairlead looks, w along the first leg. Source: geometry.
    """
    outlook = stage.stage.winch.outlook
    legs = [(station, station.legs[0]) for station in stage.stations]
    return [(station, between_rad(outlook, unit(sub(leg.end, leg.start)))) for station, leg in legs]


def aside(stage: StageSolution) -> list[tuple[Station, float]]:
    """How far the first leg lies to the side of the winch's outlook, station by station.

    Equation: cos b = w.u, w along the first leg, u along w - (w.s) s, s level and square to the outlook; a leg that
    leads back counts by its whole angle. How steeply it rises or falls is no matter: the barrel lies level, and the
    rope winds on it as well from above or below. Source: geometry.
    """
    outlook = stage.stage.winch.outlook
    ahead = unit((outlook[0], outlook[1], 0.0))
    square = (-ahead[1], ahead[0], 0.0)
    out = []
    for station, whole_rad in leads(stage):
        leg = station.legs[0]
        way = unit(sub(leg.end, leg.start))
        off_rad = between_rad(way, unit(along(way, square, -dot(way, square))))
        out.append((station, off_rad if dot(way, ahead) > 0.0 else whole_rad))
    return out
