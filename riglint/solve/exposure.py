"""Which danger areas somebody is in: on foot by place, in a vehicle by the legs that end on it."""

from collections.abc import Iterator
from math import radians
from typing import Final, Literal, NamedTuple

from riglint.mechanics.danger import STAND_OFF_STRICT
from riglint.mechanics.plan_view import cone_reach_m, inside_turn, plan_distance_m
from riglint.mechanics.vectors import Vec, along, sub
from riglint.rig.model import Body, Person, RigStage
from riglint.solve.danger_areas import Bight, Corridor, DangerAreas, Flight, body_of, danger_areas
from riglint.solve.kept import kept
from riglint.solve.solution import StageSolution

CLEARANCE_M: Final = 1.8288  # 6 ft, which a navy course keeps handlers from what holds a line (NAVEDTRA 14160)
HALF_ANGLE_RAD: Final = radians(15.0)  # common practice
How = Literal["beside", "recoil", "flight", "inside", "angle"]


class Zone(NamedTuple):
    """How wide areas are taken to be."""

    clearance_m: float  # beside a leg
    half_angle_rad: float  # of the cones of recoil and flight
    lengths: float  # how many times its reach an area counts


class Exposure(NamedTuple):
    """Somebody in an area: how, how far off, and at how many times the area's reach it covers the place."""

    how: How
    area: Corridor | Bight | Flight
    distance_m: float
    lengths: float
    areas: DangerAreas

    @property
    def source(self) -> str:
        """What it comes from: the redirect or what holds a line's end, else the near end of the leg."""
        return self.area.begins if isinstance(self.area, Corridor) else self.area[0]

    @property
    def ends(self) -> tuple[str, str]:
        """What stands at the two ends of the leg, where it comes from one."""
        return (self.area.begins, self.area.ends) if isinstance(self.area, Corridor) else ("", "")

    @property
    def damped(self) -> bool:
        """Whether dampers lie on every leg that it comes from."""
        return not isinstance(self.area, Bight) and self.area.damped


STANDARD: Final = Zone(CLEARANCE_M, HALF_ANGLE_RAD, STAND_OFF_STRICT.value)


@kept
def exposed(stage: StageSolution, zone: Zone) -> dict[str, tuple[Exposure, ...]]:
    """Every area that each of the people is in, over the travel, by where the person stands in the plan."""
    areas = danger_areas(stage)
    return {person.pointer: tuple(exposures(stage.stage, person, areas, zone)) for person in stage.stage.people}


def struck(stage: StageSolution, person: Person, lengths: float) -> bool:
    """Whether somebody on foot is where a line, or what it frees, strikes within so many lengths of the leg."""
    return person.at is not None and any(one.lengths < lengths for one in exposed(stage, STANDARD)[person.pointer])


def exposures(stage: RigStage, person: Person, areas: tuple[DangerAreas, ...], zone: Zone) -> Iterator[Exposure]:
    """Every area that a person is in, over the travel; somebody in a body goes where it goes."""
    if person.at is not None:
        for one in areas:
            yield from on_foot(person.at, one, zone)
    elif person.body is not None:
        for one in (areas[0], areas[-1]):
            yield from in_body(stage, person.body, one, zone)


def on_foot(place: Vec, areas: DangerAreas, zone: Zone) -> Iterator[Exposure]:
    """The areas that a place lies in, seen from above."""
    for corridor in areas.corridors:
        yield from _by_leg(place, corridor, areas, zone)
    for bight in areas.bights:
        where = inside_turn(place, bight.before, bight.seat, bight.beyond)
        if where == "triangle":
            yield Exposure("inside", bight, 0.0, 0.0, areas)
        elif where and (off_m := plan_distance_m(place, bight.seat, bight.seat)) < bight.reach_m:
            yield Exposure("angle", bight, off_m, off_m / bight.reach_m, areas)
    yield from _flights(place, areas.flights, areas, zone)


def _by_leg(place: Vec, corridor: Corridor, areas: DangerAreas, zone: Zone) -> Iterator[Exposure]:
    off_m = plan_distance_m(place, corridor.start, corridor.end)
    if off_m < zone.clearance_m:
        yield Exposure("beside", corridor, off_m, 0.0, areas)
        return
    if off_m >= corridor.reach_m * zone.lengths:
        return
    for tip, other in ((corridor.start, corridor.end), (corridor.end, corridor.start)):
        reach_m = cone_reach_m(place, tip, sub(tip, other), zone.half_angle_rad)
        if reach_m < corridor.reach_m * zone.lengths:
            yield Exposure("recoil", corridor, reach_m, reach_m / corridor.reach_m, areas)


def _flights(place: Vec, flights: tuple[Flight, ...], areas: DangerAreas, zone: Zone) -> Iterator[Exposure]:
    for flight in flights:
        reach_m = cone_reach_m(place, flight.start, flight.way, zone.half_angle_rad)
        if reach_m < flight.reach_m * zone.lengths:
            yield Exposure("flight", flight, reach_m, reach_m / flight.reach_m, areas)


def in_body(stage: RigStage, body: Body, areas: DangerAreas, zone: Zone) -> Iterator[Exposure]:
    """The areas that somebody in a body is in: past the end of each leg that ends on it, and where other areas reach.

    Its own gear flies away from it. A body that no leg ends on is taken to be at its middle, or amid its points.
    """
    place = place_of(stage, body, areas.travel_m)
    nodes = {node for corridor in areas.corridors for node in corridor[1:3]}
    own = {node for node in nodes if _holder(stage, node) == body.name}
    held = False
    for corridor in areas.corridors:
        if corridor.begins in own or corridor.ends in own:
            held = True
            yield Exposure("recoil", corridor, 0.0, 0.0, areas)
        elif place is not None:
            yield from _by_leg(place, corridor, areas, zone)
    if place is None:
        return
    if not held:
        yield from (e for e in on_foot(place, areas, zone) if e.how == "inside")
    others = tuple(f for f in areas.flights if f.thing not in own)
    yield from _flights(place, others, areas, zone)


def _holder(stage: RigStage, node: str) -> str | None:
    body = body_of(stage, node)
    return body.name if body else None


def place_of(stage: RigStage, body: Body, travel_m: float) -> Vec | None:
    """Where a body is, as far as the plan tells: its outline's middle, or amid the points on it."""
    at = body.middle
    if at is None:
        own = [p.at for p in stage.points.values() if p.body.name == body.name]
        if not own:
            return None
        at = (sum(p[0] for p in own) / len(own), sum(p[1] for p in own) / len(own), 0.0)
    return along(at, stage.direction, travel_m) if body.moves else at
