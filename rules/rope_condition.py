"""What was seen when rope was looked over.

Rope that is cut, melted or broken carries what is left of it, and nobody can say how much
that is.

How it is judged: by the words of `condition`. For fibre: cut or melted is damage, and a
kink or a crushed place that stays; glazed rope has been hot, and the handbook counts it with
the cuts; stiff rope may only be full of grit, and a pulled strand is worked back or cut out.
For wire: broken wires are counted, a kink never comes out, corrosion hides what is left.
Flattened rope is not damaged: it has been on a drum, and rounds out by hand; a fuzzy surface
is use, and protects what is below it.
Rope that nobody has looked at can't be told (a NOTICE). A tail in a buried splice shorter
than 60 rope diameters is redone.

    tail = length / diameter, of two ropes that are spliced the thicker one's

Sources agree on cuts, melting, glazing and fusing (TB 55-1900-232-10 App. C, TB 43-0142).
For wire they differ by use: 6 broken wires in a lay or 3 in one strand of it (WAC
296-874-30016, suspended), in mines 5 % of the wires in a lay (30 CFR 56.19024), more in
slings, and 3 are too many in rope that stands (an Army crane's manual). Any broken wires
stated are therefore found, with the count of the first. The tail of 60 diameters is common practice, no source.

What to do: cut the bad length out and splice it anew, or take another rope. A short tail
is spliced again. Other gear is judged by `gear-condition`.

Worked example: a tail of 0.5 m in 11 mm rope.
tail = 500 mm; rope = 11 mm; diameters = tail / rope = 45.5
"""

from math import inf

from riglint.plan.conditions import words_of
from riglint.reading.quantity import Span
from riglint.rig.model import Piece
from riglint.rulebook.author import Basis, Checks, Formula, Grade, Limit, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, first_greatest, holds
from riglint.rulebook.seen import damage
from riglint.solve.rope import is_wire, ropes

_FIBRE = Basis("handbook", "cuts, fused fibre, glazing", "tb-55-1900-232-10", "App. C s. C-9", "towing", "read")
_WIRE = Basis(
    "regulation", "6 broken wires in a lay or 3 in a strand of it, kinks, heat", "wac-296-874-30016", "wire rope",
    "lifting", "read",
)  # fmt: skip
_TAIL = Basis("common practice", "a buried splice's tail is at least 60 rope diameters long", scope="winching")

_DAMAGE = Words(
    "{name} is stated as {seen}",
    "{name} was looked over and shows no damage",
    "nobody says what {name} looks like",
    "Cut the bad length out and splice anew, or take other rope",
    "Look over the whole length by hand, and state its `condition`",
)
_WIRE_ROPE = _DAMAGE._replace(
    remedy="Cut the bad length out, or take other rope; 6 broken wires in a lay or 3 in one strand of it end its use"
)
_RATIO = Formula("tail", "length / diameter", (("length", "m"), ("diameter", "m")), "1")
_SHORT = Words(
    "the splice of {name} has a tail of {measured} rope diameters; at least {limit}",
    "the splice of {name} has a tail of {measured} rope diameters",
    "whether the splice of {name} has a tail long enough can't be told",
    "Splice it anew with a longer tail",
)


@rule(
    title="Condition of rope", grade=Grade.WARNING, guards="line", basis=(_FIBRE, _WIRE),
    limits=(Limit("tail", 60.0, "1", "least tail of a buried splice in rope diameters", _TAIL, "lower"),),
    worse=Worse.by(higher="lines/*/pieces/*/diameter", lower="lines/*/pieces/*/splice_tail",
                   taken_away="lines/*/pieces/*/condition lines/*/pieces/*/diameter"),
)  # fmt: skip
def rope_condition(solution: Solution, limits: Limits) -> Checks:
    for rope in ropes(solution):
        stage = rope.stage.stage.index
        for piece in rope.pieces:
            where = Where("piece", piece.name, piece.pointer, "", stage)
            words = _WIRE_ROPE if is_wire(piece.facts.rope or "") else _DAMAGE
            yield from _seen(words_of(piece.facts.condition), where, words)
            yield from _tail(piece.facts.splice_tail, piece, where, limits)
        for join in rope.joins:
            where = Where("join", join.name, join.pointer, "", stage)
            thicker = first_greatest((join.inner, join.outer), _thickness)
            yield from _tail(join.facts.splice_tail, thicker, where, limits)


def _seen(seen: tuple[str, ...], where: Where, said: Words) -> Checks:
    """The worst of what was seen."""
    bad = damage(seen, where, said)
    if bad:
        yield bad
    elif seen:
        yield holds(True, where, _DAMAGE)
    else:
        yield holds(None, where, _DAMAGE, missing=(place(where.pointer, "condition"),), grade=Grade.NOTICE)


def _thickness(piece: Piece) -> float:
    """Of rope that isn't stated, without end."""
    return piece.facts.diameter.high if piece.facts.diameter else inf


def _tail(tail: Span | None, piece: Piece, where: Where, limits: Limits) -> Checks:
    if tail is None:
        return
    size = piece.facts.diameter
    missing = () if size else (place(piece.pointer, "diameter"),)
    yield at_least(
        tail.low / size.high if size else None, limits["tail"], "1", where, _SHORT, missing=missing,
        working=(_RATIO.step(tail.low / size.high, tail.low, size.high),) if size else (),
        grade=Grade.CAUTION, basis=_TAIL,
    )  # fmt: skip
