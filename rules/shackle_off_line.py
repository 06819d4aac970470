"""Shackles pulled off their line.

A shackle is made to be pulled along its length. Pulled aside it opens: at 45 degrees 30 %
of its working load is gone, at 90 degrees half, and beyond that it is not to be loaded.

How it is judged: the angle as stated, against 90 degrees. What the angle leaves of the
working load (100 % to 5 degrees, 70 % to 45, 50 % to 90) counts in the rule on working
loads. Where no angle is stated, a shackle at a point that is rated for one direction and
pulled more than `aside` off it under its worst load may be pulled aside or may swing on
its pin: that can't be told from the plan, and no more can it where the load isn't known.
Elsewhere a shackle lines itself up.

    use = off_line / 90 degrees

Sources: ASME B30.26 fig. 26-1.9.1 (the shares seen second hand), WAC 296-155-33905 fig. 17
(the bands). `aside` is common practice.

What to do: turn the shackle so that the pull comes along it, or hang it from a swivel or
a soft shackle.

Worked example: 50 degrees off the line of a shackle of 47 kN.
working_load = 47 kN; share = 0.5; left = working_load * share = 23.5 kN
"""

from math import radians

from riglint.mechanics.provenance import ASME_B30_26, WAC_296_155
from riglint.mechanics.vectors import heading, unit
from riglint.outcome import Value
from riglint.rig.model import Connector, Point
from riglint.rig.places import plan_angle
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_most, exceeds
from riglint.solve.hangers import Link, links
from riglint.solve.pulls import off_direction_rad
from riglint.solve.ratings import SHACKLES, place
from riglint.solve.worst import told, untold

_ASME = Basis("standard", "past 90 degrees off its line no shackle is loaded", ASME_B30_26, "fig. 26-1.9.1", "lifting",
              "read second hand")  # fmt: skip
_WAC = Basis("regulation", "bands of side load: 5, 45 and 90 degrees", WAC_296_155, "fig. 17", "lifting", "read")
_ASIDE = Basis("common practice", "a shackle pulled this far off its point's direction may be pulled aside")
_WORDS = Words(
    "{component} is pulled {measured} off its line; past {limit} it must not be loaded",
    "{component} is pulled {measured} off its line, {limit} at the most",
    "{component} is pulled {swing} off the direction of {point}; whether it swings that way can't be told",
    "Turn it so that the pull comes along it")  # fmt: skip
_UNTOLD = Words("", "", "whether {component} is pulled off its line can't be told")


@rule(
    title="A shackle pulled off its line", grade=Grade.WARNING, guards="connectors", basis=(_ASME, _WAC), once=True,
    limits=(
        Limit("most", radians(90.0), "rad", "farthest off its line that a shackle is loaded", _ASME, milder="higher"),
        Limit("aside", radians(45.0), "rad", "swing at a point past which the angle must be stated", _ASIDE, "higher"),
    ),
    worse=Worse.by(higher="connectors/*/off_line"))  # fmt: skip
def shackle_off_line(solution: Solution, limits: Limits) -> Checks:
    north = solution.rig.north_rad
    for stage in solution.stages:
        if stage.stations:
            for link in {link.connector.name: link for link in links(stage)}.values():
                if link.connector.facts.kind in SHACKLES:
                    yield from _shackle(stage, link, limits, north)


def _shackle(stage: StageSolution, link: Link, limits: Limits, north: float | None) -> Checks:
    shackle, point = link.connector, link.hung.chain.point
    where = Where("connector", shackle.name, shackle.pointer, "", stage.stage.index)
    stated = shackle.facts.off_line
    if stated:
        yield at_most(stated.high, limits["most"], "rad", where, _WORDS)
    elif point and link.beyond is None and point.facts.rated_direction:
        swing = _swing_rad(stage, shackle, point, north)
        if swing is None:
            yield at_most(None, limits["most"], "rad", where, _UNTOLD, missing=untold(stage))
        elif exceeds(swing, limits["aside"]):
            missing = (place(shackle.pointer, "off_line"),)
            terms = (("swing", Value(swing, "rad")), ("point", point.name))
            yield at_most(None, limits["most"], "rad", where, _WORDS, missing=missing, terms=terms)


def _swing_rad(stage: StageSolution, shackle: Connector, point: Point, north: float | None) -> float | None:
    """How far off the point's direction the shackle's worst loads pull; None where no load can be told."""
    direction, component = point.facts.rated_direction, stage.component("connector", shackle.name)
    ways = [stage.peaks[case][component.key].force for case in told(stage, component)] if component else []
    if not ways:
        return None
    assert direction is not None  # noqa: S101 -- asked of such points alone
    meant = heading(plan_angle(direction.mid, north))
    return max((off_direction_rad(unit(way), meant) for way in ways if any(way)), default=0.0)
