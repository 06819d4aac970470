"""What the load resists with, from the plan's facts: doctrine, surface and slope, or as stated."""

from __future__ import annotations

from itertools import pairwise
from math import cos, inf, sin
from typing import NamedTuple

from riglint.mechanics.provenance import CIVIL_FORMULAS, DERIVATION
from riglint.mechanics.resistance import (
    GRADE_MULTIPLE,
    OVERTURN_MULTIPLE,
    mire_multiple_factor,
    rolling_fraction,
    rolling_fraction_by_penetration,
    tracked_reduction_fraction,
)
from riglint.mechanics.rounding import first_greatest, surpasses
from riglint.plan.bodies import Body, Ground, Zone
from riglint.reading.problems import quoted
from riglint.reading.quantity import Span
from riglint.solve.solution import ResistanceFigures, ResistancePart

NOTHING = Span(0.0, 0.0)
_BEARS = frozenset({"hard road", "firm track"})
"""Where nothing sinks in; on all else a load that isn't said to be free may be mired."""
SAME_M = 1e-9  # metres of travel that make no difference


class _Underfoot(NamedTuple):
    """The ground at one place of the travel: a zone's facts, or where it has none the ground's."""

    surface: str | None
    mired: str | None
    penetration: Span | None
    slope: Span | None


def zones_at(ground: Ground, travel_m: float, sets_out: bool) -> tuple[int | None, ...]:
    """The indices of the zones that a place of the travel may lie in; None for the ground before the first.

    On the border of two it is both, and so wherever the border may be; only what `sets_out` there has the first behind
    it. Range: never empty. Source: derivation.
    """
    begins = [Span(-inf, -inf), *(zone.begins_at for zone in ground.zones), Span(inf, inf)]
    left_behind = travel_m + SAME_M if sets_out else travel_m - SAME_M
    return tuple(
        number - 1 if number else None
        for number, (here, beyond) in enumerate(pairwise(begins))
        if here.low <= travel_m + SAME_M and beyond.high >= left_behind
    )


def _underfoot(ground: Ground, zone: Zone | None) -> _Underfoot:
    if zone is None:
        return _Underfoot(ground.surface, ground.mired, ground.penetration, ground.slope)
    return _Underfoot(  # no fact that is told counts as false: a level slope is a Span, too
        zone.surface or ground.surface,
        zone.mired or ground.mired,
        zone.penetration or ground.penetration,
        zone.slope or ground.slope,
    )


class ResistanceTable:
    """A load's resistance along its travel, each zone worked out once."""

    def __init__(self, name: str, load: Body) -> None:
        self._name, self._load = name, load
        self._ground = load.ground or Ground()
        self._seen: dict[tuple[int | None, bool], ResistanceFigures] = {}

    def at(self, travel_m: float, from_rest: bool, sets_out: bool) -> ResistanceFigures:
        """The most that it may resist with at a place; `from_rest` where it is broken away, or a stage `sets_out`."""
        there = [self._of(zone, from_rest) for zone in zones_at(self._ground, travel_m, sets_out)]
        return there[0] if len(there) == 1 else _most(there)

    def _of(self, zone: int | None, from_rest: bool) -> ResistanceFigures:
        key = (zone, from_rest)
        if key not in self._seen:
            self._seen[key] = _resistance(self._name, self._load, *key)
        return self._seen[key]


def _most(there: list[ResistanceFigures]) -> ResistanceFigures:
    """Of several, what resists most, holds most and drives most, and what any lacks."""
    worst = first_greatest(there, lambda one: one.hauling.high if one.hauling else -1.0)
    return worst._replace(
        holding=_greatest([one.holding for one in there]),
        driving=_greatest([one.driving for one in there]),
        ahead=_greatest([one.ahead for one in there]),
        missing=tuple(dict.fromkeys(fact for one in there for fact in one.missing)),
        rest_missing=tuple(dict.fromkeys(fact for one in there for fact in one.rest_missing)),
    )


def _greatest(forces: list[Span | None]) -> Span | None:
    known = [force for force in forces if force is not None]
    return first_greatest(known, lambda force: force.high) if known else None


def _times(span: Span, low: float, high: float) -> Span:
    return Span(min(span.low * low, span.high * low), max(span.low * high, span.high * high))


