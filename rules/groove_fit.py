"""Rope that fits the seat it runs through.

A rope that is thicker than its groove is pinched and cut by the flanges; one that is much
thinner is pressed flat, lies over to one side and can wedge between sheave and cheek.

How it is judged: each piece that comes through a seat, at the thick end of its diameter,
against the largest rope that the groove is made for; and at the thin end, against the
smallest. Where the groove is stated for one size only, a rope of at least `least_fit` of
that size still lies in it. A bore has no groove: there the rope must pass its opening.

    use = rope / groove_for (largest), and smallest * least_fit / rope

Sources: ILO dock work 12.1.2 asks for a groove radius of at least d/2 + 1 mm, for lifting
with fibre rope; how much thinner a rope may be is common practice without a source. Too
thick is a WARNING, too thin a CAUTION.

What to do: use a redirect made for that rope.

Worked example: 12 mm rope in a groove made for 10 mm, and 7 mm rope in the same.
thick = 12 mm; thin = 7 mm; groove = 10 mm; least_fit = 0.85
use = thick / groove = 1.2
thin_use = groove * least_fit / thin = 1.21
"""

from collections.abc import Iterator
from typing import NamedTuple

from riglint.mechanics.provenance import ILO_DOCK_WORK
from riglint.outcome import Where
from riglint.reading.quantity import Span
from riglint.rig.model import Piece, Turn
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, at_most, exceeds
from riglint.solve.rope import stages

_ILO = Basis("standard", "the groove's radius is at least d/2 + 1 mm", ILO_DOCK_WORK, "12.1.2", "lifting", "read")
_THIN = Basis("common practice", "a rope much thinner than its groove is pressed flat")
_THICK = Words(
    "{piece} is {measured} thick; the {seat} of {redirect} takes rope up to {limit}",
    "{piece} at {measured} goes into the {seat} of {redirect}, made for up to {limit}",
    "whether {piece} fits the {seat} of {redirect} can't be told",
    "Use a redirect made for rope of {measured}",
)
_FILLS = Words(
    "{piece} is {measured} thick, too thin for the {seat} of {redirect}: {limit} at the least lies well in it",
    "{piece} at {measured} lies well in the {seat} of {redirect}",
    "whether {piece} lies well in the {seat} of {redirect} can't be told",
    "Use a redirect made for rope of {measured}",
)


@rule(
    title="Rope too thick or too thin for its seat", grade=Grade.WARNING, guards="redirects", basis=(_ILO, _THIN),
    once=True,
    limits=(Limit("least_fit", 0.85, "share", "thinnest rope in a groove of one stated size", _THIN, milder="lower"),),
    worse=Worse.by(lower="redirects/*/bore/opening",
                   taken_away="redirects/*/bore/opening+groove_for redirects/*/sheave/groove_for "
                   "redirects/*/groove/groove_for lines/*/pieces/*/diameter"),
)  # fmt: skip
def groove_fit(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for seat in _seats(stage):
            yield from _seat(stage, seat.turn, seat.piece, limits["least_fit"])


class _Met(NamedTuple):
    turn: Turn
    piece: Piece


def _seats(stage: StageSolution) -> Iterator[_Met]:
    """Every seat with each piece that comes through it, by the rope that lies beyond the seat over the travel."""
    lines = {line.name: line for line in stage.stage.lines}
    rows = zip(*(station.turns for station in stage.stations), strict=True)
    for row in rows:
        beyond = [figures.path_beyond_m for figures in row]
        near, far = min(beyond), max(beyond)
        first, *_ = row
        for piece in lines[first.line].pieces:
            if piece.start_m <= far and piece.end_m >= near:
                yield _Met(first.turn, piece)


def _seat(stage: StageSolution, turn: Turn, piece: Piece, least_fit: float) -> Checks:
    pointer = stage.stage.redirects[turn.redirect].pointer
    related = ((piece.pointer, "the rope"),)
    where = Where("seat", f"{turn.redirect}.{turn.seat_name}", pointer, "", stage.stage.index, related=related)
    terms = (("piece", piece.name), ("seat", turn.seat_name), ("redirect", turn.redirect))
    rope, groove, opening = piece.facts.diameter, turn.seat.groove_for, turn.seat.opening
    bore = turn.seat_name == "bore"
    takes = [opening.low] if opening else []
    takes += [groove.high] if groove and not (bore and takes) else []
    untold = not takes if bore else groove is None
    if rope is None or not takes or (untold and not exceeds(rope.high, min(takes))):
        fact = "opening of its bore" if bore else f"groove_for of its {turn.seat_name}"
        missing = (place(pointer, fact),) if untold else ()
        missing = missing if rope else (*missing, place(piece.pointer, "diameter"))
        yield at_most(None, None, "m", where, _THICK, missing=missing, terms=terms)
        return
    yield at_most(rope.high, min(takes), "m", where, _THICK, terms=terms)
    if groove and not bore:
        yield at_least(rope.low, _thinnest(groove, least_fit), "m", where, _FILLS, terms=terms, basis=_THIN,
                       grade=Grade.CAUTION)  # fmt: skip


def _thinnest(groove: Span, least_fit: float) -> float:
    return groove.low * least_fit if groove.exact else groove.low
