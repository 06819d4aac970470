"""The load: how far its resistance, the slope under it or its way can change before the verdict does.

More resistance never gives a milder verdict, so that there is one such place; slope and swing can go either way.
"""

from __future__ import annotations

from math import degrees, radians
from typing import Final

from riglint.reading.quantity import Span, parse_quantity
from riglint.remedy.patch import Operation, replace, value_at
from riglint.remedy.quantity import newtons, number
from riglint.remedy.room.model import Headroom, is_growing, told, untold
from riglint.remedy.room.search import searched
from riglint.remedy.workshop import Workshop

_MORE: Final = (1.05, 1.1, 1.2, 1.35, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0, 6.0, 10.0)
_LESS: Final = (0.95, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.05)
_SLOPES: Final = tuple(map(radians, (0.5, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 11.0, 15.0, 20.0, 27.0, 35.0, 45.0)))
_SWINGS: Final = tuple(map(radians, (1.0, 2.0, 4.0, 7.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 75.0)))
_STEEPEST: Final = radians(60.0)


def resistance(shop: Workshop) -> Headroom:
    """The resistance as stated, or else the weight that it is worked out from, times a factor."""
    load = shop.rig.stages[0].load
    met = [s.resistance for stage in shop.solution.stages for s in stage.stations]
    now = max((span.high for r in met for span in (r.hauling, r.holding, r.driving) if span), default=None)
    stated = f"{load.pointer}/resistance"
    spans = {f"{stated}/steady": load.facts.resistance and load.facts.resistance.steady,
             f"{stated}/breakaway": load.facts.resistance and load.facts.resistance.breakaway}  # fmt: skip
    if load.facts.resistance is None:
        spans = {f"{load.pointer}/weight": load.facts.weight}
    kept = {at: span for at, span in spans.items() if span}
    if now is None or not kept:
        return untold("resistance", load.name, "N", "the resistance of the load can't be told")

    def changes(factor: float) -> tuple[Operation, ...]:
        return tuple(replace(at, newtons(span.low * factor, span.high * factor)) for at, span in kept.items())

    found = searched(shop, changes, 1.0, _MORE if is_growing(shop) else _LESS)
    return told(shop, ("resistance", load.name, "N"), now, lambda factor: now * factor, found)


def slope(shop: Workshop) -> Headroom:
    """The slope under the load and of its zones, all of them steeper or gentler by the same angle."""
    load = shop.rig.stages[0].load
    ground = load.facts.ground
    spans: dict[str, Span] = {}
    if ground and ground.slope:
        spans[f"{load.pointer}/ground/slope"] = ground.slope
    for i, zone in enumerate(ground.zones if ground else ()):
        if zone.slope:
            spans[f"{load.pointer}/ground/zones/{i}/slope"] = zone.slope
    if not spans:
        return untold("slope", load.name, "rad", "the slope under the load isn't stated")
    now = max(span.high for span in spans.values())

    def changes(by: float) -> tuple[Operation, ...] | None:
        tilted = {at: Span(span.low + by, span.high + by) for at, span in spans.items()}
        if any(abs(end) > _STEEPEST for span in tilted.values() for end in span):
            return None
        return tuple(replace(at, slope_text(span)) for at, span in tilted.items())

    found = searched(shop, changes, 0.0, _SLOPES if is_growing(shop) else [-by for by in _SLOPES])
    return told(shop, ("slope", load.name, "rad"), now, lambda by: now + by, found)


def slope_text(slope: Span) -> str:
    """A slope as a plan says it; of a range that goes both up and down, the steeper end."""
    low, high = (degrees(end) for end in slope)
    if low < 0.0 < high:
        low = high = high if high >= -low else low
    one, other = sorted((abs(low), abs(high)))
    way = "down" if high < 0.0 else "up"
    return f"{number(one)} deg {way}" if one == other else f"{number(one)} deg to {number(other)} deg {way}"


def swing(shop: Workshop) -> Headroom:
    """The way of the load turned, to the side to which less of it changes the verdict."""
    load = shop.rig.stages[0].load
    ways = [f"{load.pointer}/moves", *(f"/stages/{i}/moves" for i in range(len(shop.data.get("stages", ()))))]
    bearings: dict[str, float] = {}
    for at in ways:
        own = value_at(shop.data, f"{at}/bearing")
        if own is not None:
            bearings[f"{at}/bearing"] = parse_quantity(str(own), "angle").low
    if not bearings:
        return untold("swing", load.name, "rad", "the plan gives the way of the load no bearing")

    def changes(by: float) -> tuple[Operation, ...]:
        turned = {at: degrees(bearing + by) % 360.0 for at, bearing in bearings.items()}
        return tuple(replace(at, f"{number(turn)} deg") for at, turn in turned.items())

    sides = [searched(shop, changes, 0.0, [by * side for by in _SWINGS]) for side in (1.0, -1.0)]
    found = min(sides, key=lambda s: (s.last is None, abs(s.looked_to if s.last is None else s.last)))
    found = found._replace(steady=all(side.steady for side in sides))
    return told(shop, ("swing", load.name, "rad"), 0.0, abs, found)
