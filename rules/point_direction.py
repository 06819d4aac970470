"""A point pulled off the direction that it is rated for.

A tow eye, a winch's mount or a hook is made for a straight pull. Across it, it bends, unscrews or tears out of
thin sheet far below its rating, and no figure says how far below.

    off = angle between the pull, of all that hangs on the point together, and its rated direction; at most its cone

The pull is the sum of forces at each station of the travel, height included, since it turns as the load comes.
On a load that climbs the rated direction tilts with it. Where no cone is stated, a pull within 5 deg counts as
in line (the band that a shackle keeps its full working load in, ASME B30.26), one at right angles or backwards
is too far for any point, and between the two it can't be told. A point without a rated direction isn't judged
here.

What to do: move the anchor into line, use a bridle or a second point, or turn the line with a block.

Worked example: an eye rated for straight ahead is pulled by a line to a tree 4 m to the side and 7 m ahead.
side = 4 m; ahead = 7 m; off = atan2(side, ahead) = 0.519
"""

from math import pi, radians

from riglint.mechanics.provenance import ASME_B30_26
from riglint.outcome import Grade
from riglint.rig.model import Point
from riglint.rig.places import plan_angle
from riglint.rulebook.author import Basis, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, exceeds, here
from riglint.solve.pulls import farthest_off, rated_way
from riglint.solve.solution import Component
from riglint.solve.worst import points

_MAKER = Basis("common practice", "a point holds its rating in the direction that it is made for")
_IN_LINE = Basis("standard", "0 to 5 deg is in line", ASME_B30_26, "fig. 26-1.9.1", "lifting", "read second hand")
_WORDS = Words(
    "{component} is pulled {measured} off the way that it is rated for, {limit} is allowed",
    "{component} is pulled at most {measured} off the way that it is rated for",
    "how far off its way {component} may be pulled can't be told",
    "Bring the pull into line with {name}: move the anchor, share it with a bridle, or turn the line with a block",
)


@rule(
    title="Points pulled across their rated direction", grade=Grade.WARNING, guards="anchors",
    basis=(_MAKER, _IN_LINE),
    limits=(Limit("in_line", radians(5.0), "rad", "a pull that is in line for any point", _IN_LINE, "higher"),),
    worse=Worse.by(lower="points/*/cone", taken_away="points/*/cone"))  # fmt: skip
def point_direction(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component, point in points(stage):
            if point.facts.rated_direction is not None:
                yield from _point(solution, stage, component, point, limits["in_line"])


def _point(solution: Solution, stage: StageSolution, component: Component, point: Point, in_line_rad: float) -> Checks:
    facts = point.facts
    assert facts.rated_direction is not None  # noqa: S101
    rated = rated_way(stage, point, plan_angle(facts.rated_direction.low, solution.rig.north_rad))
    off = farthest_off(stage, point, rated)
    if off is not None:  # else all that is made fast there cancels out
        off_rad, index = off
        told = facts.cone is not None or not (exceeds(off_rad, in_line_rad) and exceeds(pi / 2, off_rad))
        limit_rad = facts.cone.low if facts.cone else in_line_rad if told else None
        missing = () if told else (place(point.pointer, "cone"),)
        yield at_most(off_rad, limit_rad, "rad", here(stage, component, "", index), _WORDS, missing=missing)
