"""The chains of connectors that a stage loads, and what stands at either end of each. For rules."""

from collections.abc import Iterator
from typing import NamedTuple

from riglint.rig.model import Chain, Connector, Line, Redirect
from riglint.solve.kept import kept
from riglint.solve.solution import StageSolution


class Hung(NamedTuple):
    """A chain in use: what it holds, a redirect or the end of a line."""

    chain: Chain
    redirect: Redirect | None
    line: Line | None


class Link(NamedTuple):
    """A connector in use with its neighbours: towards the gear, and towards what holds it all."""

    connector: Connector
    before: Connector | None
    beyond: Connector | None
    hung: Hung


def hung(stage: StageSolution) -> Iterator[Hung]:
    """Every chain that carries load: of the redirects in use, then of the lines' ends."""
    loaded = {c.name for c in stage.components if c.kind == "redirect"}
    for redirect in stage.stage.redirects.values():
        if redirect.hanger and redirect.name in loaded:
            yield Hung(redirect.hanger, redirect, None)
    for line in stage.stage.lines:
        for chain in (line.first, line.dead_end):
            if chain:
                yield Hung(chain, None, line)


@kept
def links(stage: StageSolution) -> tuple[Link, ...]:
    """Every connector in use, once for each chain that it is in."""
    return tuple(
        Link(connector, row[i - 1] if i else None, row[i + 1] if i + 1 < len(row) else None, one)
        for one in hung(stage) for row in (one.chain.connectors,) for i, connector in enumerate(row)
    )  # fmt: skip
