"""Everything in a stage that has a rating or may have one, with what the rating rests on. For rules on paper."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from riglint.rig.model import RigStage


class Rated(NamedTuple):
    """One piece of gear; `stated` whether the plan gives a rating or strength for it."""

    kind: str
    name: str
    pointer: str
    stated: bool
    basis: str | None


def rated(stage: RigStage) -> Iterator[Rated]:
    """Points, connectors, pieces, joins and seats of a stage."""
    for kind, own in (("point", stage.points), ("connector", stage.connectors)):
        for name, item in own.items():
            yield _rated(kind, name, item.pointer, item.facts)
    for line in stage.lines:
        for kind, parts in (("piece", line.pieces), ("join", line.joins)):
            for part in parts:
                yield _rated(kind, part.name, part.pointer, part.facts)
    for redirect in stage.redirects.values():
        for seat in ("sheave", "groove", "bore", "head"):
            facts = redirect.facts.seat(seat)
            if facts is not None:
                stated = bool(facts.rated or facts.breaking)
                yield Rated("redirect", f"{redirect.name}.{seat}", f"{redirect.pointer}/{seat}", stated, facts.basis)


def _rated(kind: str, name: str, pointer: str, facts: object) -> Rated:
    stated = any(getattr(facts, key, None) is not None for key in ("rated", "breaking", "working_load"))
    return Rated(kind, name, pointer, stated, getattr(facts, "basis", None))
