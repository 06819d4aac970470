"""Line that the way needs against the line that there is.

A line that is too short is found out when the drum is nearly bare: with the load on it,
and no wraps to hold it.

How it is judged: the line at the short end of its pieces' lengths must be as long as the
way from the drum through every redirect to the dead end, where that way is longest
over the travel. About N times the distance is needed for N parts. The wraps that must
stay on the drum come on top: the rule on wraps judges them. A line that runs out within
the travel (paying out, or where the way grows) gives the travel at which it does.

    use = way / line

What to do: an extension, fewer parts, or an anchor nearer by. Take the next stage before
the line runs out.

Worked example: three parts over 12 m and two redirects' hangers of 0.25 m and 1.63 m.
way = 37.5 m; line = 52 m; use = way / line = 0.721
"""

from riglint.outcome import Value
from riglint.rulebook.author import Basis, Checks, Formula, Grade, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_least
from riglint.solve.rope import from_drum_m, length_lacks, stages

_BASIS = Basis("derivation", "the way from drum to dead end is the sum of its legs")

_SPARE = Formula("spare", "line - way", (("line", "m"), ("way", "m")), "m")
_REACH = Words(
    "the line is {measured} long and the way needs {limit}: it is {short} short",
    "the line is {measured} long and the way needs {limit}",
    "whether the line reaches can't be told",
    "Put an extension in, rig fewer parts, or bring the anchor nearer")  # fmt: skip
_OUT = Words(
    "the line runs out after {measured} of travel, and {limit} are to be gone",
    "the line lasts for the whole travel",
    remedy="Put an extension in, or end the stage before the line runs out")  # fmt: skip


@rule(
    title="Line for the whole way", grade=Grade.WARNING, guards="line", basis=(_BASIS,),
    worse=Worse.by(higher="winch/fairlead/from_drum", lower="lines/*/pieces/*/length",
                   taken_away="lines/*/pieces/*/length"))  # fmt: skip
def enough_line(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        yield from _stage(stage)


def _stage(stage: StageSolution) -> Checks:
    haul = stage.stage.haul
    where = Where("line", haul.name, haul.pointer, "", stage.stage.index)
    lacks = length_lacks(haul)
    has, way = stage.line_m.low, stage.line_needed_m
    starts = stage.stations[0].path_m + from_drum_m(stage.stage)
    out = next((e.spread.low for e in stage.events if e.kind == "line runs out" and has >= starts), None)
    if out is not None and not lacks:
        yield at_least(out, stage.stage.travel.high, "m", where._replace(travel_m=out), _OUT)
        return
    yield at_least(
        None if lacks else has, way, "m", where, _REACH, missing=lacks, terms=(("short", Value(way - has, "m")),),
        working=() if lacks else (_SPARE.step(has - way, has, way),),
    )  # fmt: skip
