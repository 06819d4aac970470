"""Parts of line: one more, through a redirect that is spare or in the kit; or one fewer."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from riglint.outcome import Finding
from riglint.remedy.model import Proposal
from riglint.remedy.patch import Operation, add, put, remove, replace, value_at
from riglint.remedy.ways.gear import in_use, strength
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Chain, Point, RigStage

_MOST_ENDS = 6


class _Spare(NamedTuple):
    """A redirect with room: its word in a path, what has to change for it, and what to call it."""

    word: str
    changes: tuple[Operation, ...]
    says: str


def one_more(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """The dead end becomes a redirect, and the line goes back to the other side."""
    stage = shop.rig.stages[finding.check.where.stage]
    at = _path_at(stage)
    path = value_at(shop.data, at)
    end = stage.haul.dead_end.point
    if end is None or not isinstance(path, list) or stage.others:
        return
    ends = _ends(stage, on_load=not end.body.moves)
    for spare in _spares(shop, stage, path, on_load=end.body.moves):
        for new_end in ends:
            whole = [*path[:-1], spare.word, new_end.name]
            terms = (("redirect", spare.says), ("end", new_end.name))
            words = "rig one part more: the line round {redirect}, its end on {end}"
            yield Proposal(words, terms, (*spare.changes, replace(at, whole)), guards=(new_end.pointer,))


def _path_at(stage: RigStage) -> str:
    return f"{stage.haul.pointer}/path"


def _ends(stage: RigStage, *, on_load: bool) -> list[Point]:
    """Points for the new dead end: those that gear is on already come first, since they are known to be good."""
    used = [chain.point.name for chain in _chains(stage) if chain.point]
    points = [p for p in stage.points.values() if p.body.moves == on_load and p.facts.kind != "winch mount"]
    return sorted(points, key=lambda p: (-used.count(p.name), p.name))[:_MOST_ENDS]


def _chains(stage: RigStage) -> list[Chain]:
    return [r.hanger for r in stage.redirects.values() if r.hanger] + [stage.haul.dead_end]


def _spares(shop: Workshop, stage: RigStage, path: list[Any], *, on_load: bool) -> Iterator[_Spare]:
    chain = path[-1] if isinstance(path[-1], list) else [path[-1]]
    turns = [turn.redirect for line in stage.lines for turn in line.turns]
    for redirect in stage.redirects.values():
        seat = next((s for s in ("sheave", "bore", "groove") if redirect.facts.seat(s)), "")
        there = redirect.hanger.point.body.moves if redirect.hanger and redirect.hanger.point else None
        if not seat or turns.count(redirect.name) >= redirect.facts.sheaves or turns[-1:] == [redirect.name]:
            continue
        word = f"{redirect.name}.{seat}"
        if there == on_load:
            yield _Spare(word, (), redirect.name)
        elif redirect.name not in turns:
            hang = put(shop.data, f"{redirect.pointer}/hung_from", chain)
            yield _Spare(word, (hang,), redirect.name)
    yield from _of_kit(shop, chain)


def _of_kit(shop: Workshop, chain: list[str]) -> Iterator[_Spare]:

    used, kit = in_use(shop.data), shop.kit
    gear = [g for g in kit.gear.values() if g.kind == "redirect" and g.number not in used] if kit else []
    for one in sorted((g for g in gear if not g.record.retired), key=lambda g: (strength(g.written), g.number)):
        seat = next((s for s in ("sheave", "bore", "groove") if s in one.written), "")
        name = _free_name(shop.data, "further_redirect")
        entry = {"from_kit": one.number, "hung_from": chain}
        change = add(f"/redirects/{name}", entry) if "redirects" in shop.data else add("/redirects", {name: entry})
        if seat:
            yield _Spare(f"{name}.{seat}", (change,), f"{one.number} of the kit")


def _free_name(data: Any, wanted: str) -> str:
    taken = {name for key in ("points", "redirects", "connectors") for name in data.get(key, {})}
    names = [wanted, *(f"{wanted}_{i}" for i in range(2, 1000))]
    return next(name for name in names if name not in taken)


def one_fewer(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """The last redirect comes out, and the line is made fast where that hung."""
    stage = shop.rig.stages[finding.check.where.stage]
    at = _path_at(stage)
    path, turns = value_at(shop.data, at), stage.haul.turns
    if not turns or not isinstance(path, list) or stage.others or shop.data.get("stages"):
        return
    redirect = stage.redirects[turns[-1].redirect]
    chain = value_at(shop.data, f"{redirect.pointer}/hung_from")
    if not isinstance(chain, list):
        return
    end = chain[0] if len(chain) == 1 else chain
    changes = [replace(at, [*path[:-2], end])]
    if sum(turn.redirect == redirect.name for turn in turns) == 1:
        changes.append(remove(redirect.pointer))
        terms = (("redirect", redirect.name), ("end", chain[-1]))
        yield Proposal("rig one part fewer: leave {redirect} out, the line's end on {end}", terms, tuple(changes))
