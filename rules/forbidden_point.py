"""A point that must never be used for recovery.

A towing ball is made for the weight of a trailer's nose. In a recovery it shears off, and people have been
killed by a ball through a windscreen. A tie-down point keeps a parked vehicle on a ship or a lorry; the
standard that it is made by covers lifting and tie-down, not towing (MIL-STD-209). Neither becomes fit by being
rated for what it is meant for.

A point whose kind isn't stated can't be told; the winch's own mount is known to be one.

No equation.

What to do: a rated recovery point or tow eye, the drawbar's pin hole in place of the ball, or a strap round the
frame or an axle.

Worked example: a ball is made for trailers of 3.5 t, and a truck of 6 t is mired to the hub.
made_for = 3.5 t; asked = 6 t; use = asked / made_for = 1.71
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Worse, place, rule
from riglint.rulebook.judge import Words, here, holds
from riglint.solve.worst import points

_BALL = Basis("common practice", "a towing ball is never used for recovery")
_TIE_DOWN = Basis("standard", "covers lifting and tie-down, not towing", "mil-std-209", "5.2", "lifting", "read")
_NEVER = {"towing ball": "a towing ball, which shears off", "tie-down point": "a tie-down point, not made for towing"}
_WORDS = Words(
    "{component} is {what}: never to be used for recovery", "{component} is {what}",
    "what {component} is can't be told", "Make fast to a rated recovery point, a tow eye or round the frame",
)  # fmt: skip


@rule(
    title="Points never to be used for recovery", grade=Grade.DANGER, guards="anchors", basis=(_BALL, _TIE_DOWN),
    worse=Worse.by(taken_away="points/*/kind"),
)  # fmt: skip
def forbidden_point(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component, point in points(stage):
            kind = point.facts.kind or ("winch mount" if point is stage.stage.winch.mount else None)
            missing = () if kind else (place(point.pointer, "kind"),)
            terms = (("what", _NEVER.get(str(kind), str(kind))),)
            true = kind not in _NEVER if kind else None
            yield holds(true, here(stage, component), _WORDS, missing=missing, terms=terms)
