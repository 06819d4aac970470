"""Which way a point is pulled at each station. Worked out only when a rule asks for it."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from riglint.mechanics.envelope import CANCELS
from riglint.mechanics.rounding import first_greatest
from riglint.mechanics.vectors import ZERO, Vec, along, between_rad, dot, heading, norm, scale, sub, unit
from riglint.rig.model import Chain, Point
from riglint.solve.solution import Leg, StageSolution, Station


def pulls_on(stage: StageSolution, point: Point) -> Iterator[tuple[Station, Vec]]:
    """At each station the direction of the sum of all that pulls on a point; zero where it cancels out."""
    nodes = {name for name in (*stage.stage.redirects, "winch", point.name) if _held(stage, name) == point.name}
    hubs = [hub for hub, chain in bridles(stage) if any(arm.point.name == point.name for arm in chain.arms)]
    for station in stage.stations:
        force, total = ZERO, 0.0
        for leg in station.legs:
            way = unit(sub(leg.end, leg.start))
            if leg.begins in nodes:
                force, total = along(force, way, _tension(leg)), total + _tension(leg)
            if leg.ends in nodes:
                force, total = along(force, way, -_tension(leg)), total + _tension(leg)
        for hub in hubs:
            force = along(force, unit(sub(station.places[hub], station.places[point.name])), 1.0)
            total += 1.0
        yield station, unit(force) if norm(force) > CANCELS * total else ZERO


def rated_way(stage: StageSolution, point: Point, bearing_rad: float) -> Vec:
    """The direction of a level bearing; on the load, which lies along its travel, tilted as the travel climbs."""
    level = heading(bearing_rad)
    return tilted(stage, level) if point.body.moves else level


def tilted(stage: StageSolution, direction: Vec) -> Vec:
    """A direction of a load on level ground as it comes to be where its travel climbs. Source: geometry."""
    way = unit(stage.stage.direction)
    ahead, left = unit((way[0], way[1], 0.0)), unit((-way[1], way[0], 0.0))
    flat = hypot(way[0], way[1])
    up = along(scale(ahead, -way[2]), (0.0, 0.0, 1.0), flat)
    return along(along(scale(way, dot(direction, ahead)), left, dot(direction, left)), up, direction[2])


def off_direction_rad(way: Vec, rated: Vec) -> float:
    """The angle between two unit vectors, in three dimensions [rad]. Source: geometry."""
    return between_rad(way, rated)


def farthest_off(stage: StageSolution, point: Point, rated: Vec) -> tuple[float, int] | None:
    """How far off a direction a point is pulled at the most, and at which station; None if all that pulls cancels out.

    Equation: as `off_direction_rad`. Source: geometry
    """
    off = [(off_direction_rad(way, rated), s.index) for s, way in pulls_on(stage, point) if any(way)]
    return first_greatest(off, lambda one: one[0]) if off else None


def _held(stage: StageSolution, node: str) -> str | None:
    """The point that a leg's end is held by in the end, through connectors and other redirects."""
    if node == "winch":
        return stage.stage.winch.mount.name
    redirect = stage.stage.redirects.get(node)
    if redirect is None:
        return node if node in stage.stage.points else None
    hanger = redirect.hanger
    if hanger is None or hanger.arms:
        return None
    return hanger.point.name if hanger.point else _held(stage, str(hanger.redirect))


def bridles(stage: StageSolution) -> Iterator[tuple[str, Chain]]:
    """Bridles by the node that their legs meet at: the bridle itself, or the redirect that it holds."""
    for line in stage.stage.lines:
        for chain in (line.first, line.dead_end):
            if chain and chain.arms:
                yield chain.connectors[-1].name, chain
    for redirect in stage.stage.redirects.values():
        if redirect.hanger and redirect.hanger.arms:
            hub = redirect.hanger.connectors[-1].name
            yield (hub if stage.stations and hub in stage.stations[0].places else redirect.name), redirect.hanger


def _tension(leg: Leg) -> float:
    return leg.tension.get("stall") or leg.tension.get("expected") or 1.0
