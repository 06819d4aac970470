"""How far from straight ahead the rope comes to the drum.

Rope that comes from one side piles up there. It climbs the flange, drops off the pile
with a jerk, and cuts in between the wraps below.

How it is judged: with a hawse or rollers, the greatest angle over the travel by which the
first leg lies to the side of where the fairlead looks, at most 15 degrees. How steeply it
rises or falls is no matter here, since the barrel lies level. The farther the fairlead stands
ahead, the greater, so that without that only too great an angle is told. A drum without one
(`kind: none`) is fed by the first redirect or the load alone: the angle from there to the
drum's far edge may be at most 1.5 degrees on a plain barrel and 2 on a grooved one, as
makers of fixed winches ask. Such an angle can't be had at the short distance of a
built-in fairlead, and is not asked for there.

    tan(angle) = (width / 2 + off_centre) / distance, for a drum without a fairlead

Common practice; no public standard was read for vehicle winches.

What to do: turn the vehicle to face the pull, or lead the line over a block straight
ahead of the winch. If it must be, pull a little at a time, and see to the drum.

Worked example: a drum of 225 mm without a fairlead, the anchor 12 m off.
half_width = 0.1125 m; distance = 12 m; tangent = half_width / distance = 0.009375
"""

from math import radians

from riglint.outcome import Grade, Where
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, exceeds, first_greatest, first_least
from riglint.solve.drum_figures import fleet_angle as angle_to_edge
from riglint.solve.rope import aside, stages

_LEAD = Basis("common practice", "a pull up to 15 degrees off straight ahead winds well enough", scope="winching")
_OPEN = Basis("common practice", "1.5 degrees on a plain drum, 2 on a grooved one", scope="general")

_WORDS = Words(
    "the line leaves {measured} off straight ahead at {travel} of travel, more than {limit}: rope piles up on one side",
    "the line leaves {measured} off straight ahead at the most",
    "how far from straight ahead the line leaves can't be told",
    "Turn the winch to face the pull, or lead the line over a block straight ahead of it")  # fmt: skip
_DRUM = _WORDS._replace(fails="the line comes to the drum's edge at {measured}, more than {limit}: rope piles up")


@rule(
    title="Line off straight ahead of the drum", grade=Grade.CAUTION, guards="drum", basis=(_LEAD, _OPEN),
    limits=(
        Limit("lead", radians(15.0), "rad", "line off straight ahead at a fairlead", _LEAD, "higher"),
        Limit("plain", radians(1.5), "rad", "line at the edge of a plain drum without a fairlead", _OPEN, "higher"),
        Limit("grooved", radians(2.0), "rad", "line at the edge of a grooved drum without one", _OPEN, "higher"),
    ),
    worse=Worse.by(higher="winch/drum/width", taken_away="winch/fairlead/bearing winch/fairlead"))  # fmt: skip
def fleet_angle(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        fairlead = stage.stage.winch.facts.fairlead
        bare = fairlead is not None and fairlead.kind == "none"
        yield _open(stage, limits) if bare else _lead(stage, limits)


def _lead(stage: StageSolution, limits: Limits) -> Check:
    turned, fairlead = aside(stage), stage.stage.winch.facts.fairlead
    where = Where("winch", "winch", stage.stage.winch.pointer, "", stage.stage.index)
    keys = (("ahead", fairlead.ahead), ("bearing", fairlead.bearing)) if fairlead else ()
    missing = tuple(place("/winch/fairlead", key) for key, stated in keys if stated is None)
    if not turned or fairlead is None or fairlead.bearing is None:
        missing = missing or (place("/winch", "fairlead"),)
        return at_most(None, limits["lead"], "rad", where, _WORDS, missing=missing, grade=Grade.NOTICE)
    station, worst = first_greatest(turned, lambda x: x[1])
    where = where._replace(travel_m=station.travel_m)
    untold = Grade.NOTICE if missing and not exceeds(worst, limits["lead"]) else None
    return at_most(worst, limits["lead"], "rad", where, _WORDS, missing=missing, grade=untold)


def _open(stage: StageSolution, limits: Limits) -> Check:
    winch = stage.stage.winch
    nearest = first_least(stage.stations, lambda s: s.legs[0].length_m)
    where = Where("winch", "winch", winch.pointer, "", stage.stage.index, nearest.travel_m)
    drum, fairlead = winch.facts.drum, winch.facts.fairlead
    limit = limits["grooved" if drum and drum.grooved else "plain"]
    if drum is None:
        missing = (place(winch.pointer, "drum"),)
        return at_most(None, limit, "rad", where, _DRUM, missing=missing, grade=Grade.NOTICE)
    off = fairlead.off_centre if fairlead else None
    off_m = max(abs(off.low), abs(off.high)) if off else 0.0
    return at_most(angle_to_edge(off_m, drum.width.high, nearest.legs[0].length_m), limit, "rad", where, _DRUM)
