"""Wire and fibre rope over one seat, or on one drum.

Wire leaves burrs and grit in a groove, and these cut fibre rope that runs there after it.
On one drum the wire bites into the fibre below it, or the fibre is cut by wire drawn
tight over it.

How it is judged: every piece that lies in a seat at some station of any stage, and every
piece that is on the drum at some time, by what it is made of. Both wire and fibre at one
place fail. Pieces whose rope is not stated can't be told where they share a place with
others.

Common practice; no published clause was found for winching.

No equation.

What to do: another redirect for the wire, or one material for the whole line. A seat that
wire has run over is dressed smooth and looked over before fibre rope goes into it.

Worked example: a fibre extension of 24 m on a wire mainline, seat 20 m from the dead end at the start, 14 m at the end.
extension = 24 m; start = 20 m; fibre_at_the_seat = min(extension, start) = 20 m
"""

from riglint.rig.model import Piece
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.rope import is_wire, stages
from riglint.solve.seats import in_seats, on_drum

_BASIS = Basis("common practice", "wire and fibre rope share no seat and no drum", scope="winching")
_WORDS = Words(
    "{wire} is of wire and {fibre} of fibre, and both go over {name}",
    "what goes over {name} is of one material",
    "whether wire and fibre rope share {name} can't be told",
    "Give wire and fibre a redirect each, or use one material for the whole line")  # fmt: skip
_DRUM = Words(
    "{wire} is of wire and {fibre} of fibre, and both are wound on one drum",
    "what is wound on the drum is of one material",
    "whether wire and fibre rope share the drum can't be told",
    "Stop before the join reaches the drum, or use one material for the whole line")  # fmt: skip


@rule(
    title="Wire and fibre rope together", grade=Grade.CAUTION, guards="line", basis=(_BASIS,),
    worse=Worse.by(taken_away="lines/*/pieces/*/rope"))  # fmt: skip
def wire_with_fibre(solution: Solution, limits: Limits) -> Checks:
    seats: dict[str, tuple[str, dict[str, Piece]]] = {}
    for stage in stages(solution):
        wound = {piece.pointer: piece for piece in on_drum(stage)}
        yield from _share(wound, Where("drum", "drum", stage.stage.winch.pointer, "", stage.stage.index), _DRUM)
        for turn, piece in in_seats(stage):
            pointer = f"{stage.stage.redirects[turn.redirect].pointer}/{turn.seat_name}"
            _, pieces = seats.setdefault(f"{turn.redirect}.{turn.seat_name}", (pointer, {}))
            pieces[piece.pointer] = piece
    for name, (pointer, pieces) in seats.items():
        yield from _share(pieces, Where("seat", name, pointer), _WORDS)


def _share(pieces: dict[str, Piece], where: Where, words: Words) -> Checks:
    """One piece alone shares nothing."""
    if len(pieces) < 2:
        return
    wire = next((p.name for p in pieces.values() if p.facts.rope and is_wire(p.facts.rope)), None)
    fibre = next((p.name for p in pieces.values() if p.facts.rope and not is_wire(p.facts.rope)), None)
    missing = tuple(place(pointer, "rope") for pointer, piece in pieces.items() if piece.facts.rope is None)
    both = wire is not None and fibre is not None
    yield holds(not both, where, words, missing=missing, terms=(("wire", wire or ""), ("fibre", fibre or "")))
