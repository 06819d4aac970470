"""Rope of unlike size or material in one line.

A line is as strong as its weakest piece, and a join of two sizes is weaker than one of
like sizes: the thin loop cuts into the thick one. Two materials stretch by different
amounts and wear each other; wire saws through fibre.

How it is judged: at each join, the thicker of the two pieces may be at most a tenth
thicker than the other, and both must be of one material. Wire is one material whatever
its core. The pieces' strengths are judged by other rules.

    unlike = thick / thin - 1

No published figure for the difference of size was found: a tenth is common practice,
about one step of rope sizes.

What to do: use pieces of one size and material, or let the join be a shackle or a thimble
on both sides.

Worked example: 11 mm rope joined to 12 mm rope.
thick = 12 mm; thin = 11 mm; unlike = thick / thin - 1 = 0.0909
"""

from riglint.rig.model import Join
from riglint.rulebook.author import Basis, Check, Checks, Formula, Grade, Limit, Limits, Solution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_most, holds
from riglint.solve.rope import is_wire, pieces_lack, ropes

_BASIS = Basis("common practice", "one line is made of one size and material of rope", scope="winching")

_UNLIKE = Formula("unlike", "thick / thin - 1", (("thick", "m"), ("thin", "m")), "share")
_SIZE = Words(
    "one of the two pieces at {name} is {measured} thicker than the other; at most {limit}",
    "the two pieces at {name} are of like size",
    "whether the two pieces at {name} are of like size can't be told",
    "Use pieces of one size, or join them with thimbles and a shackle")  # fmt: skip
_MATERIAL = Words(
    "{name} joins {inner} to {outer}",
    "{name} joins {inner} to {outer}",
    "whether {name} joins rope of one material can't be told",
    "Use pieces of one material, or keep fibre off wire with thimbles and a shackle")  # fmt: skip


@rule(
    title="Unlike rope in one line", grade=Grade.CAUTION, guards="line", basis=(_BASIS,),
    limits=(Limit("unlike", 0.1, "share", "by how much one piece may be thicker than the next", _BASIS, "higher"),),
    worse=Worse.by(taken_away="lines/*/pieces/*/rope lines/*/pieces/*/diameter"))  # fmt: skip
def mixed_rope(solution: Solution, limits: Limits) -> Checks:
    for rope in ropes(solution):
        for join in rope.joins:
            where = Where("join", join.name, join.pointer, "", rope.stage.stage.index)
            yield _material(join, where)
            yield _size(join, where, limits["unlike"])


def _material(join: Join, where: Where) -> Check:
    inner, outer = join.inner.facts.rope, join.outer.facts.rope
    if inner is None or outer is None:
        return holds(None, where, _MATERIAL, missing=pieces_lack(join, "rope"))
    alike = inner == outer or (is_wire(inner) and is_wire(outer))
    return holds(alike, where, _MATERIAL, terms=(("inner", inner), ("outer", outer)))


def _size(join: Join, where: Where, limit: float) -> Check:
    inner, outer = join.inner.facts.diameter, join.outer.facts.diameter
    if inner is None or outer is None:
        return at_most(None, limit, "share", where, _SIZE, missing=pieces_lack(join, "diameter"))
    thick, thin = max(inner.high, outer.high), min(inner.low, outer.low)
    unlike = thick / thin - 1.0
    return at_most(unlike, limit, "share", where, _SIZE, working=(_UNLIKE.step(unlike, thick, thin),))
