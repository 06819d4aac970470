"""What a line does to tip a body over each of its four edges. Worked out only when a rule asks for it."""

from collections.abc import Iterator
from itertools import product
from math import cos, inf, radians
from typing import Final, NamedTuple

from riglint.mechanics.anchors import tipping
from riglint.mechanics.rounding import first_greatest
from riglint.mechanics.vectors import Vec, dot, heading, scale, sub, unit
from riglint.plan.quantities import FlatCoordinates
from riglint.reading.quantity import BearingPlace, Span
from riglint.rig.model import Body, Point
from riglint.rig.places import plan_angle
from riglint.solve.pulls import tilted
from riglint.solve.ratings import place
from riglint.solve.solution import Case, Component, StageSolution

_IN_LINE: Final = cos(radians(15.0))  # headed so nearly along its travel, a load has its stated slope along itself
_NONE: Final = Span(0.0, 0.0)
LEVEL_M: Final = 1e-6  # heights nearer than this are one


class Overturn(NamedTuple):
    """Moments about one edge of a body; `use` without any margin, `missing` what makes them a lower bound."""

    side: str  # in words
    overturning_nm: float
    restoring_nm: float
    use: float
    pull_n: float
    height_m: float
    uplift_n: float
    arm_m: float
    station: int
    missing: tuple[str, ...]


class _Edge(NamedTuple):
    """An edge that a body may tip over, and the way to it.

    It has a distance from the middle of its base and one from the weight, and the ground falls towards it by its slope,
    or rises where that is below nothing, and along it by that across.
    """

    side: str
    way: Vec
    half_base_m: float
    weight_arm_m: float
    slope_rad: float
    across_rad: float


def missing_for_tipping(stage: StageSolution, body: Body) -> tuple[str, ...]:
    """The facts that a body with a centre of gravity lacks to be judged for tipping.

    Where a point of it lies below the ground that it is taken to stand on, that ground's height isn't known.
    """
    facts, ground = body.facts, body.facts.ground
    there: tuple[tuple[str, object], ...] = (
        ("weight", facts.weight),
        ("track", facts.stands_on()[0]),
        ("outline/heading", facts.outline and facts.outline.heading),
        ("ground/side_slope", ground and ground.side_slope),
        ("ground/slope", ground and ground.slope),
        ("outline/middle, with its height", None if _lowest_m(stage, body) < -LEVEL_M else body),
    )
    return tuple(fact for fact, value in there if value is None)


def missing_endways(body: Body) -> tuple[str, ...]:
    """What a body lacks to be judged for tipping over its ends; without it sideways alone is judged."""
    if body.facts.stands_on()[1]:
        return ()
    return (place(body.pointer, "outriggers/along" if body.facts.outriggers else "wheelbase"),)


def overturns(
    stage: StageSolution, component: Component, body: Body, case: Case, north_rad: float | None
) -> Iterator[Overturn]:
    """Over both sides and, where the length of what it stands on is stated, both ends, at every station of a case.

    Of the points that carry load the one with the longest lever counts for all of the pull: its height where the pull
    goes towards the edge, its distance in from the edge where it lifts, and out past it where it presses down. On a
    load whose way climbs, pull and lift are taken along its ground and square to it.
    """
    facts = body.facts
    if not (facts.weight and facts.centre_of_gravity):
        return
    edges = tuple(_edges(stage, body, north_rad))
    points = _points(stage, body)
    heights = [_height_m(stage, body, point) for point in points] or [0.0]
    lacks = tuple(
        place(point.pointer, "its height over the ground, in `at`")
        for point in points if not _height_stated(stage, point)
    )  # fmt: skip
    square = tilted(stage, (0.0, 0.0, 1.0)) if body.moves else (0.0, 0.0, 1.0)
    for peak, edge in product(stage.pulls[case][component.key], edges):
        pull_n, square_n = dot(peak.force, edge.way), dot(peak.force, square)
        height_m = max(heights) if pull_n > 0.0 else min(heights)
        uplift_n, arm_m, out_m = max(0.0, square_n), _lift_arm_m(body, points, edge), _out_m(body, points, edge)
        if square_n < 0.0 < out_m:
            uplift_n, arm_m = -square_n, out_m
        found = tipping(
            weight_n=facts.weight.low, half_base_m=max(0.0, edge.weight_arm_m), slope_rad=edge.slope_rad,
            cg_height_m=_adverse(facts.centre_of_gravity.height, edge.slope_rad),
            pull_n=pull_n, pull_height_m=height_m, uplift_n=uplift_n, uplift_arm_m=arm_m,
            across_rad=edge.across_rad,
        )  # fmt: skip
        use = inf if found.use is None else found.use
        middle = () if body.middle or uplift_n <= 0.0 else (place(body.pointer, "outline/middle"),)
        yield Overturn(edge.side, found.overturning_nm, found.restoring_nm, use, pull_n, height_m, uplift_n, arm_m,
                       peak.station, lacks + middle)  # fmt: skip


