"""What rope lies where: at a seat, on the drum, at a join. For rules that guard the line and the drum."""

from __future__ import annotations

from collections.abc import Iterator
from math import acos, inf
from typing import Final, NamedTuple

from riglint.mechanics.tackle import SHEAVE_LOSS
from riglint.mechanics.vectors import dot, sub, unit
from riglint.rig.model import Join, Line, Piece, Turn
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


def pieces_at(line: Line, from_dead_end_m: float) -> list[Piece]:
    """What lies so far from the dead end; both pieces at a join, and more where a length isn't stated.

    Beyond the line's first end there is nothing: the piece there is the last that could be.
    """
    here = [
        piece for piece in line.pieces
        if piece.start_m - TOUCHING_M <= from_dead_end_m <= piece.end_m + TOUCHING_M
    ]  # fmt: skip
    return here or [line.pieces[0]]


def known_n(stage: StageSolution, load_n: float | None) -> float | None:
    """A steady load that is at least so much: where a turn's loss isn't stated, as if it had none.

    Equation: F (1 - loss)^n, loss the one that it was reckoned with, n turns without a loss. Source: derivation.
    """
    return None if load_n is None else load_n * (1.0 - SHEAVE_LOSS.value) ** len(stage.losses_assumed)


def in_seats(stage: StageSolution) -> list[tuple[Turn, Piece]]:
    """Every piece that lies in a seat at some station."""
    lines = {line.name: line for line in stage.stage.lines}
    found = {
        (figures.line, figures.index, piece.name): (figures.turn, piece)
        for station in stage.stations for figures in station.turns
        for piece in pieces_at(lines[figures.line], figures.path_beyond_m)
    }  # fmt: skip
    return list(found.values())


class Bend(NamedTuple):
    """A piece of rope in a seat (None: the fairlead): its worst tension by case, and whether it moves under it."""

    line: Line
    turn: Turn | None
    piece: Piece
    moving: bool
    expected_n: float | None
    stall_n: float | None
    station: int  # of the worst of both


def bends(stage: StageSolution) -> list[Bend]:
    """Every piece that lies in a seat at some station, moving and standing told apart."""
    lines = {line.name: line for line in stage.stage.lines}
    found: dict[tuple[str, int, str, bool], _Worst] = {}
    for station in stage.stations:
        for figures in station.turns:
            line, moving, line_n = lines[figures.line], figures.slip != 0, figures.line_n
            steady = max(line_n.get("expected", -1.0), line_n.get("holding", -1.0))
            stall = line_n.get("stall", -1.0)
            for piece in pieces_at(line, figures.path_beyond_m):
                worst = found.setdefault(
                    (line.name, figures.index, piece.name, moving), _Worst(figures.turn, piece, line)
                )
                worst.add(steady, stall, station.index)
    return [worst.bend(key[3]) for key, worst in found.items()]


class _Worst:
    """The worst of what was met so far; below nothing: not known."""

    __slots__ = ("line", "piece", "stall", "station", "steady", "turn")

    def __init__(self, turn: Turn, piece: Piece, line: Line) -> None:
        self.turn, self.piece, self.line = turn, piece, line
        self.steady = self.stall = -1.0
        self.station = 0

    def add(self, steady_n: float, stall_n: float, station: int) -> None:
        if max(steady_n, stall_n) > max(self.steady, self.stall):
            self.station = station
        self.steady, self.stall = max(self.steady, steady_n), max(self.stall, stall_n)

    def bend(self, moving: bool) -> Bend:
        steady, stall = (n if n >= 0.0 else None for n in (self.steady, self.stall))
        return Bend(self.line, self.turn, self.piece, moving, steady, stall, self.station)


