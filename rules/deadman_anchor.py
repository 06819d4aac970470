"""Deadmen: a log or timber buried across the pull, and the ground in front of it.

What holds is the ground: so much for each square foot of face, more the deeper it lies and the flatter the
pull.

    holds = ground * face * (length - trench)

`ground` is the table of FM 5-125 and TM 5-5420-278-10 (table 9) in loam, between its rows in proportion; rock
or hardpan five times that, wet fine-grained ground half. Wet clays, which the table does not name, are taken as
wet and fine-grained. A pull flatter than 1:4 counts as 1:4, one deeper than 7 ft as 7 ft. Above 3 ft the table
ends: more than 3 ft would hold fails, less can't be told. The trench that the line lies in takes its own width
away (FM 5-125: 1 or 2 ft; TM 5-5420-278-10: 1 ft); where it isn't stated, 2 ft. A log is no longer than 5 times
its diameter, a timber than 9 times its thickness, or it breaks as a beam.

Over that as expected, or at rest on a slope, is a DANGER; at stall a WARNING, and a DANGER from twice that on.

What to do: deeper, a longer or higher face, a flatter pull, or another anchor.

Worked example: 5 ft deep, pulled at 1:4, 18 in face, 7 ft long, trench 1 ft.
ground = 4100 lb; face = 1.5 ft; length = 7 ft; trench = 1 ft; holds = ground * face * (length - trench) = 36900
"""

from __future__ import annotations

from collections.abc import Iterator
from math import atan

from riglint.mechanics.constants import M_PER_FOOT
from riglint.mechanics.deadman import (
    SLENDERNESS,
    TRENCH_FM,
    deadman_capacity_n,
    deadman_holding_pa,
    deadman_slenderness_ratio,
)  # fmt: skip
from riglint.mechanics.provenance import FM_5_125, TM_5_5420_278_10
from riglint.outcome import Basis, Check, Formula, Grade, Step
from riglint.plan.points import Deadman
from riglint.rig.model import Point
from riglint.rulebook.judge import Words, at_most, here
from riglint.rulebook.limits import Limit, Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.ratings import place
from riglint.solve.solution import CASES, Case, Component, Solution, StageSolution
from riglint.solve.worst import carrying, graded, line_pull_n, untold

_TABLE = Basis(
    "handbook", "holding power by depth and slope", TM_5_5420_278_10, "table 9 p. 0035 00-22", "general", "read"
)
_LENGTH = Basis("handbook", "the trench takes its width away", FM_5_125, "ch. 4", "general", "from memory")
_BEAM = Basis("handbook", "length at most 5 diameters (log), 9 thicknesses (timber)", TM_5_5420_278_10, "p. 0035 00-23",
              "general", "read")  # fmt: skip
_SOILS = {"undisturbed loam": "loam", "rock or hardpan": "rock or hardpan"}
_WET = "wet fine-grained or sandy"
_SHALLOW, _DEEP, _FLAT = 3.0 * M_PER_FOOT, 7.0 * M_PER_FOOT, atan(0.25)
_HOLDS = Formula(
    "holds", "ground * face * (length - trench)",
    (("ground", "Pa"), ("face", "m"), ("length", "m"), ("trench", "m")), "N",
)  # fmt: skip
_WORDS = Words(
    "{component} carries {measured}; the ground in front of it holds {limit}",
    "{component} carries {measured} of the {limit} that the ground in front of it holds",
    "whether {component} holds can't be told",
    "Bury it deeper, give it a longer or higher face, pull flatter, or use another anchor",
)
_BREAKS = Words(
    "{component} is {measured} times as long as it is thick, {limit} at most: it breaks as a beam",
    "{component} is {measured} times as long as it is thick", "whether {component} breaks as a beam can't be told",
    "Use a thicker one, or a shorter one buried deeper",
)  # fmt: skip


@rule(
    title="Deadman anchors",
    grade=Grade.DANGER,
    guards="anchors",
    basis=(_TABLE, _LENGTH, _BEAM),
    limits=(
        Limit("log", SLENDERNESS["log"].value, "1", "length over diameter of a log", _BEAM, "higher"),
        Limit("timber", SLENDERNESS["timber"].value, "1", "length over thickness of a timber", _BEAM, "higher"),
    ),
    worse=(Worse("points/*/deadman/depth", "lower"), Worse("points/*/deadman/face", "lower")),
)
def deadman_anchor(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in solution.stages:
        for component in carrying(stage, "point"):
            point = component.item
            if isinstance(point, Point) and point.facts.kind == "deadman" and stage.stations:
                yield from _deadman(stage, component, point, limits)


def _deadman(stage: StageSolution, component: Component, point: Point, limits: Limits) -> Iterator[Check]:
    facts = point.facts.deadman
    if facts is None:
        yield at_most(None, None, "N", here(stage, component), _WORDS, missing=(place(point.pointer, "deadman"),))
        return
    thick = facts.face if facts.material == "log" else facts.thickness
    ratio = deadman_slenderness_ratio(facts.length.high, thick.low) if thick else None
    lacks = () if thick else (place(point.pointer, "deadman/thickness"),)
    where = here(stage, component)
    yield at_most(ratio, limits[facts.material], "1", where, _BREAKS, missing=lacks, grade=Grade.WARNING)
    step, missing = _holding(facts, point.pointer)
    for case in CASES:
        if stage.peak(component, case):
            yield _case(stage, component, case, step, missing)
    if not any(stage.peak(component, case) for case in CASES):
        yield at_most(None, None, "N", here(stage, component), _WORDS, missing=missing + untold(stage))


def _holding(facts: Deadman, at: str) -> tuple[Step | None, tuple[str, ...]]:
    """What the ground holds, or would hold at the table's least depth, and what keeps that from being told."""
    missing = [place(at, f"deadman/{fact}") for fact in ("soil", "pull_slope") if getattr(facts, fact) is None]
    if missing or facts.pull_slope is None:
        return None, tuple(missing)
    if facts.depth.low < _SHALLOW - 1e-9:
        missing.append(place(at, "deadman/depth, at least 3 ft, where the table begins"))
    depth_m = min(max(facts.depth.low, _SHALLOW), _DEEP)
    ground = deadman_holding_pa(depth_m, max(_FLAT, facts.pull_slope.high), _SOILS.get(str(facts.soil), _WET))
    trench_m = facts.trench.high if facts.trench else TRENCH_FM.value
    bears_m = facts.length.low - trench_m
    if ground is None or bears_m <= 0.0:
        return None, (*missing, place(at, "deadman/length, more than the trench takes"))
    holds_n = deadman_capacity_n(ground.value, facts.face.low, bears_m)
    return _HOLDS.step(holds_n, ground.value, facts.face.low, facts.length.low, trench_m), tuple(missing)


def _case(stage: StageSolution, component: Component, case: Case, step: Step | None, missing: tuple[str, ...]) -> Check:
    peak, stall = stage.peaks[case][component.key], case == "stall"
    holds_n = step.result if step else None
    return at_most(
        peak.load_n, holds_n, "N", here(stage, component, case, peak.station), _WORDS,
        missing=missing + (stage.missing["stall"] if stall else untold(stage)), working=(step,) if step else (),
        pull_n=line_pull_n(stage, case, peak), measure="what the ground holds",
        grade=graded(peak.load_n, holds_n, None) if stall else Grade.DANGER,
    )  # fmt: skip
