"""Angles between the legs of baskets and bridles.

The wider the legs of a sling or bridle stand apart, the more each carries: at 120 degrees
between them each leg carries the whole pull, and beyond that more than it. Wide legs also
draw what they hold together, and slide.

How it is judged: a basket by the angle stated for its legs, a bridle by the widest angle
between two of its legs at any station where it carries, against 120 degrees (legs at 30 degrees from level,
across the pull): past that, WARNING. Past 90 degrees (legs at 45) it is a CAUTION.

    leg = pull / (2 cos(included / 2))

Sources: 120 degrees is the limit of shackle and sling practice (ASME B30.26, 26-1.9, for
two legs in a bow); the Navy's course (NAVEDTRA 14080) keeps above 45 degrees and near 30
avoids it at all cost. Lifting sources all, but the angle does the same on a winch line.

What to do: a longer sling or bridle, or points nearer to each other.

Worked example: 40 kN on a bridle at 100 degrees, cos 50 deg = 0.6428.
pull = 40 kN; cosine = 0.6428; leg = pull / (2 * cosine) = 31.11 kN
"""

from itertools import combinations
from math import radians

from riglint.mechanics.provenance import ASME_B30_26
from riglint.mechanics.vectors import sub, unit
from riglint.outcome import Result, Where
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most
from riglint.solve.hangers import Link, links
from riglint.solve.loose import hangs_slack
from riglint.solve.pulls import off_direction_rad
from riglint.solve.solution import Station

_WIDEST = Basis("standard", "two legs at 120 degrees at the most", ASME_B30_26, "26-1.9", "lifting", "read second hand")
_NAVY = Basis("handbook", "keep legs above 45 degrees from level", "navedtra-14080", "bridle hitch", "lifting", "read")
_WORDS = Words(
    "the legs of {component} stand {measured} apart; {limit} is the most",
    "the legs of {component} stand {measured} apart, {limit} at the most",
    "how wide the legs of {component} stand can't be told",
    "Use a longer one, so that its legs stand closer together")  # fmt: skip


@rule(
    title="Legs of a sling or bridle too wide apart", grade=Grade.WARNING, guards="connectors",
    basis=(_WIDEST, _NAVY), once=True,
    limits=(
        Limit("widest", radians(120.0), "rad", "widest angle between two legs", _WIDEST, milder="higher"),
        Limit("wide", radians(90.0), "rad", "angle between two legs that asks for care", _NAVY, milder="higher"),
    ),
    worse=Worse.by(higher="connectors/*/leg_angle", taken_away="connectors/*/leg_angle"))  # fmt: skip
def sling_angle(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        if stage.stations:
            for link in {link.connector.name: link for link in links(stage)}.values():
                yield from _connector(stage, link, limits)


def _connector(stage: StageSolution, link: Link, limits: Limits) -> Checks:
    connector, facts = link.connector, link.connector.facts
    where = Where("connector", connector.name, connector.pointer, "", stage.stage.index)
    if facts.kind == "bridle":
        loaded = [s for s in stage.stations if not hangs_slack(stage, s, "connector", connector.name)]
        if not loaded:
            return
        angle = _bridle_rad(loaded, link)
    elif facts.wrapped == "basket":
        angle = facts.leg_angle.high if facts.leg_angle else None
    else:
        return
    missing = () if angle is not None else (place(connector.pointer, "leg_angle"),)
    widest = at_most(angle, limits["widest"], "rad", where, _WORDS, missing=missing, basis=_WIDEST)
    if widest.result is Result.PASSED:
        yield at_most(angle, limits["wide"], "rad", where, _WORDS, basis=_NAVY, grade=Grade.CAUTION)
    else:
        yield widest


def _bridle_rad(stations: list[Station], link: Link) -> float | None:
    """The widest angle between two legs while they carry, seen from the bridle's middle."""
    redirect = link.hung.redirect
    angles = []
    for station in stations:
        hub = station.places.get(link.connector.name) or (station.places.get(redirect.name) if redirect else None)
        if hub:
            ways = [unit(sub(station.places[arm.point.name], hub)) for arm in link.hung.chain.arms]
            angles += [off_direction_rad(a, b) for a, b in combinations(ways, 2)]
    return max(angles, default=None)
