"""A join that stops just short of a fairlead or a seat.

A winch is never stopped on a mark: it runs on for a moment, the rope stretches and comes back, and a tape lies a
little. So a join that ends the pull a hand's breadth before a fairlead, a block or a ring is drawn in by any overrun,
and jams there as one does that the plan brings in.

    clear if gap >= overrun, gap = farther - nearer, of the ways to the dead end from the seat and from the join

How it is judged: along the rope at the end of the travel, for every join that comes nearer and doesn't get there; one
that does is judged by other rules. A splice may run in, and so may a join that the maker lets through. No source gives
a figure; 0.3 m is common practice.

What to do: end the pull sooner, or take another length of extension, so that the join stays clear by more.

Worked example: a join 24 m from the dead end, and a way of 24.2 m from the fairlead at the end.
way = 24.2 m; join = 24 m; gap = way - join = 0.2 m
"""

from riglint.outcome import Formula, Where
from riglint.rig.model import Join, Line
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, rule
from riglint.rulebook.judge import Words, at_least, holds
from riglint.solve.rope import join_lacks, stages
from riglint.solve.stops_short import least_gap

_BASIS = Basis("common practice", "a join stays clear of a seat by more than the winch may overrun", scope="winching")
_GAP = Formula("gap", "farther - nearer", (("farther", "m"), ("nearer", "m")), "m")
_WORDS = Words(
    "{name} ({kind}) stops {measured} short of {seat}, and an overrun brings it in; at least {limit} is asked for",
    "{name} ({kind}) stops {measured} short of {seat}", "",
    "End the pull sooner, or take another length of extension, so that {name} stays clear by {limit}")  # fmt: skip
_NOWHERE = Words("", "{name} ({kind}) comes to no fairlead or seat",
                 "how near {name} ({kind}) stops to a fairlead or seat can't be told")  # fmt: skip


@rule(
    title="Join that stops just short of a seat", grade=Grade.CAUTION, guards="line", basis=(_BASIS,),
    limits=(Limit("overrun", 0.3, "m", "least way from a join to a seat at the end of the travel", _BASIS, "lower"),),
    worse=Worse.by(taken_away="lines/*/pieces/*/length"))  # fmt: skip
def join_stops_short(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for line in stage.stage.lines:
            yield from (_join(stage, line, join, limits) for join in line.joins if join.facts.kind != "splice")


def _join(stage: StageSolution, line: Line, join: Join, limits: Limits) -> Check:
    where = Where("join", join.name, join.pointer, "", stage.stage.index, stage.stations[-1].travel_m)
    lacks, terms = join_lacks(stage, line, join), (("kind", join.facts.kind),)
    gap = None if lacks else least_gap(stage, line, join)
    if gap is None:
        return holds(True, where, _NOWHERE, missing=lacks, terms=terms)
    steps = (_GAP.step(gap.length_m, max(gap.way_m, gap.join_m), min(gap.way_m, gap.join_m)),)
    seen = (*terms, ("seat", gap.seat))
    return at_least(gap.length_m, limits["overrun"], "m", where, _WORDS, terms=seen, working=steps)
