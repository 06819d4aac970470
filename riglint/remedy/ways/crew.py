"""What a crew does on the ground: lays a damper, digs the load free, drives more pickets; and gear to match."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any, Final

from riglint.outcome import Finding, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import add, put, replace, value_at
from riglint.remedy.quantity import number, size_up
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Line

_DEPTHS: Final = ("none", "wheel depth", "fender depth", "cab depth")
_ARRANGEMENTS: Final = ("1", "1-1", "1-1-1", "2-1", "3-2-1")  # by what the manuals give them
_LESS_MIRED = "dig {load} free until it is no deeper in than {depth}"
_NOT_MIRED = "dig {load} free until it is no longer mired"


def damper(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A damper on the leg whose end would come at somebody in a cab."""
    terms = {key: text for key, text in finding.check.terms if isinstance(text, str)}
    ends = [terms.get("begins", ""), terms.get("ends", "")]
    stage = shop.rig.stages[finding.check.where.stage]
    at = f"{stage.pointer}/dampers" if stage.pointer and value_at(shop.data, f"{stage.pointer}/dampers") else "/dampers"
    for line in stage.lines if all(ends) else ():
        if frozenset(ends) in {frozenset(leg) for leg in pairwise(_stands(line))}:
            entry = {"line": line.name, "between": ends}
            change = add(f"{at}/-", entry) if value_at(shop.data, at) else add(at, [entry])
            said = (("begins", ends[0]), ("ends", ends[1]))
            words = "lay a damper on the leg between {begins} and {ends}"
            yield Proposal(words, said, (change,), guards=(line.pointer,))


def _stands(line: Line) -> list[str]:
    ends = ["winch" if chain is None else _end(chain) for chain in (line.first, line.dead_end)]
    return [ends[0], *(turn.redirect for turn in line.turns), ends[1]]


def _end(chain: Any) -> str:
    name: str = chain.point.name if chain.point else chain.redirect or chain.connectors[-1].name
    return name


def dig_free(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A load that is less deep in the ground resists less."""
    if finding.rule != "enough-pull":
        return
    load = shop.rig.stages[finding.check.where.stage].load
    at = f"{load.pointer}/ground/mired"
    depth = value_at(shop.data, at)
    deeper = _DEPTHS[: _DEPTHS.index(depth)] if depth in _DEPTHS else ()
    for less in reversed(deeper):
        words = _NOT_MIRED if less == "none" else _LESS_MIRED
        yield Proposal(words, (("load", load.name), ("depth", less)), (replace(at, less),))


def more_pickets(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A holdfast of more pickets, by the arrangements that manuals give a figure for."""
    at = f"{finding.check.where.pointer}/pickets/arrangement"
    own = value_at(shop.data, at)
    stronger = _ARRANGEMENTS[_ARRANGEMENTS.index(own) + 1 :] if own in _ARRANGEMENTS else ()
    for arrangement in stronger:
        terms = (("name", finding.check.where.name), ("arrangement", arrangement))
        yield Proposal("drive {name} as a {arrangement} holdfast", terms, (replace(at, arrangement),))


def same_rope(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Both pieces of a join of one rope; which piece of it, the crew must say."""
    stage = shop.rig.stages[finding.check.where.stage]
    joins = [join for line in stage.lines for join in line.joins]
    for join in (j for j in joins if j.pointer == finding.check.where.pointer):
        for piece, like in ((join.outer, join.inner), (join.inner, join.outer)):
            facts = {k: v for k, v in _facts(shop, like.pointer).items() if k not in ("length", "from_kit", "notes")}
            own = _facts(shop, piece.pointer)
            changes = [replace(piece.pointer, facts | {k: own[k] for k in ("length",) if k in own})]
            terms = (("piece", piece.name), ("like", like.name))
            yield Proposal("take {piece} of the same rope as {like}", terms, tuple(changes), need=True)


def _facts(shop: Workshop, pointer: str) -> dict[str, Any]:
    facts = value_at(shop.filled, pointer)
    return facts if isinstance(facts, dict) else {}


def fitting_seat(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A redirect with a groove or an opening for the rope that comes through it."""
    check, where = finding.check, finding.check.where
    if finding.rule != "groove-fit" or check.measured is None:
        return
    seat = where.name.rpartition(".")[2]
    at = f"{where.pointer}/{seat}"
    key = "opening" if seat == "bore" else "groove_for"
    wide = {"opening": "an opening for", "groove_for": "a groove for"}[key]
    rope_m = size_up(check.measured, shop.rig.reports_in)
    change = put(shop.filled, f"{at}/{key}", f"{number(rope_m)} m")
    terms = (("seat", where.name), ("wide", wide), ("rope", Value(rope_m, "m")))
    yield Proposal("{seat} needs {wide} rope of {rope}", terms, (change,), need=True)
