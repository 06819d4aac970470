"""One piece of gear can't be in two places of a rig at once."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.reading.document import Document
from riglint.reading.problems import Problem
from riglint.rig.model import Chain, KitFacts, Rig, RigStage


def used_twice(rig: Rig, document: Document) -> list[Problem]:
    """Gear that stands in two places of one stage, by its number or, of one kind, by its serial."""
    problems: dict[str, Problem] = {}
    for stage in rig.stages:
        seen: dict[tuple[str, str], KitFacts] = {}
        for pointer in dict.fromkeys(_in_use(stage)):
            facts = rig.kit.get(pointer)
            if facts is None:
                continue
            for first in [seen.setdefault(mark, facts) for mark in _marks(facts)]:
                if first is not facts:
                    problems.setdefault(pointer, _problem(first, facts, pointer, document))
    return list(problems.values())


def _marks(facts: KitFacts) -> Iterator[tuple[str, str]]:
    yield "number", facts.gear
    if facts.serial:
        yield facts.what, facts.serial


def _problem(first: KitFacts, facts: KitFacts, pointer: str, document: Document) -> Problem:
    what = f"`{first.name}` is {first.gear}, too: one piece of gear in two places"
    serves = "name other gear here"
    if first.gear != facts.gear:
        what = f"{facts.gear} has the serial of {first.gear}, which is `{first.name}`: one piece of gear in two places"
        serves = "name other gear here, or mend the kit"
    return document.problem(f"{pointer}/from_kit", what, serves)


def _in_use(stage: RigStage) -> Iterator[str]:
    """The places of all that is rigged in a stage."""
    yield stage.winch.pointer
    yield stage.winch.mount.pointer
    chains = [chain for line in stage.lines for chain in (line.first, line.dead_end)]
    turned = [turn.redirect for line in stage.lines for turn in line.turns]
    seen: set[str] = set()
    for line in stage.lines:
        yield from (piece.pointer for piece in line.pieces)
        yield from (join.pointer for join in line.joins)
    while turned or chains:
        chain = chains.pop(0) if chains else None
        if chain:
            yield from _of_chain(chain)
            turned += [chain.redirect] if chain.redirect else []
        elif turned and (name := turned.pop(0)) not in seen:
            seen.add(name)
            yield stage.redirects[name].pointer
            chains.append(stage.redirects[name].hanger)


def _of_chain(chain: Chain) -> Iterator[str]:
    yield from (connector.pointer for connector in chain.connectors)
    if chain.point:
        yield chain.point.pointer
    yield from (arm.point.pointer for arm in chain.arms)
