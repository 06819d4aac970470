"""Parts that add next to nothing, since friction eats what they would pull.

Each redirect takes its share from the pull, so every further part pulls less than the
one before. There comes a part that costs rope, time and a loaded redirect for nothing:
and the winch's own leg is as tight as ever.

How it is judged: what each part that pulls on the load adds, in shares of the line pull,
with the losses at the top of what is stated.

    adds = product of (1 - loss) over the redirects between the winch and that part

A part that adds less than `worth` of the line pull is a NOTICE. The limit is common
practice, no source. Field manuals reckon 10 % of the load's resistance for each sheave,
which puts the end of what parts can give nearer still.

What to do: use rolling blocks instead of rings, or a second winch, or a smaller load.

Worked example: the fifth part of a tackle of rings of 20 % loss.
loss = 0.2; rings = 4; adds = (1 - loss) ** rings = 0.41
"""

from math import prod

from riglint.outcome import Formula, Where
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least
from riglint.solve.rope import stages

_BASIS = Basis("common practice", "a part that adds less than half the line pull isn't worth rigging")
_ADDS = Formula("adds", "before * ratio", (("before", "share"), ("ratio", "share")), "share")
_WORDS = Words(
    "behind {redirect} a part adds {measured} of the line pull; under {limit} it isn't worth rigging",
    "the part behind {redirect} adds {measured} of the line pull",
    "what the part behind {redirect} adds can't be told",
    "Use redirects that roll, or leave that part out",
)


@rule(
    title="A part that adds next to nothing", grade=Grade.NOTICE, guards="redirects", basis=(_BASIS,),
    limits=(Limit("worth", 0.5, "share", "least share of the line pull that a part adds", _BASIS, milder="lower"),),
    worse=Worse.by(higher="redirects/*/loss", taken_away="redirects/*/loss"),
)  # fmt: skip
def part_adds_nothing(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        if stage.stage.works == "hauling":
            yield from _parts(stage, limits["worth"])


def _parts(stage: StageSolution, worth: float) -> Checks:
    """The first part that adds too little, or the last one: those behind it add less still."""
    start, haul = stage.stations[0], stage.stage.haul.name
    legs = [leg for leg in start.legs if leg.line == haul and leg.pulls_load and leg.index > 0]
    if not legs:
        return
    turns = [t for t in start.turns if t.line == haul]
    ratios = [t.ratio_low if t.turn.loss else 1.0 for t in turns]
    adds = [prod(ratios[: leg.index]) for leg in legs]
    n = next((i for i, share in enumerate(adds) if share < worth), len(legs) - 1)
    index = legs[n].index
    last = turns[index - 1].turn
    redirect = stage.stage.redirects[last.redirect]
    untold = dict.fromkeys(t.turn.redirect for t in turns[:index] if t.turn.loss is None)
    missing = tuple(place(stage.stage.redirects[name].pointer, "loss") for name in untold)
    where = Where("redirect", redirect.name, redirect.pointer, "", stage.stage.index, start.travel_m)
    yield at_least(adds[n], worth, "share", where, _WORDS, missing=missing, terms=(("redirect", redirect.name),),
                   working=(_ADDS.step(adds[n], prod(ratios[: index - 1]), ratios[index - 1]),))  # fmt: skip
