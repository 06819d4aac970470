"""Rope: a longer extension, or less of it on the drum."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.outcome import Finding, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import add, remove, replace, value_at
from riglint.remedy.quantity import length, metres_of
from riglint.remedy.ways.gear import in_use, strength
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Piece, RigStage

_MORE_M = (0.0, 1.0, 2.0, 4.0, 8.0)
_LESS = (0.95, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4)


def longer(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A longer last piece, as much as is short and a little more."""
    piece = _haul(shop, finding).pieces[-1]
    old = metres_of(value_at(shop.data, f"{piece.pointer}/length"))
    short = _short_m(finding)
    if old is None or short is None or piece.facts.from_kit:
        return
    for more in _MORE_M:
        text, exact = length(old + short + more, shop.rig.reports_in, up=True, step=1.0)
        terms = (("piece", piece.name), ("old", Value(old, "m")), ("new", Value(exact, "m")))
        yield Proposal("take {piece} of {new} in place of {old}", terms, (replace(f"{piece.pointer}/length", text),))


def other(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A longer piece of the kit in the last one's place: it brings no join."""
    if shop.kit is None or _short_m(finding) is None:
        return
    piece, used = _haul(shop, finding).pieces[-1], in_use(shop.data)
    own, facts = value_at(shop.data, piece.pointer), value_at(shop.filled, piece.pointer)
    if not isinstance(own, dict) or not isinstance(facts, dict):
        return
    ropes = [g for g in shop.kit.gear.values() if g.kind == "piece" and g.number not in used and not g.record.retired]
    longer_ones = [g for g in ropes if _kit_m(g.written) > (metres_of(facts.get("length")) or 0.0)]
    for gear in sorted(longer_ones, key=lambda g: (_kit_m(g.written), strength(g.written), g.number)):
        kept = {"notes": own["notes"]} if "notes" in own else {}
        terms = (("gear", gear.number), ("piece", piece.name))
        change = replace(piece.pointer, {"from_kit": gear.number} | kept)
        yield Proposal("take {gear} of the kit in place of {piece}", terms, (change,))


def further(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A further piece from the kit behind the last one, joined loop to loop."""
    kit, stage = shop.kit, shop.rig.stages[finding.check.where.stage]
    at = _pieces_at(stage)
    pieces, used = value_at(shop.data, at), in_use(shop.data)
    if kit is None or not isinstance(pieces, list):
        return
    ropes = [g for g in kit.gear.values() if g.kind == "piece" and g.number not in used and not g.record.retired]
    for gear in sorted(ropes, key=lambda g: (_kit_m(g.written), strength(g.written), g.number)):
        name, join = (f"{word}_{len(pieces) // 2 + 1}" for word in ("further_piece", "further_join"))
        knot = {"kind": "loop-to-loop square knot", "set": "parallel legs", "twist": "none"}
        changes = (add(f"{at}/-", {join: knot}), add(f"{at}/-", {name: {"from_kit": gear.number}}))
        terms = (("gear", gear.number), ("last", _haul(shop, finding).pieces[-1].name))
        yield Proposal("put {gear} of the kit in behind {last}, joined loop to loop", terms, changes)


def _kit_m(facts: Any) -> float:
    return metres_of(facts.get("length")) or 0.0


def shorter(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """The extensions taken out, or a shorter piece on the drum."""
    stage = shop.rig.stages[finding.check.where.stage]
    line, at = stage.haul, _pieces_at(stage)
    pieces = value_at(shop.data, at)
    if isinstance(pieces, list) and len(pieces) > 2:
        last = len(pieces) - 1
        terms = (("piece", line.pieces[-1].name),)
        changes = (remove(f"{at}/{last}"), remove(f"{at}/{last - 1}"))
        yield Proposal("leave {piece} out", terms, changes)
    yield from _cut(shop, line.pieces[0])


def _cut(shop: Workshop, piece: Piece) -> Iterator[Proposal]:
    old = metres_of(value_at(shop.data, f"{piece.pointer}/length"))
    if old is None or piece.facts.from_kit:
        return
    for share in _LESS:
        text, exact = length(old * share, shop.rig.reports_in, up=False, step=1.0)
        if exact > 1.0:
            terms = (("piece", piece.name), ("old", Value(old, "m")), ("new", Value(exact, "m")))
            words = "wind {piece} of {new} on, in place of {old}"
            yield Proposal(words, terms, (replace(f"{piece.pointer}/length", text),))


def _haul(shop: Workshop, finding: Finding) -> Any:
    return shop.rig.stages[finding.check.where.stage].haul


def _pieces_at(stage: RigStage) -> str:
    return stage.haul.pieces[0].pointer.rpartition("/")[0].rpartition("/")[0]


def _short_m(finding: Finding) -> float | None:
    """By how much rope is short, as the finding says."""
    short = dict(finding.check.terms).get("short")
    return short.si if isinstance(short, Value) and short.unit == "m" else None