def tips_most(
    stage: StageSolution, component: Component, body: Body, case: Case, north_rad: float | None
) -> Overturn | None:
    """The worst of its edges; None where a fact is missing. Source: as `mechanics.anchors.tipping`."""
    found = tuple(overturns(stage, component, body, case, north_rad))
    return first_greatest(found, lambda one: one.use) if found else None


def _edges(stage: StageSolution, body: Body, north_rad: float | None) -> Iterator[_Edge]:
    """Both sides, and both ends where how far these are apart is stated. The middle of a base is the outline's.

    The side slope falls towards whichever side is judged, the safer way, and so does the slope of a body that stays
    or lies across its way. A load that lies along its way has its slopes as they are stated, zones and all.
    """
    facts, ground = body.facts, body.facts.ground
    across, along = facts.stands_on()
    if not (across and facts.outline and facts.outline.heading and facts.centre_of_gravity and ground):
        return
    level = heading(plan_angle(facts.outline.heading.low, north_rad))
    aside: Vec = (-level[1], level[0], 0.0)
    off_ahead, off_left = (facts.centre_of_gravity.ahead or _NONE), (facts.centre_of_gravity.left or _NONE)
    side_rad = max(map(abs, ground.side_slope or _NONE))
    stated = (ground.slope, *(zone.slope for zone in ground.zones))
    slopes = [slope for slope in stated if slope is not None]
    steepest_rad = max((max(map(abs, slope)) for slope in slopes), default=0.0)
    for sign in (1.0, -1.0):
        half_m = 0.5 * across.low
        yield _Edge("sideways", scale(aside, sign), half_m, half_m - _toward(off_left, sign), side_rad, steepest_rad)
    if along is None:
        return
    course = dot(level, unit((stage.stage.direction[0], stage.stage.direction[1], 0.0))) if body.moves else 0.0
    for sign in (1.0, -1.0):
        half_m = 0.5 * along.low
        if abs(course) > _IN_LINE:
            slope_rad = max(_toward(slope, -sign if course > 0.0 else sign) for slope in slopes)
        else:
            slope_rad = steepest_rad
        way = tilted(stage, level) if body.moves else level
        yield _Edge("endways", scale(way, sign), half_m, half_m - _toward(off_ahead, sign), slope_rad, side_rad)


def _toward(span: Span, sign: float) -> float:
    """The most of a span with a sign."""
    return max(sign * span.low, sign * span.high)


def _adverse(height: Span, slope_rad: float) -> float:
    """The height that the weight tips with where the ground falls to an edge; where it rises, it is no help."""
    return height.high if slope_rad >= 0.0 else 0.0


def _points(stage: StageSolution, body: Body) -> list[Point]:
    used = {c.name for c in stage.components if c.kind == "point"}
    return [p for p in stage.stage.points.values() if p.body is body and p.name in used]


def _lift_arm_m(body: Body, points: list[Point], edge: _Edge) -> float:
    """How far in from an edge the line lifts; from the middle where that isn't known."""
    if body.middle is None or not points:
        return edge.half_base_m
    return max(0.0, *(edge.half_base_m - dot(sub(p.at, body.middle), edge.way) for p in points))


def _out_m(body: Body, points: list[Point], edge: _Edge) -> float:
    """How far past an edge the line presses down; nothing where that isn't known."""
    if body.middle is None:
        return 0.0
    return max([dot(sub(p.at, body.middle), edge.way) - edge.half_base_m for p in points], default=0.0)


def _lowest_m(stage: StageSolution, body: Body) -> float:
    """The lowest of the body's points, over the ground that it is taken to stand on."""
    ground_m = body.middle[2] if body.middle else 0.0
    return min((p.at[2] for p in stage.stage.points.values() if p.body is body), default=0.0) - ground_m


def _height_m(stage: StageSolution, body: Body, point: Point) -> float:
    """How high a point is over the ground that its body stands on.

    Over the outline's middle where that has a height, and square to a way that climbs; else over nothing.
    """
    outline, square = body.facts.outline, (0.0, 0.0, 1.0)
    if body.middle is None or outline is None or not _stated(stage, outline.middle):
        return max(0.0, point.at[2])
    if body.moves:
        square = tilted(stage, square)
    return max(0.0, dot(sub(point.at, body.middle), square))


def _height_stated(stage: StageSolution, point: Point) -> bool:
    return _stated(stage, point.facts.at)


def _stated(stage: StageSolution, at: object) -> bool:
    """Whether a place has a height: its own, or that of the point that it is taped from."""
    if not isinstance(at, BearingPlace):
        return at is not None and not isinstance(at, FlatCoordinates)
    origin = stage.stage.points.get(at.origin) if at.origin else None
    return at.up_m != 0.0 or (origin is not None and _height_stated(stage, origin))
