"""What the winch's brake holds against what it must.

A load on a slope hangs on the brake whenever the winch stops. A brake that slips lets it
run, and a winch that overruns strips its drum.

How it is judged: what the rope carries at rest on the slope, wherever along the travel a stop
may be called, with friction at its least, and while lowering, against what the brake holds at
the layer then in use, by constant torque from the layer that it is stated for (the first if
that isn't stated). Where the load needs no holding there is nothing to judge.

    use = line_tension / (brake_hold * pull_on_this_layer / pull_on_its_layer)

SAE J706 asks that the brake holds the rated load by itself (read second hand); that is
less than a winch can pull at stall.

What to do: a second hold (chocks, a tie-back, another winch), more parts, or fewer layers
on the drum.

Worked example: 7 t on a slope of 20 degrees, held by one part.
weight = 68.6 kN; sine = 0.342; held = weight * sine = 23.5 kN
"""

from riglint.outcome import Where
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, first_greatest, gravest
from riglint.solve.pull import brake_holds_n, layer_of
from riglint.solve.rope import drum_lacks, stages
from riglint.solve.solution import Case

_BASIS = Basis("standard", "the brake holds the load by itself", "sae-j706", "brake", "winching", "read second hand")

_WORDS = Words(
    "the brake must hold {measured}; on layer {layer} it holds {limit}",
    "the brake must hold {measured}; on layer {layer} it holds {limit}",
    "whether the brake holds the load can't be told",
    "Give the load a second hold, or rig more parts",
)


@rule(
    title="Brake that holds the load", grade=Grade.DANGER, guards="drum", basis=(_BASIS,),
    worse=Worse.by(higher="bodies/*/weight bodies/*/ground/slope", lower="winch/brake_hold",
                   taken_away="winch/brake_hold bodies/*/ground/slope"),
)  # fmt: skip
def brake_holds(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        cases: tuple[Case, ...] = ("holding",) if stage.stage.works == "hauling" else ("holding", "expected")
        checks = [check for case in cases if (check := _case(stage, case))]
        if checks:
            yield gravest(checks[::-1])


def _case(stage: StageSolution, case: Case) -> Check | None:
    """The station where the brake has most to do for what it holds there."""
    winch = stage.stage.winch
    pulls = [(s, max(0.0, s.legs[0].tension.get(case, 0.0)), brake_holds_n(stage, s)) for s in stage.stations]
    station, pull, holds = first_greatest(pulls, lambda x: x[1] / x[2] if x[2] else x[1])
    if not pull and (case != "holding" or not _slope_unknown(stage)):
        return None
    missing = stage.missing[case] + (drum_lacks(stage) if pull else ())
    if winch.facts.brake_hold is None:
        missing += (place(winch.pointer, "brake_hold"),)
    where = Where("winch", "winch", winch.pointer, case, stage.stage.index, station.travel_m)
    return at_most(
        pull or None, holds, "N", where, _WORDS, missing=missing, terms=(("layer", layer_of(stage, station)),)
    )


def _slope_unknown(stage: StageSolution) -> bool:
    return any(fact.endswith("/slope") for fact in stage.missing["holding"])
