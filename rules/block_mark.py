"""What a block's mark for the line asks of its head and of the shackle that it hangs by.

A single-sheave block is marked for the pull in the line. Both parts pull on its head, so
with parallel parts the head and its shackle carry twice the mark. A shackle picked by
the number on the block is then half of what it must be.

How it is judged: by the included angle of the two parts where it is least, and the mark.
Where the winch can't put so much in that line, the rule on working loads says what comes
on the shackle, and this one is silent. The head, where it has
a rating of its own, and the first shackle, hook, link or swivel of the hanger must be good
for

    needed = line_pull * 2 cos(included / 2)

The lifting codes (LR ch. 8 s. 3.1.5 and 5.1; ILO dock work, appendix H.2) ask for twice
the mark whatever the angle and the winch; here angle and winch are planned, so they count.
It is a NOTICE: the rule on working loads says how grave the load is.

What to do: fit a shackle of twice the block's mark, or mark the hanger's limit on the block.

Worked example: a block marked 60 kN for the line, its parts at 60 degrees.
mark = 60 kN; factor = 1.732; needed = mark * factor = 103.9 kN
"""

from math import inf

from riglint.mechanics.angles import redirect_factor
from riglint.mechanics.capacity import block_resultant_rating_n
from riglint.mechanics.provenance import ILO_DOCK_WORK, LR_LIFTING_CODE
from riglint.outcome import Formula
from riglint.rig.model import Redirect
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, place, rule
from riglint.rulebook.judge import More, Words, at_least, exceeds

_LR = Basis("standard", "a shackle on a single-sheave block is good for twice its mark", LR_LIFTING_CODE,
            "ch. 8 s. 5.1.1-2", "lifting", "read")  # fmt: skip
_ILO = Basis("standard", "the head fitting is good for twice the mark", ILO_DOCK_WORK, "App. H.2", "lifting", "read")
_NEEDED = Formula("needed", "line_pull * 2 * cos(included / 2)", (("line_pull", "N"), ("included", "rad")), "N")
_WORDS = Words(
    "{component} may carry {measured}; within its mark, block {block} can put {limit} on it",
    "{component} is good for what block {block} can put on it within its mark",
    "whether {component} is good for what block {block} can put on it can't be told",
    "Hang block {block} by one of at least {limit}, or of twice its mark")  # fmt: skip
_HARDWARE = ("bow shackle", "dee shackle", "hook", "link", "swivel")


@rule(
    title="A block's mark and what it hangs by", grade=Grade.NOTICE, guards="redirects", basis=(_LR, _ILO), once=True,
    worse=Worse.by(lower="connectors/*/working_load redirects/*/head/rated",
                   taken_away="connectors/*/working_load+breaking redirects/*/sheave/rated_for"))  # fmt: skip
def block_mark(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        if stage.stations:
            for redirect in stage.stage.redirects.values():
                if redirect.facts.kind == "block" and redirect.facts.sheaves == 1:
                    yield from _block(stage, redirect)


def _block(stage: StageSolution, block: Redirect) -> Checks:
    sheave = block.facts.sheave
    turns = [t for station in stage.stations for t in station.turns if t.turn.redirect == block.name]
    if sheave is None or sheave.rated is None or sheave.rated_for == "resultant" or not turns:
        return
    terms = (("block", block.name),)
    missing = () if sheave.rated_for else (place(block.pointer, "rated_for of its sheave"),)
    included = min(t.included_rad for t in turns)
    line_n = sheave.rated.high
    if not stage.missing["stall"] and not exceeds(max(t.line_n.get("stall", inf) for t in turns), line_n):
        return
    needed = 0.5 * block_resultant_rating_n(line_n, "line") * redirect_factor(included)
    more: More = {"missing": missing, "terms": terms, "working": (_NEEDED.step(needed, line_n, included),)}
    head = block.facts.head
    if head and head.rated:
        where = Where("seat", f"{block.name}.head", f"{block.pointer}/head", "", stage.stage.index)
        yield at_least(None if missing else head.rated.low, needed, "N", where, _WORDS, **more)
    first = next(iter(block.hanger.connectors if block.hanger else ()), None)
    if first and first.facts.kind in _HARDWARE and (first.facts.working_load or not first.facts.breaking):
        mark = first.facts.working_load
        if mark is None:
            more["missing"] = (*missing, place(first.pointer, "working_load or breaking"))
        where = Where("connector", first.name, first.pointer, "", stage.stage.index)
        yield at_least(None if missing or mark is None else mark.low, needed, "N", where, _WORDS, **more)
