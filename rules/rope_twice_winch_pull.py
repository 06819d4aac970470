"""Rope of at least twice what the winch can pull.

The winch is the one thing that can always put its whole pull into the line. Rope that is
weaker than that breaks whenever the load does not move.

How it is judged: the breaking strength of each piece of the hauling line against twice
the most that the winch can pull over the travel. Below twice is a CAUTION; where the pull
is past three quarters of the strength, at which fibre is damaged for good (NAVEDTRA
14160), a DANGER. Only rope that is marked with a working load is judged here: by that
mark it may pass, and yet be weak for its winch. Rope without a mark is held against twice
its load at stall by `working-load`, which this rule does not say again.

    breaking >= times * stall

Guidance for mooring and towing gear asks for it (MGN 308: a rope of 20 t for a winch of
10 t, the stall well below half of the weakest element). Regulation for well servicing
asks for 3 times the load of wire (Wyoming OSHA): the rule on working loads holds the pull
as expected against that.

What to do: stronger rope, or a winch that stalls sooner; or two parts, and a stop at half
the pull.

Worked example: a winch that stalls at 60 kN on its first layer.
stall = 60 kN; times = 2; breaking = 115 kN; use = times * stall / breaking = 1.043
"""

from riglint.outcome import Formula, Value, Where
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, exceeds
from riglint.rulebook.loads import graded
from riglint.solve.rope import stages

_BASIS = Basis("handbook", "rope breaks at 2 times the winch's pull", "mgn-308", "2.1", "mooring", "read second hand")

_ASKED = Formula("asked", "times * line_pull", (("times", "1"), ("line_pull", "N")), "N")
_WORDS = Words(
    "{name} breaks at {measured}; the winch can pull {pull}, and rope wants {limit} for that",
    "{name} breaks at {measured}, and the winch can pull {pull}",
    "whether {name} is strong enough for the winch can't be told",
    "Use stronger rope, or set the winch to stall sooner")  # fmt: skip
_WEAKER = _WORDS._replace(fails="{name} breaks at {measured}, and the winch alone can pull {pull}")


@rule(
    title="Rope for the winch", grade=Grade.CAUTION, guards="line", basis=(_BASIS,),
    limits=(Limit("times", 2.0, "1", "rope's breaking strength over the winch's most pull", _BASIS, "lower"),),
    worse=Worse.by(higher="winch/stall_pull", lower="lines/*/pieces/*/breaking",
                   taken_away="lines/*/pieces/*/breaking winch/stall_pull"))  # fmt: skip
def rope_twice_winch_pull(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        if stage.stage.works == "hauling":
            yield from _stage(stage, limits["times"])


def _stage(stage: StageSolution, times: float) -> Checks:
    peak = stage.peaks["stall"].get(("winch", "winch"))
    pull = peak.load_n if peak else None
    travel_m = stage.stations[peak.station].travel_m if peak else None
    for piece in stage.stage.haul.pieces:
        if piece.facts.working_load is None:
            continue
        breaking = piece.facts.breaking.low if piece.facts.breaking else None
        missing = stage.missing["stall"] + (() if breaking else (place(piece.pointer, "breaking"),))
        where = Where("piece", piece.name, piece.pointer, "stall", stage.stage.index, travel_m)
        weaker = pull is not None and breaking is not None and exceeds(pull, breaking)
        yield at_least(
            breaking, None if pull is None else times * pull, "N", where, _WEAKER if weaker else _WORDS,
            missing=missing, terms=() if pull is None else (("pull", Value(pull, "N")),), measure="breaking strength",
            working=() if pull is None else (_ASKED.step(times * pull, times, pull),),
            grade=Grade.DANGER if pull and breaking and graded(pull, None, breaking) is Grade.DANGER else None,
        )  # fmt: skip
