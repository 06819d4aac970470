"""Who holds whom: the rig's chains as names, for lists that people go round with."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from riglint.report.words import listed
from riglint.rig.model import Chain, Connector, Line, RigStage


class Held(NamedTuple):
    """A connector in use, with what it hangs between."""

    connector: Connector
    begins: str
    ends: str


def chains(stage: RigStage) -> Iterator[tuple[str, Chain]]:
    """Every chain with the name of what it holds, lines first."""
    for line in stage.lines:
        if line.first:
            yield line.name, line.first
        yield line.name, line.dead_end
    for redirect in stage.redirects.values():
        if redirect.hanger:
            yield redirect.name, redirect.hanger


def end_of(chain: Chain) -> str:
    """What a chain is made fast to, by name."""
    if chain.point:
        return chain.point.name
    return chain.redirect or listed(arm.point.name for arm in chain.arms)


def held(stage: RigStage) -> Iterator[Held]:
    """Every connector in use, once, in the order in which somebody walks the rig."""
    seen: set[str] = set()
    for name, chain in chains(stage):
        stations = [name, *(connector.name for connector in chain.connectors), end_of(chain)]
        for connector, begins, ends in zip(chain.connectors, stations, stations[2:], strict=False):
            if connector.name not in seen:
                seen.add(connector.name)
                yield Held(connector, begins, ends)


def points_used(stage: RigStage) -> list[str]:
    """Names of the points that something is made fast to, as the plan orders them; the winch's mount is not one."""
    used = {chain.point.name for _, chain in chains(stage) if chain.point}
    used |= {arm.point.name for _, chain in chains(stage) for arm in chain.arms}
    return [name for name in stage.points if name in used]


def legs(line: Line) -> list[tuple[str, str]]:
    """What stands at both ends of each leg, from the line's first end; several between the same two count once."""
    first = end_of(line.first) if line.first else "winch"
    all_legs = pairwise([first, *(turn.redirect for turn in line.turns), end_of(line.dead_end)])
    return list({frozenset(leg): leg for leg in reversed(list(all_legs))}.values())[::-1]
