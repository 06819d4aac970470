"""The load's way in a stage against the slopes of the ground below it: where they disagree, one of them is a slip."""

from collections.abc import Iterator
from itertools import pairwise
from math import inf, radians

from riglint.plan.bodies import Ground, Travel
from riglint.plan.plan import Works
from riglint.reading.quantity import Span
from riglint.rig.faults import Faults

AS_STEEP_RAD = radians(1.0)
"""A climb and a slope that differ by less may be one, measured twice or in per cent."""

Slope = tuple[str, Span]  # where it stands in the ground's facts, and what it is


def check_way(
    ground: Ground, ground_at: str, works: Works, travel: Travel, travel_at: str, begins_m: float, faults: Faults
) -> None:  # fmt: skip
    """The load is let down no way that goes up, and climbs as its ground does.

    A climb of nothing says no more than that places were taped along the slope.
    """
    slopes = list(_slopes(ground, begins_m, begins_m + travel.distance.high))
    if not slopes:
        return
    lowest, highest = min(slope.low for _, slope in slopes), max(slope.high for _, slope in slopes)
    if works == "paying out" and lowest >= 0.0 and highest > 0.0:
        at = next(at for at, slope in slopes if slope.high > 0.0)
        serves = "write `down` where the load goes downhill, or let the winch haul"
        faults.add(f"{ground_at}/{at}", "the winch pays out, and the load's way goes uphill here", serves)
    climb = travel.climb.low if travel.climb else 0.0
    if climb and not lowest - AS_STEEP_RAD <= climb <= highest + AS_STEEP_RAD:
        serves = "write both along the load's way: `climb: 5 deg` on `slope: 5 deg up`, `climb: -5 deg` on one down"
        faults.add(f"{travel_at}/climb", "the way climbs otherwise than the slope of its ground", serves, of_whole=True)


def _slopes(ground: Ground, begins_m: float, ends_m: float) -> Iterator[Slope]:
    """The slopes stated of a stretch of the travel; a zone that states none has the ground's."""
    starts = [Span(-inf, -inf), *(zone.begins_at for zone in ground.zones), Span(inf, inf)]
    for i, (start, end) in enumerate(pairwise(starts)):
        zone = ground.zones[i - 1] if i else None
        own = zone.slope if zone else None
        slope = own or ground.slope
        if slope and start.low < ends_m and end.high > begins_m:
            yield (f"zones/{i - 1}/slope" if own else "slope"), slope
