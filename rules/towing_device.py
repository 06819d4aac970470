"""A tow eye of which nothing is known but what the law asks of it.

A type-approved vehicle's towing device bears, forwards and backwards, a static force of at least half the
vehicle's technically permissible maximum laden mass ((EU) 1005/2010). That is for towing on a road. A mired
vehicle may ask for one to three times its weight, so that an eye of the least lawful strength fails every mired
case unless the load is shared.

    use = load / (0.5 * laden_mass * g)

It says least, and nothing about a pull to the side. A tow eye whose rating is stated is judged by that, in
`anchor-rating`; a tow eye of a vehicle without a laden mass is asked for its rating there.

What to do: find the eye's rating in the handbook, share the pull between two eyes with an equalising bridle, or
use the frame.

Worked example: a van of 3,000 kg laden mass, mired to the hub.
load = 29.4 kN; laden_mass = 3 t; g = 9.81; use = load / (0.5 * laden_mass * g) = 2.00
"""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Basis, Check, Formula, Grade
from riglint.rig.model import Point
from riglint.rulebook.judge import Words, at_most, here
from riglint.rulebook.limits import Limit, Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.solution import CASES, Case, Component, Solution, StageSolution
from riglint.solve.worst import carrying, graded, line_pull_n, untold

_LAW = Basis("regulation", "half the maximum laden mass", "eu-1005-2010", "Annex II", "towing", "read")
_BEARS = Formula("bears", "share * laden_weight", (("share", "share"), ("laden_weight", "N weight")), "N")
_WORDS = Words(
    "{component} carries {measured}; the law lets it be made for no more than {limit}, half its vehicle's laden mass",
    "{component} carries {measured} of the {limit} that the law asks of a tow eye at least",
    "whether {component} holds can't be told",
    "Find its rating, share the pull between two eyes, or make fast to the frame",
)
_AT_STALL = _WORDS._replace(
    fails="if the winch is kept on until it stalls, {component} carries {measured}; the law lets it be made for no "
    "more than {limit}, half its vehicle's laden mass"
)  # fmt: skip


@rule(
    title="Tow eyes of the least lawful strength",
    grade=Grade.DANGER,
    guards="anchors",
    basis=(_LAW,),
    limits=(Limit("share", 0.5, "share", "share of the laden mass that a towing device bears", _LAW, "higher"),),
    worse=(Worse("bodies/*/laden_mass", "lower"), Worse("winch/stall_pull", "higher")),
)
def towing_device(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in solution.stages:
        for component in carrying(stage, "point"):
            point = component.item
            if not isinstance(point, Point) or point.facts.kind != "tow eye" or not stage.stations:
                continue
            laden = point.body.facts.laden_mass
            if laden is not None and point.facts.rated is None and point.facts.breaking is None:
                yield from _eye(stage, component, laden.low, limits["share"])


def _eye(stage: StageSolution, component: Component, laden_n: float, share: float) -> Iterator[Check]:
    told = [case for case in CASES if stage.peak(component, case)]
    for case in told:
        yield _case(stage, component, case, laden_n, share)
    if not told:
        yield at_most(None, share * laden_n, "N", here(stage, component), _WORDS, missing=untold(stage))


def _case(stage: StageSolution, component: Component, case: Case, laden_n: float, share: float) -> Check:
    peak, stall = stage.peaks[case][component.key], case == "stall"
    bears_n = share * laden_n
    return at_most(
        peak.load_n, bears_n, "N", here(stage, component, case, peak.station), _AT_STALL if stall else _WORDS,
        missing=stage.missing["stall"] if stall else untold(stage), working=(_BEARS.step(bears_n, share, laden_n),),
        pull_n=line_pull_n(stage, case, peak), measure="lawful minimum", grade=graded(peak.load_n, bears_n, None),
    )  # fmt: skip
