"""A join that comes to the fairlead or lies on the drum.

A shackle in the fairlead stops the rope and breaks what it pulls on; on the drum it
crushes the rope below it and bends the wraps above. A knot does the same more softly, and
is drawn tight for good.

How it is judged: the shortest way from fairlead to dead end over the travel against the
join's distance to the dead end, at the far end of its lengths. If the join lies farther
out than that, it reaches the fairlead, or has been on the drum from the start. A splice
may be wound on and is left alone. A stop within 1 m of travel before that place that
names the join answers it, as it does at a redirect. A hard join is a WARNING, a soft one
a CAUTION.

    clear if join_to_dead_end <= shortest_way_to_dead_end

Common practice; no published clause was found.

What to do: end the pull before the join arrives; or stop, hold the load, and take the
extension out.

Worked example: an extension of 24 m, and a way of 25.3 m at the end of the travel.
join = 24 m; way = 25.3 m; use = join / way = 0.949
"""

from riglint.outcome import Where
from riglint.rig.model import Join
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, rule
from riglint.rulebook.judge import Words, at_most
from riglint.solve.rope import answer, join_lacks, stages

_BASIS = Basis("common practice", "joins stay off the drum and out of the fairlead under load", scope="winching")

_HARD = frozenset({"shackle", "soft shackle", "swaged link"})
_WORDS = Words(
    "{name} ({kind}) is {measured} from the dead end and the way gets as short as {limit}: it reaches the fairlead",
    "{name} ({kind}) is {measured} from the dead end, and the way never gets shorter than {limit}",
    "whether {name} ({kind}) reaches the fairlead can't be told",
    "Stop before {travel} of travel, hold the load, and take the extension out")  # fmt: skip
_ON_DRUM = _WORDS._replace(
    fails="{name} ({kind}) is {measured} from the dead end and the way {limit}: it lies on the drum",
    remedy="Pay out until {name} is clear of the fairlead, or rig without the extension")  # fmt: skip
_STOPPED = Words(
    "the stop for {name} at the fairlead is {measured} before it gets there; it must be within {limit}",
    "a stop is planned {measured} before {name} reaches the fairlead", "whether the stop is in time can't be told",
    "Move the stop nearer to {travel} of travel")  # fmt: skip


@rule(
    title="Join at the fairlead or on the drum", grade=Grade.WARNING, guards="line", basis=(_BASIS,),
    limits=(Limit("stop_within", 1.0, "m", "how far before a join's place a stop for it may be", _BASIS, "higher"),),
    worse=Worse.by(higher="lines/*/pieces/*/length", taken_away="lines/*/pieces/*/length stops"))  # fmt: skip
def join_at_drum(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        yield from (_join(stage, join, limits) for join in stage.stage.haul.joins if join.facts.kind != "splice")


def _join(stage: StageSolution, join: Join, limits: Limits) -> Check:
    least_m = min(station.path_m for station in stage.stations)
    event = next((e for e in stage.events if e.kind == "join at fairlead" and e.join is join), None)
    travel_m = event.spread.low if event else stage.stations[0].travel_m
    where = Where("join", join.name, join.pointer, "", stage.stage.index, travel_m)
    terms, grade = (("kind", join.facts.kind),), None if join.facts.kind in _HARD else Grade.CAUTION
    if event and (stop := answer(stage, event)) and stop.before:
        return at_most(stop.early_m, limits["stop_within"], "m", where, _STOPPED, missing=stop.lacks, terms=terms)
    lacks = join_lacks(stage, stage.stage.haul, join)
    # As far as the lengths are stated: the join lies at least so far out.
    out_m = join.from_dead_end.low if lacks else join.from_dead_end.high
    start, *_ = stage.stations
    words = _ON_DRUM if out_m > start.path_m and stage.stage.works == "hauling" else _WORDS
    return at_most(out_m, least_m, "m", where, words, missing=lacks, terms=terms, grade=grade)
