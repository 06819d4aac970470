"""Everything in a stage that has a rating or may have one, with what the rating rests on. For rules on paper."""

from collections.abc import Iterator
from typing import Final, NamedTuple

from riglint.rig.model import Connector, Join, Piece, RigStage

_APPROVED: Final = frozenset({  # all of it: a word more, such as "no" or "older than", may turn it round
    "type approval", "type approved", "ec type approval", "eu type approval", "ec type approved", "eu type approved",
    "eu 1005/2010", "regulation eu 1005/2010", "regulation eu no 1005/2010",
})  # fmt: skip


_BEHIND: Final = frozenset({
    "mark", "marks", "marked", "marking", "plate", "stamp", "stamped", "tag", "label", "certificate", "certified",
    "drawing", "drawings", "sheet", "handbook", "manual", "test", "tests", "tested", "gauge", "proof", "approval",
})  # fmt: skip
_TURNS_IT_ROUND: Final = frozenset({
    "no", "not", "none", "never", "nobody", "without", "unknown", "guess", "guessed", "estimate", "estimated", "lost",
    "missing", "illegible", "unreadable", "to", "will", "before", "until", "pending", "?",
})  # fmt: skip
_PARTED: Final = {ord(c): " " for c in "-(),.;:/"} | {ord("?"): " ? "}


class Rated(NamedTuple):
    """One piece of gear; `stated` whether the plan gives a rating or strength for it."""

    kind: str
    name: str
    pointer: str
    stated: bool
    basis: str | None


def rated(stage: RigStage) -> Iterator[Rated]:
    """Points, connectors, pieces, joins and seats of a stage."""
    for point in stage.points.values():
        own = point.facts
        yield Rated("point", point.name, point.pointer, bool(own.rated or own.breaking), own.basis)
    for connector in stage.connectors.values():
        yield _gear("connector", connector)
    for line in stage.lines:
        for piece in line.pieces:
            yield _gear("piece", piece)
        for join in line.joins:
            yield _gear("join", join)
    for redirect in stage.redirects.values():
        for seat in ("sheave", "groove", "bore", "head"):
            facts = redirect.facts.seat(seat)
            if facts is not None:
                stated = bool(facts.rated or facts.breaking)
                yield Rated("redirect", f"{redirect.name}.{seat}", f"{redirect.pointer}/{seat}", stated, facts.basis)


def _gear(kind: str, gear: Connector | Piece | Join) -> Rated:
    facts = gear.facts
    return Rated(kind, gear.name, gear.pointer, bool(facts.working_load or facts.breaking), facts.basis)


def says_who_stands_behind(basis: str | None) -> bool:
    """Whether a basis names a mark, a plate, a certificate, a drawing, a maker's sheet or a test, and doesn't deny it.

    Source: common practice. Of words that could be read either way nothing is taken for granted.
    """
    words = set((basis or "").lower().translate(_PARTED).split())
    return bool(words & _BEHIND) and not words & _TURNS_IT_ROUND


def says_type_approved(basis: str | None) -> bool:
    """Whether a tow eye's basis says that its vehicle was approved under (EU) 1005/2010, and nothing else.

    Source: the regulation's own words. The number of an approval, which may follow, has stars in it.
    """
    *words, last = (basis or "").lower().translate({ord(c): " " for c in "-()"}).split() or [""]
    return " ".join(words if "*" in last else [*words, last]) in _APPROVED
