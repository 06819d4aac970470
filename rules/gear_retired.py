"""No gear is used that the kit says was taken out of use.

Gear is retired because somebody found it unfit. It finds its way back: out of the scrap box, off a nail, into the
lorry in a hurry. A retired shackle looks like any other.

How it is judged: what the kit says under `retired`. Gear that is said to be in use, or that has an inspection on
record, passes. Where the kit says neither, nobody has written down whether it is in use, and that is a CAUTION.

No equation.

What to do: take other gear, and cut up or mark what was retired.

Worked example: a lorry's kit lists 40 pieces of gear, of which 3 were retired.
listed = 40; retired = 3; in_use = listed - retired = 37
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, rule
from riglint.rulebook.judge import Words, holds

_BASIS = Basis("common practice", "gear that was taken out of use stays out of use")
_WORDS = Words(
    "{component} is {gear}, which was taken out of use: {reason}",
    "{component} is {gear}, which is in use",
    "whether {component}, which is {gear}, is in use can't be told",
    "Take other gear, and mark or destroy {gear}", "Look {gear} over and write `retired: false` into the kit, or why",
)  # fmt: skip


@rule(title="Gear taken out of use", grade=Grade.WARNING, guards="paper", basis=(_BASIS,))
def gear_retired(solution: Solution, limits: Limits) -> Checks:
    for pointer, gear in solution.rig.kit.items():
        where = Where(gear.kind, gear.name, pointer)
        terms = (("gear", gear.gear), ("reason", gear.retired or ""))
        if gear.retired is None and gear.inspected is None:
            missing = (f"{gear.gear}: whether it is in use, in the kit",)
            yield holds(None, where, _WORDS, missing=missing, terms=terms, grade=Grade.CAUTION)
        else:
            yield holds(not gear.retired, where, _WORDS, terms=terms)
