"""The way of the load, from where it stands to what it is pulled to, seen from above."""

from math import hypot
from typing import NamedTuple

from riglint.mechanics.vectors import Vec, heading, sub
from riglint.plan.bodies import Outline
from riglint.rig.places import plan_angle
from riglint.solve.solution import StageSolution


class Way(NamedTuple):
    """A strip on the ground: along a level unit vector from `start`, `length_m` long, about its middle line."""

    start: Vec
    ahead: tuple[float, float]
    length_m: float
    half_width_m: float
    width_known: bool  # else as wide as its points lie apart, which is the least it can be


def way_of(stage: StageSolution, north_rad: float | None) -> Way:
    """The strip that the load goes along, on to the farthest end of a leg.

    Lowered, the load goes away from the anchor, and the strip between them lies behind it. It takes the load's heading
    as stated, for it moves without turning; one whose heading isn't stated looks along its way.
    """
    own = stage.stage
    size = hypot(own.direction[0], own.direction[1]) or 1.0
    sign = 1.0 if own.works == "hauling" else -1.0
    ahead = (sign * own.direction[0] / size, sign * own.direction[1] / size)
    used = {c.name for c in stage.components if c.kind == "point"}
    points = [p.at for p in own.points.values() if p.body is own.load and p.name in used]
    middle = own.load.middle or tuple(sum(c) / len(points) for c in zip(*points, strict=True))
    across = [(p[0] - middle[0]) * -ahead[1] + (p[1] - middle[1]) * ahead[0] for p in points]
    outline = own.load.facts.outline
    half_m = 0.5 * _across_m(outline, ahead, north_rad) if outline else max(map(abs, across))
    ends = [place for leg in stage.stations[0].legs for place in (leg.start, leg.end)]
    along = [(p[0] - middle[0]) * ahead[0] + (p[1] - middle[1]) * ahead[1] for p in (*points, *ends)]
    back_m = min(along[: len(points)])
    if own.works != "hauling":
        back_m -= own.travel.high
    start = (middle[0] + back_m * ahead[0], middle[1] + back_m * ahead[1], 0.0)
    return Way(start, ahead, max(along) - back_m, half_m, outline is not None)


def _across_m(outline: Outline, ahead: tuple[float, float], north_rad: float | None) -> float:
    """How wide a rectangle is across a way: W, or L sin(a) + W cos(a) where its heading is a off the way."""
    length_m: float = outline.length.high
    width_m: float = outline.width.high
    if outline.heading is None:
        return width_m
    front = heading(plan_angle(outline.heading.low, north_rad))
    along, across = front[0] * ahead[0] + front[1] * ahead[1], front[1] * ahead[0] - front[0] * ahead[1]
    return length_m * abs(across) + width_m * abs(along)


def off_the_way_m(place: Vec, way: Way) -> float | None:
    """How far a place lies from the strip's middle line; None where it lies before its start or past its end."""
    x, y, _ = sub(place, way.start)
    along_m = x * way.ahead[0] + y * way.ahead[1]
    if not 0.0 <= along_m <= way.length_m:
        return None
    return abs(y * way.ahead[0] - x * way.ahead[1])
