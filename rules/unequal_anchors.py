"""Two anchors that share a pull, and may not share it evenly.

A bridle spreads a pull over two or three points. If it equalises (a strap that slides through a ring), each leg
takes its share whatever happens. If it does not, a leg a hand's breadth too long leaves the whole pull on the
other.

Equalised legs are judged for their share. So are two fixed legs that stand well apart, since the triangle that
they make fixes their shares; closer together than the limit, a small slip in length shifts most of the pull.
With three fixed legs the lengths don't fix it. Then each leg and the point that it holds must be fit for the
whole pull, and for more where the bridle is so wide that each leg carries more than the pull. A leg without a
working load may carry half of its breaking strength, as hauling asks of every element at stall (MGN 308).

    worst = max(pull, share)

Whether it equalises is asked only where it matters.

What to do: an equalising bridle, longer legs to points well apart, or points and legs that hold the whole pull.

Worked example: a bridle that does not equalise, its legs 20 deg apart, pulled with 60 kN; eyes rated 50 kN.
pull = 60 kN; share = 30.5 kN; worst = max(pull, share) = 60 kN
"""

from itertools import pairwise
from math import radians

from riglint.mechanics.vectors import sub, unit
from riglint.rig.model import Chain
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.design_factors import HALF
from riglint.rulebook.judge import Words, at_most, exceeds, here
from riglint.rulebook.loads import graded
from riglint.solve.pulls import bridles, off_direction_rad
from riglint.solve.solution import Component
from riglint.solve.worst import line_pull_n, untold, worst

_SHARES = Basis("derivation", "one of two legs alone may carry the pull; a triangle fixes the shares of two")
_APART = Basis("common practice", "legs 30 deg apart share by their triangle")
_WORDS = Words(
    "{component} may have to hold {measured} of the bridle's pull, {limit} is what it and its point may carry",
    "{component} has to hold {measured} of the bridle's pull, {limit} is what it and its point may carry",
    "whether {component} holds what it may get can't be told",
    "Let the bridle equalise, set its points farther apart, or use points that hold the whole pull",
)

_FLAT = _WORDS._replace(
    remedy="Give the bridle longer legs, so that these stand closer together, or use points that hold more"
)


@rule(
    title="Anchors that share a pull unequally", grade=Grade.DANGER, guards="anchors", basis=(_SHARES, HALF),
    limits=(
        Limit(
            "apart", radians(30.0), "rad", "least angle between two fixed legs that fixes their shares", _APART, "lower"
        ),
        Limit("strength", 2.0, "1", "a leg's breaking strength over what it may get", HALF, "lower"),
    ),
    worse=Worse.by(higher="winch/stall_pull", lower="points/*/rated connectors/*/legs/*/working_load,breaking",
                   taken_away="points/*/rated connectors/*/equalised"),
)  # fmt: skip
def unequal_anchors(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        seen: set[str] = set()
        for hub, chain in bridles(stage):
            bridle = stage.component("connector", chain.connectors[-1].name)
            if bridle and stage.stations and bridle.name not in seen:
                seen.add(bridle.name)
                yield from _bridle(stage, bridle, hub, chain, limits)


def _bridle(stage: StageSolution, bridle: Component, hub: str, chain: Chain, limits: Limits) -> Checks:
    whole = worst(stage, bridle)
    even = chain.equalised or (len(chain.arms) == 2 and not exceeds(limits["apart"], _apart_rad(stage, hub, chain)))
    unsaid = chain.connectors[-1].facts.equalised is None
    for i, arm in enumerate(chain.arms):
        leg = stage.component("bridle leg", f"{bridle.name} to {arm.point.name}")
        share = worst(stage, leg) if leg else None
        if leg is None or share is None or whole is None:
            where = here(stage, bridle)._replace(pointer=f"{bridle.pointer}/legs/{i}")
            yield at_most(None, None, "N", where, _WORDS, missing=untold(stage))
            continue
        case, peak = share
        load_n = peak.load_n if even else max(peak.load_n, whole[1].load_n)
        pull_n = line_pull_n(stage, *(share if load_n == peak.load_n else whole))
        holds = [r.low for r in (arm.point.facts.rated, arm.facts.working_load) if r]
        breaking_n = arm.facts.breaking.low if arm.facts.breaking and not arm.facts.working_load else None
        if breaking_n:
            holds.append(breaking_n / limits["strength"])
        missing = untold(stage)
        if not arm.point.facts.rated:
            missing = (place(arm.point.pointer, "rated"), *missing)
        if unsaid and holds and exceeds(load_n, min(holds)) and not exceeds(peak.load_n, min(holds)):
            load_n, missing = peak.load_n, (place(bridle.pointer, "equalised"), *missing)
            pull_n = line_pull_n(stage, case, peak)
        where = here(stage, leg, case, peak.station)._replace(pointer=f"{bridle.pointer}/legs/{i}")
        yield at_most(
            load_n, min(holds, default=None), "N", where, _FLAT if even else _WORDS, missing=missing, measure="rating",
            grade=graded(load_n, min(holds), breaking_n) if holds else None, pull_n=pull_n,
        )  # fmt: skip


def _apart_rad(stage: StageSolution, hub: str, chain: Chain) -> float:
    """The least angle between two of the legs over the travel."""
    ways = [[unit(sub(s.places[arm.point.name], s.places[hub])) for arm in chain.arms] for s in stage.stations]
    return min(off_direction_rad(a, b) for own in ways for a, b in pairwise(own))
