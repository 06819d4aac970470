"""What the way that a rope's end is made leaves of its strength. For rules."""

from typing import Final, NamedTuple

from riglint.mechanics.joins import SIZED, end_factor, join_factor
from riglint.reading.quantity import Span
from riglint.rig.model import Piece

# End fittings by the names of the table of what they leave, and ropes by those of its columns.
_WIRE_ENDS: Final = {
    "swaged": ("pressed sleeve",),
    "clips": ("clips",),
    "wedge socket": ("wedge socket",),
    "socket": ("poured socket",),
    "spliced eye": ("hand-tucked thimble splice",),
    "thimble": ("pressed sleeve", "clips", "hand-tucked thimble splice"),  # held by any of them
}
_UNSAID: Final = ("pressed sleeve", "clips", "wedge socket", "hand-tucked thimble splice")  # of wire
_CORES: Final = {"wire": "wire", "wire, fibre core": "wire, fibre core", "wire, steel core": "wire, independent core"}
_SPLICED: Final = frozenset({"spliced eye", "thimble"})
_UNMARKED: Final = frozenset({"knot", "plain"})  # ends that no maker marks a rope for
_WHOLE: Final = Span(1.0, 1.0)
_UNTOLD: Final = Span(0.0, 1.0)


class Left(NamedTuple):
    """The least and the most that may be left of a rope's strength, and the facts for want of which it is a range."""

    share: Span
    missing: tuple[str, ...]


def left_by_ends(piece: Piece) -> Left:
    """By the table, at the poorest end of what it gives; from nothing to all where it has no figure.

    A working load is taken to be marked for the rope with its end, unless that is a knot or only cut. A fibre rope's
    strength is taken to be that of its spliced eye. An end of which nothing is stated may be any that the table has,
    or, in fibre rope, a knot. Equation: table lookup. Source: as `mechanics.joins` says.
    """
    ends, rope = piece.facts.ends, piece.facts.rope
    if piece.facts.working_load is not None and ends not in _UNMARKED:
        return Left(_WHOLE, ())
    if rope is None:
        return Left(_of_any(ends), ("rope",))
    if rope.startswith("wire"):
        return _of_wire(ends, piece.facts.diameter, _CORES[rope])
    if ends in _SPLICED:
        return Left(_WHOLE, ())
    if ends not in ("knot", None):
        return _no_figure(ends)
    knotted = _least("hmpe" if rope == "hmpe" else "fibre", ("knot",))
    return Left(Span(knotted.low, knotted.low), ()) if ends else Left(knotted, ("ends",))


def _no_figure(ends: str) -> Left:
    return Left(_UNTOLD, _asked(ends))


def _asked(ends: str) -> tuple[str, ...]:
    return (f"what its end ({ends}) holds" if ends in _UNMARKED else f"working_load with its end ({ends})",)


def _of_any(ends: str | None) -> Span:
    """Of rope that may be wire or fibre."""
    if ends is None:
        return _least("hmpe", ("knot",))
    return _least("wire", _WIRE_ENDS[ends]) if ends in _SPLICED else _UNTOLD


def _of_wire(ends: str | None, size: Span | None, column: str) -> Left:
    if ends is None:
        return Left(_least(column, _UNSAID), ("ends",))
    if ends not in _WIRE_ENDS:
        return _no_figure(ends)
    kinds = _WIRE_ENDS[ends]
    least = _least(column, kinds)
    if len(kinds) > 1:
        return Left(least, ("ends: how the thimble is held",))
    if kinds[0] in SIZED and size is None:
        return Left(Span(0.0, least.low), ("diameter",))
    band = end_factor(kinds[0], column, size.high) if size else join_factor(kinds[0], column)
    return Left(Span(band.low, band.low), ()) if band else Left(Span(0.0, least.low), _asked(ends))


def _least(column: str, kinds: tuple[str, ...]) -> Span:
    """From the poorest that these ends leave to all."""
    bands = [join_factor(kind, column) for kind in kinds]
    return Span(min(band.low for band in bands if band), 1.0)
