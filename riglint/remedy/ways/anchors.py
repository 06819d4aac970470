"""Anchors: what hangs on one point made fast to another, and vehicles that stand elsewhere."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import hypot
from typing import Any, NamedTuple

from riglint.mechanics.vectors import Vec, distance
from riglint.outcome import Finding, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import Operation, put, replace, value_at
from riglint.remedy.quantity import exact_place
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Point, RigStage

_FROM = re.compile(r" from (\S+?)(?:,|$)")
_STEPS_M = (1.0, 2.0, 3.0, 5.0, 8.0)
_MOST_POINTS = 8


class Use(NamedTuple):
    """A place in the plan's data where a point is named as what gear is made fast to, and what gear."""

    pointer: str
    what: str


def other_point(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """One of the things that hang on a point made fast to another point of the plan, the nearest first."""
    stage = shop.rig.stages[finding.check.where.stage]
    point = point_of(stage, finding)
    if point is None:
        return
    uses = list(uses_of(shop.data, stage, point.name))
    for other in others(stage, point):
        for use in uses:
            if _doubles(shop.data, use, other.name):
                continue
            terms = (("what", use.what), ("point", point.name), ("other", other.name))
            words = "make {what} fast to {other} in place of {point}"
            yield Proposal(words, terms, (replace(use.pointer, other.name),), guards=(other.pointer,))


def others(stage: RigStage, point: Point) -> list[Point]:
    """Points on the same side of the pull, the nearest first; a winch's mount is none to make fast to."""
    same = [
        other for other in stage.points.values()
        if other.name != point.name and other.body.moves == point.body.moves and other.facts.kind != "winch mount"
    ]  # fmt: skip
    return sorted(same, key=lambda other: (distance(other.at, point.at), other.name))[:_MOST_POINTS]


def uses_of(data: Any, stage: RigStage, point: str) -> Iterator[Use]:
    """Where a stage names a point: ends of lines, hangers of redirects, legs of bridles."""
    for line in stage.lines:
        path = value_at(data, f"{line.pointer}/path") or []
        for index in sorted({0, len(path) - 1}) if path else ():
            yield from _in_chain(f"{line.pointer}/path/{index}", path[index], point, f"the end of {line.name}")
    for redirect in stage.redirects.values():
        at = f"{redirect.pointer}/hung_from"
        yield from _in_chain(at, value_at(data, at), point, redirect.name)
    for connector in stage.connectors.values():
        for i, leg in enumerate(value_at(data, f"{connector.pointer}/legs") or []):
            if leg.get("to") == point:
                yield Use(f"{connector.pointer}/legs/{i}/to", f"a leg of {connector.name}")


def _doubles(data: Any, use: Use, other: str) -> bool:
    """Whether two legs of a bridle would go to one point, which shares nothing."""
    bridle, legs, _ = use.pointer.rpartition("/legs/")
    return bool(legs) and any(leg.get("to") == other for leg in value_at(data, f"{bridle}/legs") or [])


def _in_chain(at: str, chain: Any, point: str, what: str) -> Iterator[Use]:
    if chain == point:
        yield Use(at, what)
    elif isinstance(chain, list) and chain and chain[-1] == point:
        yield Use(f"{at}/{len(chain) - 1}", what)


def point_of(stage: RigStage, finding: Finding) -> Point | None:
    """The point that a finding is about."""
    where = finding.check.where
    if where.kind == "bridle leg":
        return next((p for p in stage.points.values() if p.name in where.name.replace("/", " ").split()), None)
    return next((p for p in stage.points.values() if p.pointer == where.pointer), None)


def move_vehicle(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A vehicle that stays while the load comes, to one side or nearer or farther: the shortest move first."""
    stage = shop.rig.stages[finding.check.where.stage]
    bodies = [b for b in stage.bodies.values() if not b.moves and b.name != "ground"]
    movable = [(name, points) for name in sorted(b.name for b in bodies) if (points := _movable(shop, stage, name))]
    along = stage.direction
    size = hypot(along[0], along[1]) or 1.0
    ahead: Vec = (along[0] / size, along[1] / size, 0.0)
    left: Vec = (-ahead[1], ahead[0], 0.0)
    ways = (("to the left, looking the way of the pull", left, 1.0), ("nearer to the load", ahead, -1.0),
            ("to the right, looking the way of the pull", left, -1.0), ("farther off", ahead, 1.0))  # fmt: skip
    for step in _STEPS_M:
        for name, points in movable:
            for words, way, sign in ways:
                by = (way[0] * sign * step, way[1] * sign * step, 0.0)
                changes = tuple(_moved(shop, points, name, by, stage))
                terms = (("body", name), ("far", Value(step, "m")), ("way", words))
                yield Proposal("move {body} by {far} {way}", terms, changes)


def _movable(shop: Workshop, stage: RigStage, body: str) -> list[Point]:
    """Its points, if moving them is all there is to it: no other place is measured from one of them."""
    points = [p for p in stage.points.values() if p.body.name == body]
    if shop.data.get("stages") or any(not p.pointer.startswith("/points/") for p in points):
        return []
    names = {p.name for p in points}
    return [] if any(origin in names for origin in origins(shop.data)) else points


def origins(data: Any) -> Iterator[str]:
    """The names that places are measured from."""
    if isinstance(data, str):
        yield from _FROM.findall(data) if " bearing " in data else ()
    elif isinstance(data, dict | list):
        for inner in data.values() if isinstance(data, dict) else data:
            yield from origins(inner)


def _moved(shop: Workshop, points: list[Point], body: str, by: Vec, stage: RigStage) -> Iterator[Operation]:
    for point in points:
        at = (point.at[0] + by[0], point.at[1] + by[1], point.at[2])
        yield replace(f"{point.pointer}/at", _tidy(at))
    middle = f"/bodies/{body}/outline/middle"
    where = stage.bodies[body].middle
    if where is not None and value_at(shop.data, middle) is not None:
        yield put(shop.data, middle, _tidy((where[0] + by[0], where[1] + by[1], where[2])))


def _tidy(at: Vec) -> list[str]:
    return exact_place(tuple(round(c, 3) for c in at))
