"""Gear from the kit has its rating in the kit.

A kit is where ratings are kept, with whoever read them off the mark. Gear that has none there is either unmarked,
and unmarked gear carries nothing, or nobody has looked. A plan that rates such gear by itself puts a number to it
that the owner of the gear doesn't stand behind.

How it is judged: a working load, a rating or a breaking strength in the kit's entry passes; a block or ring has one
for each of its seats. Where the kit has none and the plan gives one, it fails; where neither does, it can't be
told what the gear may carry.

No equation.

What to do: read the mark, write it into the kit with its basis, or take gear that is marked.

Worked example: of a ring's 2 seats, groove and bore, the kit rates 1.
seats = 2; rated = 1; unrated = seats - rated = 1
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, rule
from riglint.rulebook.judge import Words, holds

_BASIS = Basis("common practice", "gear without a mark or rating on record is not used")
_REMEDY = "Write the rating of {gear} into the kit, with its basis, or take gear that is marked"
_WORDS = Words(
    "{component} is {gear}, which has no rating in the kit; the one in the plan has nothing behind it",
    "{component} is {gear}, which the kit rates",
    "what {component}, which is {gear}, may carry stands neither in the kit nor in the plan", _REMEDY, _REMEDY,
)  # fmt: skip
_HOLDS = {"kit": True, "plan": False, "nowhere": None}


@rule(title="Gear without a rating in the kit", grade=Grade.CAUTION, guards="paper", basis=(_BASIS,))
def gear_unrated(solution: Solution, limits: Limits) -> Checks:
    for pointer, gear in solution.rig.kit.items():
        where = Where(gear.kind, gear.name, pointer)
        missing = (f"{gear.gear}: its rating, in the kit",) if gear.rated == "nowhere" else ()
        yield holds(_HOLDS[gear.rated], where, _WORDS, missing=missing, terms=(("gear", gear.gear),))
