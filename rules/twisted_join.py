"""A twisted join is never loaded.

Two loops drawn into each other hold because all four legs pull alike. Turn one loop half
way round and the legs cross in the knot: two of them carry nearly everything and cut into
the others. Half a turn takes most of the strength, and the join shows nothing of it until
it parts.

How it is judged: any join that is stated as twisted fails, and a loop-to-loop join whose
legs cross, or whose square knot has collapsed into a cow hitch. A loop-to-loop join
passes only when the plan says that its legs are parallel and that it has no twist:
somebody has to have looked.

No published test of twisted loop-to-loop joins was found: this is common practice, and it
is strict.

No equation.

What to do: take the load off, open the join, lay the loops with parallel legs and no
twist, and dress it under a little tension before it is loaded.

Worked example: what is left of a join that keeps 85 % with parallel legs, if two of four legs carry everything.
keeps = 0.85; legs = 2; of = 4; left = keeps * legs / of = 0.425
"""

from riglint.rig.model import Join
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.joint import is_set_wrong
from riglint.solve.rope import ropes

_BASIS = Basis("common practice", "a twisted join is never loaded; loops are set with parallel legs", scope="winching")
_TWIST = Words(
    "{name} is twisted ({twist}), which takes most of its strength",
    "{name} has parallel legs and no twist",
    "nobody says that {name} has parallel legs and no twist",
    "Take the load off, open {name}, and set it again with parallel legs and no twist",
    "Look at the join and state its `set` and its `twist`",
)
_SET = Words(
    "{name} is set with {set}: part of its legs carry everything",
    "{name} has parallel legs and no twist",
    remedy="Take the load off, open {name}, and set it again with parallel legs",
)


@rule(
    title="Twisted join", grade=Grade.DANGER, guards="line", basis=(_BASIS,),
    worse=Worse.by(taken_away="lines/*/pieces/*/set lines/*/pieces/*/twist"),
)  # fmt: skip
def twisted_join(solution: Solution, limits: Limits) -> Checks:
    for rope in ropes(solution):
        for join in rope.joins:
            yield from _join(join, Where("join", join.name, join.pointer, "", rope.stage.stage.index))


def _join(join: Join, where: Where) -> Checks:
    facts, loops = join.facts, join.facts.kind.startswith("loop-to-loop")
    if facts.twist not in (None, "none"):
        yield holds(False, where, _TWIST, terms=(("twist", facts.twist or ""),))
    elif loops and is_set_wrong(join):
        yield holds(False, where, _SET, terms=(("set", facts.set or ""),))
    elif loops:
        keys = (("set", facts.set), ("twist", facts.twist))
        yield holds(
            True, where, _TWIST, missing=tuple(place(join.pointer, key) for key, stated in keys if stated is None)
        )
