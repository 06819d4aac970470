"""What a join leaves of the rope that it joins, from what the plan states of it. For rules."""

from typing import Final, NamedTuple

from riglint.mechanics.joins import SIZED, end_factor, join_factor
from riglint.reading.quantity import Span
from riglint.rig.model import Join, Piece
from riglint.solve.ratings import place

_GEAR: Final = frozenset({"shackle", "soft shackle"})
_FIBRE: Final = {"splice": "spliced eye", "bowline": "bowline", "loop-to-loop cow hitch": "girth hitch"}
_KNOTS: Final = frozenset({"square knot", "sheet bend", "figure-eight bend", "other knot"})
_STEEL: Final = {"splice": "hand-tucked thimble splice", "swaged link": "pressed sleeve"}
_CORES: Final = {"wire": "wire", "wire, fibre core": "wire, fibre core", "wire, steel core": "wire, independent core"}
UNLIKE: Final = 1.1  # rope this much thicker than the next is of another size


class Kept(NamedTuple):
    """The share of the weaker piece's strength that a join keeps; with facts missing the most that it could be."""

    share: float
    missing: tuple[str, ...]


def is_gear(join: Join) -> bool:
    """Whether the join is a piece of gear with a rating of its own."""
    return join.facts.kind in _GEAR


def kept(join: Join, loops: float) -> Kept:
    """By its maker's figure; loop to loop by the one given; else by the tables, the poorest end of what is printed.

    Figures of low confidence never let a join pass: their better end counts, and the maker's figure is asked for.
    Equation: table lookup. Source: as `mechanics.joins` says for each kind
    """
    facts, asked = join.facts, (place(join.pointer, "keeps"),)
    if facts.keeps:
        return Kept(facts.keeps.low, ())
    if facts.kind == "loop-to-loop square knot":
        return Kept(loops, _unset(join) or (asked if _unlike(join) else ()))
    rope = join.inner.facts.rope if join.inner.facts.rope == "hmpe" else join.outer.facts.rope
    if rope is None or join.inner.facts.rope is None:
        pieces = (join.inner, join.outer)
        return Kept(1.0, tuple(place(p.pointer, "rope") for p in pieces if p.facts.rope is None))
    kinds = _STEEL if rope.startswith("wire") else _FIBRE
    family = _CORES.get(rope, "hmpe" if rope == "hmpe" else "fibre")
    kind = kinds.get(facts.kind, "knot" if facts.kind in _KNOTS else facts.kind)
    if kind in SIZED:
        sizes = {piece.pointer: piece.facts.diameter for piece in (join.inner, join.outer)}
        if None in sizes.values():
            return Kept(1.0, tuple(place(pointer, "diameter") for pointer, size in sizes.items() if size is None))
        band = end_factor(kind, family, max(size.high for size in sizes.values() if size))
    else:
        band = join_factor(kind, family)
    if band is None:
        return Kept(1.0, asked)
    doubtful = band.trust == "from memory, low confidence"
    return Kept(band.high, asked) if doubtful else Kept(band.low, ())


def _unset(join: Join) -> tuple[str, ...]:
    """What isn't stated of how a loop-to-loop join is set; for another way of setting it there is no figure."""
    facts = join.facts
    lacks = [key for key, stated in (("set", facts.set), ("twist", facts.twist)) if stated is None]
    if is_set_wrong(join):
        lacks.append("keeps")
    return tuple(place(join.pointer, key) for key in lacks)


def _unlike(join: Join) -> bool:
    sizes = [piece.facts.diameter for piece in (join.inner, join.outer) if piece.facts.diameter]
    return len(sizes) > 1 and max(s.high for s in sizes) > UNLIKE * min(s.low for s in sizes)


def is_set_wrong(join: Join) -> bool:
    """Whether the plan states that the join is twisted, its legs crossed, or its square knot collapsed."""
    collapsed = join.facts.set == "collapsed to a cow hitch" and join.facts.kind == "loop-to-loop square knot"
    return collapsed or join.facts.set == "crossed legs" or join.facts.twist not in (None, "none")


class Weaker(NamedTuple):
    """What the weaker of the two pieces may carry by itself, and breaks at, as far as it is stated."""

    may_n: float | None
    breaking_n: float | None
    missing: tuple[str, ...]


def weaker(join: Join, wire_factor: float, fibre_factor: float) -> Weaker:
    """The lower of the two pieces' working loads, or breaking strengths over a factor; with one unstated the other's.

    Equation: WL = WL stated, or BS / f. Source: definition, as in `mechanics.capacity`
    """
    may, breaking, missing = [], [], []
    for piece in (join.inner, join.outer):
        own = _may(piece, wire_factor, fibre_factor)
        if own is None:
            missing.append(place(piece.pointer, "breaking"))
        else:
            may.append(own)
        if piece.facts.breaking:
            breaking.append(piece.facts.breaking.low)
    return Weaker(min(may, default=None), min(breaking, default=None), tuple(missing))


def _may(piece: Piece, wire_factor: float, fibre_factor: float) -> float | None:
    facts = piece.facts
    marked: Span | None = facts.working_load
    if marked:
        return marked.low
    if facts.breaking is None:
        return None
    rope = facts.rope
    if rope is None:
        factor = min(wire_factor, fibre_factor)
    else:
        factor = wire_factor if rope.startswith("wire") else fibre_factor
    breaking: Span = facts.breaking
    return breaking.low / factor