def drum_lacks(stage: StageSolution) -> tuple[str, ...]:
    """Facts without which nothing is known of what is on the drum, in the words in which every rule asks for them."""
    drum, first = stage.stage.winch.facts.drum, stage.stage.haul.pieces[0]
    lacks = []
    if drum is None:
        lacks.append(place(stage.stage.winch.pointer, "drum"))
    if first.facts.diameter is None:
        lacks.append(place(first.pointer, "diameter"))
    elif drum is not None and first.facts.diameter.high > drum.width.low:
        lacks.append(place(stage.stage.winch.pointer + "/drum", "width, which is less than the rope's diameter"))
    return tuple(lacks)


def length_lacks(line: Line) -> tuple[str, ...]:
    """Pieces of a line whose length isn't stated."""
    return tuple(place(piece.pointer, "length") for piece in line.pieces if piece.facts.length is None)


def join_lacks(line: Line, join: Join) -> tuple[str, ...]:
    """Pieces between a join and the dead end whose length isn't stated."""
    if join.from_dead_end.high < inf:
        return ()
    outward = line.pieces[line.joins.index(join) + 1 :]
    return tuple(place(piece.pointer, "length") for piece in outward if piece.facts.length is None)


class Answer(NamedTuple):
    """A stop planned for a join: how far before its event the earliest of it lies, and whether it is before at all."""

    ahead_m: float
    before: bool


def answer(stage: StageSolution, event: Event) -> Answer | None:
    """The best stop that names the join, and the redirect where there is one; None if no stop does.

    A stop's range counts at both ends: its late end must be before the event's early end, and its early end is
    what the margin is measured from.
    """
    names = {event.join.name, *event.redirects} if event.join else set(event.redirects)
    best: Answer | None = None
    for stop in stage.stage.stops:
        if not names <= stop.names:
            continue
        this = Answer(event.spread.low - stop.after_m.low, stop.after_m.high <= event.spread.low + TOUCHING_M)
        if best is None or (not this.before, abs(this.ahead_m)) < (not best.before, abs(best.ahead_m)):
            best = this
    return best


def leads(stage: StageSolution) -> list[tuple[Station, float]]:
    """The angle between the winch's outlook and the first leg, station by station; empty if the outlook isn't known.

    Equation: cos a = f.w, f from mount to fairlead, w along the first leg. Source: geometry.
    """
    winch = stage.stage.winch
    ahead = unit(sub(winch.fairlead, winch.mount.at))
    if not any(ahead):
        return []
    out = []
    for station in stage.stations:
        leg = station.legs[0]
        cosine = dot(ahead, unit(sub(leg.end, leg.start)))
        out.append((station, acos(max(-1.0, min(1.0, cosine)))))
    return out


def on_drum(stage: StageSolution) -> tuple[Piece, ...]:
    """The pieces of the hauling line that lie on the drum at some time, as far as their lengths are known."""
    least_m = min(station.path_m for station in stage.stations)
    return tuple(piece for piece in stage.stage.haul.pieces if piece.end_m > least_m + TOUCHING_M)


class Slide(NamedTuple):
    """A piece that slides over a seat, with the most heat that each metre of it takes there in the pull."""

    turn: Turn
    piece: Piece
    heat_j_m: float | None  # None: not known
    station: int


def slides(stage: StageSolution) -> list[Slide]:
    """Every piece that slides over a seat that doesn't turn, once for each passage, at its hottest."""
    lines = {line.name: line for line in stage.stage.lines}
    worst: dict[tuple[str, int, str], Slide] = {}
    for station in stage.stations:
        for figures in station.turns:
            if figures.turn.rolls or figures.slip == 0:
                continue
            heat = known_n(stage, figures.heat_j_m.get("expected"))
            for piece in pieces_at(lines[figures.line], figures.path_beyond_m):
                key = (figures.line, figures.index, piece.name)
                old = worst.get(key)
                if old is None or (heat or 0.0) > (old.heat_j_m or 0.0):
                    worst[key] = Slide(figures.turn, piece, heat, station.index)
    return list(worst.values())