def _resistance(name: str, load: Body, zone_index: int | None, from_rest: bool) -> ResistanceFigures:
    ground = load.ground or Ground()
    under = _underfoot(ground, None if zone_index is None else ground.zones[zone_index])
    weight = load.weight
    at = f"/bodies/{name}"
    slope = under.slope
    rest_missing = [f"{at}/weight"] if weight is None else []
    rest_missing += [f"{at}/ground/slope"] if slope is None else []
    grade = _grade(weight, slope)
    doctrine = _doctrine(load, under, weight)
    surface = _surface(load, under, weight, grade)
    hauling, used, lacks = _hauling(load, at, under, doctrine, surface, grade, from_rest)
    missing = lacks if load.resistance else [*rest_missing, *lacks]
    holding = driving = None
    if grade is not None:
        holding = Span(max(0.0, grade.low), max(0.0, grade.high))
        driving = Span(max(0.0, -grade.high), max(0.0, -grade.low))
    lists = tuple(dict.fromkeys(missing)), tuple(rest_missing)
    ahead = _ahead(load, zone_index is not None, doctrine, surface, driving, slope)
    return ResistanceFigures(hauling, holding, driving, used, doctrine, surface, *lists, ahead)


def _grade(weight: Span | None, slope: Span | None) -> Span | None:
    if weight is None or slope is None:
        return None
    return _times(weight, sin(slope.low), sin(slope.high))


def _ahead(
    load: Body, further_on: bool, doctrine: tuple[ResistancePart, ...], surface: tuple[ResistancePart, ...],
    driving: Span | None, slope: Span | None,
) -> Span | None:  # fmt: skip
    """What drives a load along its travel beyond what it rolls or drags with at the least: W sin(a) - f W cos(a).

    Here the ground's hold helps, so what it presses less with on a slope is counted, as it isn't for hauling. A stated
    resistance is found where the load stands; of a zone `further_on` it says nothing.
    """
    stated = load.resistance is not None and not further_on
    if stated or any(not part.label.startswith("any slope") for part in doctrine):
        return NOTHING  # it has to be pulled
    if driving is None or slope is None or driving.high == 0.0:
        return driving
    moves = _moves(load, surface)
    if moves.rolls_untold or moves.drags_untold:
        return None
    holds_n = min([force.low for force in moves.rolling], default=0.0) + sum(force.low for force in moves.dragging)
    holds_n *= cos(min(slope))  # where it falls most
    return Span(0.0, driving.high - holds_n) if surpasses(driving.high, holds_n) else NOTHING


def _doctrine(load: Body, under: _Underfoot, weight: Span | None) -> tuple[ResistancePart, ...]:
    if weight is None:
        return ()
    parts = []
    if under.mired not in (None, "none"):
        multiple = mire_multiple_factor(str(under.mired))
        share = 1.0
        if load.running_gear == "tracks":
            share -= tracked_reduction_fraction(
                pulled_backwards=load.pulled == "backwards", power_applied=load.own_power is True
            ).value
        force = _times(weight, multiple.value * share, multiple.value * share)
        label = f"mired to {under.mired}: {multiple.value:g} x weight"
        parts.append(ResistancePart(label, force, multiple.source, multiple.locator, multiple.trust))
    if load.overturned:
        force = _times(weight, OVERTURN_MULTIPLE.value, OVERTURN_MULTIPLE.value)
        parts.append(ResistancePart("overturned: half the weight", force, *OVERTURN_MULTIPLE[1:]))
    if under.slope is not None and under.slope.high > 0.0:
        parts.append(ResistancePart("any slope: the weight, by doctrine", weight, *GRADE_MULTIPLE[1:]))
    return tuple(parts)


def _surface(load: Body, under: _Underfoot, weight: Span | None, grade: Span | None) -> tuple[ResistancePart, ...]:
    parts = []
    if weight is not None:
        dragged = _dragged(load)
        parts = _rolling(under, _times(weight, 1.0 - dragged.high, 1.0 - dragged.low)) if dragged.low < 1.0 else []
        parts += _dragging(load, _times(weight, dragged.low, dragged.high)) if dragged.high > 0.0 else []
    if grade is not None:
        parts.append(ResistancePart("slope: weight x sin(slope)", grade, DERIVATION, "statics", "derivation"))
    return tuple(parts)


