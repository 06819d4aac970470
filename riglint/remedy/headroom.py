"""Headroom: how far the resistance, the slope or the way of the load can change before the verdict does.

Found by root search: the plan is worked out anew at growing values until the verdict is another, and the place of
the change is then closed in by halving. More resistance never gives a milder verdict, so that there is one such
place; slope and swing can go either way, and whatever is seen of that is told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from math import degrees, radians
from typing import Final, Literal, NamedTuple

from riglint.outcome import Inspection, Result, Unit, Verdict
from riglint.reading.document import Document
from riglint.reading.quantity import Span
from riglint.remedy.patch import Operation, replace, value_at
from riglint.remedy.quantity import newtons, number
from riglint.remedy.workshop import Engine, Workshop
from riglint.solve.solution import Solution

Of = Literal["resistance", "slope", "swing"]

_MORE: Final = (1.05, 1.1, 1.2, 1.35, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0, 6.0, 10.0)
_LESS: Final = (0.95, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.05)
_SLOPES: Final = tuple(map(radians, (0.5, 1.0, 2.0, 3.0, 4.0, 6.0, 8.0, 11.0, 15.0, 20.0, 27.0, 35.0, 45.0)))
_SWINGS: Final = tuple(map(radians, (1.0, 2.0, 4.0, 7.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0, 75.0)))
_STEEPEST: Final = radians(60.0)
_CLOSE: Final = 1e-4  # of the bracket's own size
_GRAVITY_OF: Final = {Verdict.CLEAR: 0, Verdict.CANT_TELL: 1, Verdict.NOT_CLEAR: 2}


class Headroom(NamedTuple):
    """How far one thing can change. `factor` is what a resistance is multiplied with, `by` what an angle grows by.

    `then` is the verdict beyond and `rules` what first changes it. None in `at` and `then`: the verdict holds as
    far as was looked (`looked_to`). Where the verdict is already not clear, the search goes the other way, to
    where it would not be. `steady` says whether the verdict only went one way over all that was looked at.
    """

    of: Of
    name: str
    unit: Unit  # of `now`, `at` and `looked_to`
    now: float | None
    at: float | None
    change: float | None  # factor (resistance) or angle in radians, at which the verdict changes
    then: Verdict | None
    rules: tuple[str, ...]
    looked_to: float | None
    growing: bool
    steady: bool
    why_not: str = ""


class _Seen(NamedTuple):
    verdict: Verdict
    found: frozenset[tuple[str, str, Result]]  # rule, component and how, of what halts


Changes = Callable[[float], tuple[Operation, ...] | None]


class _Search(NamedTuple):
    change: float | None
    then: _Seen | None
    looked_to: float
    steady: bool


def headroom(document: Document, solution: Solution, inspection: Inspection, engine: Engine) -> tuple[Headroom, ...]:
    """The headroom of the load's resistance, its slope, and the swing of its way."""
    shop = Workshop(document, solution, inspection, engine)
    return (_resistance(shop), _slope(shop), _swing(shop))


def _resistance(shop: Workshop) -> Headroom:
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
        return _untold("resistance", load.name, "N", "the resistance of the load can't be told")

    def changes(factor: float) -> tuple[Operation, ...]:
        return tuple(replace(at, newtons(span.low * factor, span.high * factor)) for at, span in kept.items())

    growing = shop.inspection.verdict is not Verdict.NOT_CLEAR
    found = _searched(shop, changes, 1.0, _MORE if growing else _LESS)
    at = None if found.change is None else now * found.change
    return _told(shop, ("resistance", load.name, "N"), now, at, now * found.looked_to, found, growing)


def _slope(shop: Workshop) -> Headroom:
    load = shop.rig.stages[0].load
    ground = load.facts.ground
    spans: dict[str, Span] = {}
    if ground and ground.slope:
        spans[f"{load.pointer}/ground/slope"] = ground.slope
    for i, zone in enumerate(ground.zones if ground else ()):
        if zone.slope:
            spans[f"{load.pointer}/ground/zones/{i}/slope"] = zone.slope
    if not spans:
        return _untold("slope", load.name, "rad", "the slope under the load isn't stated")
    now = max(span.high for span in spans.values())

    def changes(by: float) -> tuple[Operation, ...] | None:
        tilted = {at: Span(span.low + by, span.high + by) for at, span in spans.items()}
        if any(abs(end) > _STEEPEST for span in tilted.values() for end in span):
            return None
        return tuple(replace(at, slope_text(span)) for at, span in tilted.items())

    growing = shop.inspection.verdict is not Verdict.NOT_CLEAR
    found = _searched(shop, changes, 0.0, _SLOPES if growing else [-by for by in _SLOPES])
    at = None if found.change is None else now + found.change
    return _told(shop, ("slope", load.name, "rad"), now, at, now + found.looked_to, found, growing)


