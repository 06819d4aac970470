"""Steel in the way of a synthetic line that is freed when something fails.

Synthetic line that parts has little weight of its own. A shackle or a link made fast in
the middle of it, or a hook at its end, is thrown with it.

How it is judged: a join by a shackle or a swaged link between two pieces of fibre rope is
a WARNING: whichever piece parts takes it along. A hook at the end of a fibre line is a
NOTICE: it leaves its point by itself when the line goes slack. A shackle at a line's end
is usual practice, and stays at its point while that holds.

Common practice, no source; no equation.

What to do: join the pieces loop to loop, by a splice or a soft shackle; make the end fast
with a shackle instead of a hook.

Worked example: a 0.6 kg shackle thrown at 60 m/s.
mass = 0.6 kg; speed = 60 m/s; energy = mass * speed ** 2 / 2 = 1080 J
"""

from riglint.rig.model import Join, Line
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds

_BASIS = Basis("common practice", "no steel in a synthetic line that would be thrown with it")
_STEEL = ("shackle", "swaged link")
_JOIN = Words(
    "the {kind} of {name} is thrown with whichever piece of the synthetic line parts",
    "{name} puts no steel into the synthetic line",
    "whether the {kind} of {name} sits in a synthetic line can't be told",
    "Join the pieces loop to loop, by a splice or by a soft shackle")  # fmt: skip
_HOOK = Words(
    "hook {name} is at the end of a synthetic line; it leaves its point when the line goes slack",
    "no hook is at the end of the synthetic line",
    remedy="Make that end fast with a shackle")  # fmt: skip


@rule(
    title="Steel in a synthetic line", grade=Grade.WARNING, guards="connectors", basis=(_BASIS,), once=True,
    worse=Worse.by(taken_away="lines/*/pieces/*/rope"))  # fmt: skip
def steel_in_path(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for line in stage.stage.lines if stage.stations else ():
            for join in line.joins:
                yield from _join(stage, join)
            if all(piece.facts.rope and not piece.facts.rope.startswith("wire") for piece in line.pieces):
                yield from _ends(stage, line)


def _join(stage: StageSolution, join: Join) -> Checks:
    ropes = [piece.facts.rope for piece in (join.inner, join.outer)]
    if any(rope and rope.startswith("wire") for rope in ropes):
        return
    where = Where("join", join.name, join.pointer, "", stage.stage.index)
    steel = join.facts.kind in _STEEL
    lacks = [piece for piece in (join.inner, join.outer) if steel and piece.facts.rope is None]
    missing = tuple(place(piece.pointer, "rope") for piece in lacks)
    yield holds(None if lacks else not steel, where, _JOIN, missing=missing, terms=(("kind", join.facts.kind),))


def _ends(stage: StageSolution, line: Line) -> Checks:
    for chain in (line.first, line.dead_end):
        first = chain.connectors[0] if chain and chain.connectors else None
        if first and first.facts.kind is not None:
            where = Where("connector", first.name, first.pointer, "", stage.stage.index)
            yield holds(first.facts.kind != "hook", where, _HOOK, grade=Grade.NOTICE)
