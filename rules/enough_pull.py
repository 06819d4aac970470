"""Line pull that the load needs against what the winch gives.

A winch that can't move the load stalls, and then everything carries the most that the
winch can pull. Pull falls with each layer of rope on the drum, so a pull that begins well
can end in a stall.

How it is judged: at each station, the line pull needed is the greater of two: the top of
the resistance over what the rig makes of a unit of line pull with every loss at its
worst; and, as field manuals reckon, the resistance with a tenth of it added for each
turn, over the parts. Losses compounded and losses by the manuals differ by some percent:
both are shown, the greater counts. It may be no more than the winch's rated pull on the
layer in use there, by constant torque from the layer that it is rated for (the first if
that isn't stated); the manuals want it less than that, where here the very limit passes,
as it does in every rule. Where a loss isn't stated, nothing passes; it fails if the pull
is too small without any loss. A slope that isn't stated is taken as level, and nothing
passes on that either. Past the place where the line comes abeam of the travel, and where
friction takes all that the rig would gain, no pull is enough.

    line_pull = max(resistance / gain, resistance * (1 + 0.1 * turns) / parts)

What to do: more parts, a winch with more pull, fewer layers on the drum, or a load that
resists less: dig it free.

Worked example: 55 kN of resistance, three parts through two turns.
resistance = 55 kN; turns = 2; parts = 3; needed = resistance * (1 + 0.1 * turns) / parts = 22 kN
"""

from math import inf

from riglint.mechanics.provenance import LESSON_63H34F01
from riglint.outcome import Formula, Step, Value
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_most, first_greatest, holds
from riglint.solve.pull import Need, needs
from riglint.solve.rope import drum_lacks, stages

_DOCTRINE = Basis(
    "handbook", "line pull needed is resistance and tackle resistance over parts, less than the winch gives",
    LESSON_63H34F01, "supplement b, steps 3 to 5", "winching", "read second hand",
)  # fmt: skip
_LAYER = Basis(
    "standard", "pull on any layer is that of constant torque", "sae-j706", "definition", "winching", "read second hand"
)
_ABEAM = Basis("derivation", "line pull works on the load by how fast the path shortens", scope="winching")

_NEEDED = Formula("line_pull", "resistance / gain", (("resistance", "N"), ("gain", "1")), "N")
_BY_MANUAL = Formula(
    "line_pull", "resistance * (1 + 0.1 * turns) / gain", (("resistance", "N"), ("turns", "1"), ("gain", "1")), "N"
)
_WORDS = Words(
    "the load needs a line pull of {measured}; on layer {layer} the winch gives {limit} (by the losses {compounded}, "
    "as field manuals reckon {doctrine})",
    "the load needs a line pull of {measured}; on layer {layer} the winch gives {limit}",
    "whether the winch pulls enough can't be told",
    "Add a part, take rope off the drum, or make the load resist less",
)
_LINE = Words(
    "from {travel} of travel on, hauling no longer pulls the load the way that it must go",
    "hauling pulls the load the way that it must go",
    remedy="Move the anchor or a redirect ahead of the load's travel, or end the stage sooner; where "
    "the load is let down, write `works: paying out`",
)


@rule(
    title="Line pull that the load needs", grade=Grade.WARNING, guards="drum", basis=(_DOCTRINE, _LAYER, _ABEAM),
    worse=Worse.by(higher="bodies/*/weight bodies/*/resistance/steady redirects/*/loss", lower="winch/rated_pull",
                   taken_away="winch/rated_pull bodies/*/weight redirects/*/loss bodies/*/ground/slope winch/drum"),
)  # fmt: skip
def enough_pull(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        if stage.stage.works == "hauling":
            yield _abeam(stage)
            yield _worst(stage)


def _abeam(stage: StageSolution) -> Check:
    lost = next((s for s in stage.stations if s.ratio_ideal <= 0.0), None)
    place_m = next((e.travel_m for e in stage.events if e.kind == "leg abeam"), lost.travel_m if lost else None)
    where = Where("load", stage.stage.load.name, stage.stage.load.pointer, "", stage.stage.index, place_m)
    return holds(place_m is None, where, _LINE, basis=_ABEAM)


def _worst(stage: StageSolution) -> Check:
    pointer, index = stage.stage.winch.pointer, stage.stage.index
    missing = stage.missing["expected"] + drum_lacks(stage)
    if stage.stage.winch.facts.rated_pull is None:
        missing += (f"{pointer}/rated_pull",)
    where = Where("winch", "winch", pointer, "expected", index)
    found = tuple(needs(stage))
    if not found:
        return at_most(None, None, "N", where, _WORDS, missing=missing)
    worst = first_greatest(found, lambda n: n.needed_n / (n.gives_n or 1.0))
    return at_most(
        worst.needed_n, worst.gives_n, "N", where._replace(travel_m=worst.station.travel_m), _WORDS, missing=missing,
        working=_working(stage, worst), measure="rated pull",
        terms=(
            ("layer", worst.layer), ("compounded", Value(worst.compounded_n, "N")),
            ("doctrine", Value(worst.doctrine_n, "N")),
        ),
    )  # fmt: skip


def _working(stage: StageSolution, need: Need) -> tuple[Step, ...]:
    if stage.losses_assumed or stage.stage.others or need.compounded_n == inf:
        return ()
    force, turns = need.resistance_n, float(len(stage.stage.haul.turns))
    return (
        _NEEDED.step(need.compounded_n, force, need.station.ratio_least),
        _BY_MANUAL.step(need.doctrine_n, force, turns, need.station.ratio_ideal),
    )
