"""Line pull that the load needs against what the winch gives.

A winch that can't move the load stalls, and then everything carries the most that the winch can pull. Pull falls with
each layer of rope on the drum, so a pull that begins well can end in a stall.

How it is judged: at each station, the line pull needed is the greater of two: the top of the resistance over what the
rig makes of a unit of line pull with every loss at its worst; and, as field manuals reckon, the resistance with a
tenth of it added for each turn, over the parts. Losses compounded and losses by the manuals differ by some percent:
both are shown, the greater counts. It may be no more than the winch's rated pull on the layer in use there, by
constant torque from the layer that it is rated for (the first if that isn't stated). Where a loss isn't stated,
nothing passes; it fails if the pull is too small without any loss. A slope that isn't stated is taken as level, and
nothing passes on that either. Past the place where the line comes abeam of the travel, no pull is enough.

What to do: more parts, a winch with more pull, fewer layers on the drum, or a load that resists less: dig it free.

Worked example: 55 kN of resistance, three parts through two turns.
resistance = 55 kN; turns = 2; parts = 3; needed = resistance * (1 + 0.1 * turns) / parts = 22 kN
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from riglint.mechanics.provenance import LESSON_63H34F01
from riglint.outcome import Basis, Check, Formula, Grade, Step, Value, Where
from riglint.rulebook.judge import Words, at_most, holds
from riglint.rulebook.limits import Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.rope import drum_lacks, stages
from riglint.solve.solution import Solution, StageSolution, Station

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
    remedy="Move the anchor or a redirect ahead of the load's travel, or end the stage sooner",
)


@rule(
    title="Line pull that the load needs",
    grade=Grade.WARNING,
    guards="drum",
    basis=(_DOCTRINE, _LAYER, _ABEAM),
    worse=(Worse("winch/rated_pull", "lower"), Worse("bodies/*/weight", "higher")),
)
def enough_pull(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in stages(solution):
        if stage.stage.works == "hauling":
            yield _abeam(stage)
            yield _worst(stage)


def _abeam(stage: StageSolution) -> Check:
    lost = next((s for s in stage.stations if s.ratio_ideal <= 0.0), None)
    place_m = next((e.travel_m for e in stage.events if e.kind == "leg abeam"), lost.travel_m if lost else None)
    where = Where("load", stage.stage.load.name, stage.stage.load.pointer, "", stage.stage.index, place_m)
    return holds(place_m is None, where, _LINE, basis=_ABEAM)


class _Need(NamedTuple):
    station: Station
    compounded_n: float
    doctrine_n: float
    needed_n: float
    gives_n: float | None


def _need(stage: StageSolution, station: Station) -> _Need | None:
    """What is needed at a station; with a loss not stated, what is needed at the least."""
    force = station.resistance.hauling
    if force is None or station.ratio_least <= 1e-9 or station.line_pull_most_n is None:
        return None
    compounded = station.line_pull_most_n
    doctrine = station.line_pull_doctrine_n or compounded
    needed = force.high / station.ratio_most if stage.losses_assumed else max(compounded, doctrine)
    return _Need(station, compounded, doctrine, needed, _gives(stage, station))


def _gives(stage: StageSolution, station: Station) -> float | None:
    facts = stage.stage.winch.facts
    if station.drum:
        return station.drum.pull_n
    # On no layer does a winch pull more than on the first, which is the rated one if no other is named.
    return facts.rated_pull.low if facts.rated_pull and facts.rated_layer in (None, 1) else None


def _worst(stage: StageSolution) -> Check:
    winch = stage.stage.winch
    missing = stage.missing["expected"] + drum_lacks(stage)
    if winch.facts.rated_pull is None:
        missing += (f"{winch.pointer}/rated_pull",)
    needs = [need for station in stage.stations if (need := _need(stage, station))]
    worst = max(needs, key=lambda n: n.needed_n / n.gives_n if n.gives_n else n.needed_n, default=None)
    if worst is None:
        where = Where("winch", "winch", winch.pointer, "expected", stage.stage.index)
        return at_most(None, None, "N", where, _WORDS, missing=missing)
    station, force = worst.station, worst.station.resistance.hauling
    where = Where("winch", "winch", winch.pointer, "expected", stage.stage.index, station.travel_m)
    layer = str(station.drum.layer[1]) if station.drum else str(winch.facts.rated_layer or 1)
    working: tuple[Step, ...] = ()
    if force is not None and not stage.losses_assumed and not stage.stage.others:
        working = (
            _NEEDED.step(worst.compounded_n, force.high, station.ratio_least),
            _BY_MANUAL.step(worst.doctrine_n, force.high, float(len(stage.stage.haul.turns)), station.ratio_ideal),
        )
    return at_most(
        worst.needed_n, worst.gives_n, "N", where, _WORDS, missing=missing, working=working, measure="rated pull",
        terms=(
            ("layer", layer), ("compounded", Value(worst.compounded_n, "N")),
            ("doctrine", Value(worst.doctrine_n, "N")),
        ),
    )  # fmt: skip