def slope_text(slope: Span) -> str:
    """A slope as a plan says it; of a range that goes both up and down, the steeper end."""
    low, high = (degrees(end) for end in slope)
    if low < 0.0 < high:
        low = high = high if high >= -low else low
    one, other = sorted((abs(low), abs(high)))
    way = "down" if high < 0.0 else "up"
    return f"{number(one)} deg {way}" if one == other else f"{number(one)} deg to {number(other)} deg {way}"


def _swing(shop: Workshop) -> Headroom:
    """The way of the load turned, to the side to which less of it changes the verdict."""
    load = shop.rig.stages[0].load
    ways = [f"{load.pointer}/moves", *(f"/stages/{i}/moves" for i in range(len(shop.data.get("stages", ()))))]
    bearings: dict[str, float] = {}
    for at in ways:
        own = value_at(shop.data, f"{at}/bearing")
        if own is not None:
            bearings[f"{at}/bearing"] = _bearing(shop, at)

    def changes(by: float) -> tuple[Operation, ...]:
        turned = {at: degrees(bearing + by) % 360.0 for at, bearing in bearings.items()}
        return tuple(replace(at, f"{number(turn)} deg") for at, turn in turned.items())

    growing = shop.inspection.verdict is not Verdict.NOT_CLEAR
    sides = [_searched(shop, changes, 0.0, [by * side for by in _SWINGS]) for side in (1.0, -1.0)]
    found = min(sides, key=lambda s: abs(s.change) if s.change is not None else radians(360.0))
    found = found._replace(steady=all(side.steady for side in sides))
    change = None if found.change is None else abs(found.change)
    return _told(shop, ("swing", load.name, "rad"), 0.0, change, abs(found.looked_to), found, growing)


def _bearing(shop: Workshop, at: str) -> float:
    from riglint.reading.quantity import parse_quantity  # noqa: PLC0415 -- only where headroom is asked for

    return parse_quantity(str(value_at(shop.data, f"{at}/bearing")), "angle").low


def _untold(of: Of, name: str, unit: Unit, why: str) -> Headroom:
    return Headroom(of, name, unit, None, None, None, None, (), None, True, True, why)


def _told(
    shop: Workshop, what: tuple[Of, str, Unit], now: float, at: float | None, to: float, found: _Search, growing: bool
) -> Headroom:
    rules: tuple[str, ...] = ()
    if found.then:
        own = _seen(shop.inspection).found
        change = found.then.found - own if growing or what[0] == "swing" else own - found.then.found
        rules = tuple(sorted({rule for rule, _, _ in change}))
    then = found.then.verdict if found.then else None
    return Headroom(*what, now, at, found.change, then, rules, to, growing, found.steady)


def _searched(shop: Workshop, changes: Changes, start: float, grid: Iterable[float]) -> _Search:
    """The first change of the verdict along the grid, closed in by halving; and whether it went one way only."""
    own = _seen(shop.inspection)
    tried = [(start, own), *_grid(shop, changes, grid)]
    after = next((i for i, (_, seen) in enumerate(tried) if seen.verdict is not own.verdict), None)
    ranks = [_GRAVITY_OF[seen.verdict] for _, seen in tried]
    steady = ranks == sorted(ranks) or ranks == sorted(ranks, reverse=True)
    if after is None:
        return _Search(None, None, tried[-1][0], steady)
    (low, _), (high, beyond) = tried[after - 1], tried[after]
    close = _CLOSE * abs(high - low)
    while abs(high - low) > close:
        middle = low + (high - low) / 2.0
        seen = _at(shop, changes, middle)
        if seen is None or seen.verdict is not own.verdict:
            high, beyond = middle, seen or beyond
        else:
            low = middle
    return _Search(low, beyond, tried[-1][0], steady)


def _grid(shop: Workshop, changes: Changes, grid: Iterable[float]) -> Iterator[tuple[float, _Seen]]:
    for value in grid:
        seen = _at(shop, changes, value)
        if seen is None:
            return
        yield value, seen


def _at(shop: Workshop, changes: Changes, value: float) -> _Seen | None:
    made = changes(value)
    trial = shop.try_(made) if made else None
    return _seen(shop.inspect(trial)) if trial else None


def _seen(inspection: Inspection) -> _Seen:
    grave = [f for f in inspection.findings if f.grade.at_least(inspection.halting) and not f.waived]
    failed = inspection.verdict is Verdict.NOT_CLEAR
    kept = [f for f in grave if not failed or f.result is Result.FAILED]
    return _Seen(inspection.verdict, frozenset((f.rule, f.check.where.name, f.result) for f in kept))