def _dragged(load: Body) -> Span:
    """The share of the weight that doesn't roll: on locked wheels, or all of what has neither wheels nor tracks."""
    if load.running_gear == "none":
        return Span(1.0, 1.0)
    return load.wheels_locked or NOTHING


class _Moves(NamedTuple):
    """What a load that isn't stuck rolls and drags with, by each method, and whether one that it needs is not known."""

    rolling: list[Span]
    dragging: list[Span]
    rolls_untold: bool
    drags_untold: bool


def _moves(load: Body, surface: tuple[ResistancePart, ...]) -> _Moves:
    rolling, dragging = ([p.force for p in surface if p.label.startswith(how)] for how in ("rolling", "dragging"))
    dragged = _dragged(load)
    return _Moves(rolling, dragging, dragged.low < 1.0 and not rolling, dragged.high > 0.0 and not dragging)


def _dragging(load: Body, weight: Span) -> list[ResistancePart]:
    """Friction of what is dragged, by the grip that is stated of it. On a slope it presses less, which isn't counted.

    Equation: R = mu W. Source: derivation (Coulomb's law).
    """
    grip = load.ground.grip if load.ground else None
    if grip is None:
        return []
    force = Span(weight.low * grip.low, weight.high * grip.high)
    return [ResistancePart("dragging: grip x weight on what doesn't roll", force, DERIVATION, "statics", "derivation")]


def _rolling(under: _Underfoot, weight: Span) -> list[ResistancePart]:
    """Rolling by how deep the tyres sink and by the surface, the greater first, where the plan gives both."""
    parts = []
    if under.penetration is not None:
        low, high = (rolling_fraction_by_penetration(p) for p in under.penetration)
        parts.append(
            ResistancePart("rolling, by how deep the tyres sink", _times(weight, low, high),
                           CIVIL_FORMULAS, "earthmoving, 2 % + 1.5 % per inch", "read second hand")
        )  # fmt: skip
    band = rolling_fraction(under.surface) if under.surface is not None else None
    if band is not None:
        parts.append(ResistancePart(f"rolling on {under.surface}", _times(weight, band.low, band.high), *band[2:]))
    return sorted(parts, key=lambda part: -round(part.force.high, 6))


def _hauling(
    load: Body, at: str, under: _Underfoot, doctrine: tuple[ResistancePart, ...],
    surface: tuple[ResistancePart, ...], grade: Span | None, from_rest: bool,
) -> tuple[Span | None, str, list[str]]:  # fmt: skip
    """The resistance that the verdict uses, what it rests on, and the facts that it lacks."""
    if load.resistance is not None:
        stated = load.resistance
        force = stated.breakaway if from_rest and stated.breakaway else stated.steady
        return force, "as stated", []
    slope = grade or NOTHING
    mire = [f"{at}/ground/mired"] if under.mired is None and under.surface not in _BEARS else []
    by = {"mired": "the mire", "overturned": "an overturned load"}
    stuck = {why: p.force for p in doctrine for how, why in by.items() if p.label.startswith(how)}
    if stuck:
        total = Span(sum(f.low for f in stuck.values()) + slope.low, sum(f.high for f in stuck.values()) + slope.high)
        used = f"doctrine for {' and for '.join(stuck)}, plus the slope's share of the weight"
        return _never_below_nothing(total), used, mire
    moves = _moves(load, surface)
    lacks = [f"{at}/ground/grip"] if moves.drags_untold else []
    if moves.rolls_untold:
        lacks += [f"{at}/ground/mired"] if under.mired is None else []
        lacks.append(_no_figure(at, under.surface) if under.surface else f"{at}/ground/surface")
    if lacks:
        return None, "not known", lacks
    moving = moves.rolling[:1] + moves.dragging
    total = Span(sum(f.low for f in moving) + slope.low, sum(f.high for f in moving) + slope.high)
    how = " and ".join([*(["rolling"] if moves.rolling else []), *(["dragging"] if moves.dragging else [])])
    return _never_below_nothing(total), f"{how} on the surface, plus the slope's share of the weight", mire


def _no_figure(at: str, surface: str) -> str:
    """What is asked for where the surface is stated: whoever wrote it can't know which ones sources name."""
    return f"{at[1:]}/ground: penetration, since no figure is published for {quoted(surface)}"


def _never_below_nothing(force: Span) -> Span:
    return Span(max(0.0, force.low), max(0.0, force.high))
