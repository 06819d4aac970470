"""Which layer on the drum the winch's pulls are for.

A winch pulls most on its first layer and up to three tenths less four layers up. A pull that doesn't
say its layer is half a figure: taken for the first it promises too much on the others,
taken for the last it hides what the first can break.

How it is judged: the rated pull and its layer must be stated. A layer above those that
fit under the drum's flange is a slip. The figures that are reckoned without the layer
take the adverse one each time: the first for what the winch gives, the outermost for what
it can break.

    pull_on_layer = pull_on_first / (1 + growth * (layer - 1))

SAE J706 asks for the pull at the first layer and at the full drum on the plate (read
second hand); tables by layer are in TM 9-2320-279-10-2 (read).

What to do: read the plate or the manual, and state `rated_layer`.

Worked example: pull on the fifth layer by that table's growth of 0.1008 a layer.
first = 20000 lbf; growth = 0.1008; fifth = first / (1 + growth * 4) = 14253 lbf
"""

from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_most, holds
from riglint.solve.rope import stages

_BASIS = Basis("standard", "pull is stated by layer", "sae-j706", "rating plate", "winching", "read second hand")

_STATED = Words(
    "", "the winch's pull is stated for a layer", "the layer that the winch's pull is for isn't stated", "",
    "Read it off the plate or in the manual",
)  # fmt: skip
_WORDS = Words(
    "the winch's pull is stated for {measured} of rope, and only {limit} fit on the drum",
    "the winch's pull is stated for a layer that fits on the drum",
    "whether the drum has the layer that the winch's pull is stated for can't be told",
    "Check `rated_layer` and the drum's measures",
)


@rule(
    title="Layer that the winch is rated for", grade=Grade.CAUTION, guards="drum", basis=(_BASIS,),
    worse=Worse.by(higher="winch/rated_layer lines/*/pieces/*/diameter", lower="winch/drum/flange",
                   taken_away="winch/rated_layer winch/rated_pull"),
)  # fmt: skip
def rated_layer(solution: Solution, limits: Limits) -> Checks:
    stage = next(stages(solution), None)
    if stage:
        yield _stated(stage)


def _stated(stage: StageSolution) -> Check:
    winch = stage.stage.winch
    facts, where = winch.facts, Where("winch", "winch", winch.pointer)
    keys = (("rated_pull", facts.rated_pull), ("rated_layer", facts.rated_layer))
    missing = tuple(f"{winch.pointer}/{key}" for key, stated in keys if stated is None)
    fits = next((s.drum.fits for s in stage.stations if s.drum), None)
    if missing or fits is None or facts.rated_layer is None:
        return holds(True, where, _STATED, missing=missing)
    return at_most(float(facts.rated_layer), float(fits), "layers", where, _WORDS)
