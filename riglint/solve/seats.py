"""What rope lies in the seats and on the drum over the travel, with its worst loads and heat there. For rules."""

from math import inf
from typing import NamedTuple

from riglint.mechanics.fibre import FILL_FRACTION, fibre
from riglint.mechanics.heat import rope_mass_kg_m, temperature_rise_k
from riglint.mechanics.rounding import surpasses
from riglint.mechanics.tackle import SHEAVE_LOSS
from riglint.rig.model import Line, Piece, Turn
from riglint.solve.rope import TOUCHING_M
from riglint.solve.solution import StageSolution


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
        if surpasses(max(steady_n, stall_n), max(self.steady, self.stall)):
            self.station = station
        self.steady, self.stall = max(self.steady, steady_n), max(self.stall, stall_n)

    def bend(self, moving: bool) -> Bend:
        steady, stall = (n if n >= 0.0 else None for n in (self.steady, self.stall))
        return Bend(self.line, self.turn, self.piece, moving, steady, stall, self.station)


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

    def rise_k(self) -> float | None:
        """How much warmer the piece gets at the most, without end of a pull without end; None where a fact is missing.

        Equation: as `mechanics.heat`, at the thin end of the rope. Source: as there
        """
        facts = self.piece.facts
        made = fibre(facts.rope) if facts.rope else None
        if made is None or facts.diameter is None or self.heat_j_m is None:
            return None
        if self.heat_j_m == inf:
            return inf
        mass = rope_mass_kg_m(facts.diameter.low, made.density.value, FILL_FRACTION.value)
        return temperature_rise_k(self.heat_j_m, mass, made.specific_heat.value)


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
                if old is None or surpasses(heat or 0.0, old.heat_j_m or 0.0):
                    worst[key] = Slide(figures.turn, piece, heat, station.index)
    return list(worst.values())
