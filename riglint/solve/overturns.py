"""What a line does to tip a body: moments across and along it. Worked out only when a rule asks for it."""

from collections.abc import Iterator
from itertools import product
from math import inf
from typing import NamedTuple

from riglint.mechanics.anchors import tipping
from riglint.mechanics.rounding import first_greatest
from riglint.mechanics.vectors import Vec, dot, heading
from riglint.rig.model import Body
from riglint.rig.places import plan_angle
from riglint.solve.solution import Case, Component, StageSolution


class Overturn(NamedTuple):
    """Moments about one edge of a body; `use` without any margin."""

    side: str  # in words
    overturning_nm: float
    restoring_nm: float
    use: float
    pull_n: float
    height_m: float
    uplift_n: float
    half_base_m: float
    station: int


def missing_for_tipping(body: Body) -> tuple[str, ...]:
    """The facts that a body with a centre of gravity lacks to be judged for tipping."""
    facts, ground = body.facts, body.facts.ground
    there: tuple[tuple[str, object], ...] = (
        ("weight", facts.weight),
        ("track", facts.track),
        ("outline/heading", facts.outline and facts.outline.heading),
        ("ground/side_slope", ground and ground.side_slope),
        ("ground/slope", ground and ground.slope),
    )
    return tuple(fact for fact, value in there if value is None)


def overturns(
    stage: StageSolution, component: Component, body: Body, case: Case, north_rad: float | None
) -> Iterator[Overturn]:
    """Across the body and, where its wheelbase is stated, along it, at every station of a case."""
    facts, ground = body.facts, body.facts.ground
    if not (facts.weight and facts.track and facts.outline and facts.outline.heading and ground):
        return
    ahead = heading(plan_angle(facts.outline.heading.low, north_rad))
    height_m = _height_m(stage, body)
    bases = [("sideways", (-ahead[1], ahead[0], 0.0), facts.track.low, ground.side_slope)]
    if facts.wheelbase:
        bases.append(("endways", ahead, facts.wheelbase.low, ground.slope))
    for peak, (side, way, base_m, slope) in product(stage.pulls[case][component.key], bases):
        slope_rad = max(map(abs, slope or (0.0,)))
        pull_n, uplift_n = abs(dot(peak.force, way)), max(0.0, peak.force[2])
        found = tipping(
            weight_n=facts.weight.low, half_base_m=0.5 * base_m, slope_rad=slope_rad,
            cg_height_m=facts.centre_of_gravity.height.high if facts.centre_of_gravity else 0.0,
            pull_n=pull_n, pull_height_m=height_m, uplift_n=uplift_n, uplift_arm_m=0.5 * base_m,
        )  # fmt: skip
        use = inf if found.use is None else found.use
        yield Overturn(side, found.overturning_nm, found.restoring_nm, use, pull_n, height_m, uplift_n, 0.5 * base_m,
                       peak.station)  # fmt: skip


def tips_most(
    stage: StageSolution, component: Component, body: Body, case: Case, north_rad: float | None
) -> Overturn | None:
    """The worse of both ways; None where a fact is missing. Source: as `mechanics.anchors.tipping`."""
    found = tuple(overturns(stage, component, body, case, north_rad))
    return first_greatest(found, lambda one: one.use) if found else None


def _height_m(stage: StageSolution, body: Body) -> float:
    """The highest of the body's points that carry load, over the ground that it stands on."""
    ground_m = _middle(body)[2]
    used = {c.name for c in stage.components if c.kind == "point"}
    own = [p.at[2] - ground_m for p in stage.stage.points.values() if p.body is body and p.name in used]
    return max(0.0, *own) if own else 0.0


def _middle(body: Body) -> Vec:
    return body.middle or (0.0, 0.0, 0.0)
