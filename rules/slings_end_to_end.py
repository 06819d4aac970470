"""Slings and straps joined end to end.

Two slings looped into each other cut each other where they cross, the thinner or the
newer one first; a choked loop takes a good part of their strength, and nobody has tested
that joint.

How it is judged: where two slings, straps or strops follow each other in a chain, a
shackle or a link must lie between them. A wire sling with thimbles in both eyes may be
joined to another by a shackle, never eye in eye.

Source: DOE-STD-1090, 11.3.2.3.b (slings are not spliced together; end to end only through
thimble eyes), for critical lifts; lifting, and no source for winching says otherwise. No
equation.

What to do: put a shackle between them, or use one sling that is long enough.

Worked example: three slings in a row need two shackles.
slings = 3; shackles = slings - 1 = 2
"""

from riglint.mechanics.provenance import DOE_1090
from riglint.rig.model import Connector
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.hangers import links
from riglint.solve.ratings import SLINGS

_BASIS = Basis("standard", "slings end to end only through thimble eyes", DOE_1090, "11.3.2.3.b", "lifting", "read")
_WORDS = Words(
    "{name} is looped straight into {other}: they cut each other",
    "{name} and {other} are not looped into each other",
    "whether {name} is looped straight into {other} can't be told",
    "Put a shackle between {name} and {other}, or use one that is long enough",
)
_LOOPED = SLINGS - {"chain"}


@rule(
    title="Slings joined end to end", grade=Grade.CAUTION, guards="connectors", basis=(_BASIS,), once=True,
    worse=Worse.by(taken_away="connectors/*/kind"),
)  # fmt: skip
def slings_end_to_end(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for link in links(stage) if stage.stations else ():
            if link.beyond:
                yield from _pair(stage, link.connector, link.beyond)


def _pair(stage: StageSolution, first: Connector, second: Connector) -> Checks:
    pair = (first, second)
    slings = [c.facts.kind in _LOOPED for c in pair]
    unknown = [c for c in pair if c.facts.kind is None]
    if not any(slings) and len(unknown) < 2:
        return
    where = Where("connector", first.name, first.pointer, "", stage.stage.index, related=((second.pointer, "other"),))
    missing = tuple(place(c.pointer, "kind") for c in unknown)
    yield holds(None if missing else not all(slings), where, _WORDS, missing=missing, terms=(("other", second.name),))
