"""One stage resolved: the plan's entries with the stage's own over them."""

import re
from typing import Any, NamedTuple

from riglint.mechanics.vectors import Vec, along, distance, heading, sub, unit
from riglint.plan.bodies import Body as BodyFacts
from riglint.plan.bodies import Travel
from riglint.plan.crew import Person as PersonFacts
from riglint.plan.crew import Stop as StopFacts
from riglint.plan.plan import Plan, Stage, Works
from riglint.reading.quantity import Span
from riglint.rig.chains import Chains
from riglint.rig.checks import (
    check_crew,
    check_fixed_lines,
    check_floating,
    check_hanging,
    check_joins,
    check_line_names,
    check_pull,
)
from riglint.rig.faults import Faults
from riglint.rig.lines import resolve_line
from riglint.rig.model import Body, Chain, Connector, Line, Person, Point, Redirect, RigStage, Stop, Winch
from riglint.rig.places import Places, plan_angle
from riglint.rig.ways import check_way

GROUND = "ground"
_WORD = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")


class SoFar(NamedTuple):
    """Where the stages before have brought the load: from its first place, and how far along its way."""

    shift: Vec
    done_m: float


class StageResolver:
    """Resolves one stage, or the plan itself where it has none."""

    def __init__(
        self,
        plan: Plan,
        stage: Stage | None,
        index: int,
        load: str,
        places: Places,
        so_far: SoFar,
        faults: Faults,
    ) -> None:
        self.plan, self.stage, self.index, self.load = plan, stage, index, load
        self.places, self.so_far, self.faults = places, so_far, faults
        self.base = f"/stages/{index}" if stage else ""

    def resolve(self) -> RigStage | None:
        """The stage, or None where something is wrong with it, which is then noted."""
        before = self.faults.told
        self.places = self._places()
        bodies = self._bodies()
        points = self._points(bodies)
        connectors = self._connectors()
        chains = Chains(connectors, points, {*self.plan.redirects, *self._own("redirects")}, self.faults)
        self._redirects(chains)
        lines = self._lines(chains)
        stops, people = self._stops(lines, chains), self._people(bodies)
        dampers = self._pick("dampers")
        self._check(lines, chains, people, dampers)
        travel, mount, haul = self._travel(), self._mount(points), self._haul(lines)
        self._check_way(travel)
        if self.faults.told > before or not self.load or travel is None or mount is None or haul is None:
            return None
        winch = self._winch(mount, haul, lines, chains)
        if winch is None:
            return None
        check_pull(winch, lines, chains.redirects, self.load, self.base, self.faults)
        return RigStage(
            name=self.stage.name if self.stage else "the pull",
            index=self.index,
            pointer=self.base,
            works=self._works(),
            load=bodies[self.load],
            direction=self._direction(travel),
            travel=travel.distance,
            room=self.stage.moves.room if self.stage and self.stage.moves else None,
            begins_m=self.so_far.done_m,
            bodies=bodies,
            points=points,
            connectors=connectors,
            redirects=chains.redirects,
            winch=winch,
            haul=haul,
            others=tuple(line for line in lines if line is not haul),
            people=people,
            people_stated=self._pick("people") is not None,
            stops=stops,
            signals=self._pick("signals"),
            dampers=dampers,
            load_held_by=self.stage.load_held_by if self.stage else None,
        )

    def _own(self, kind: str) -> dict[str, Any]:
        return getattr(self.stage, kind) if self.stage else {}

    def _pick(self, kind: str) -> Any:
        own = getattr(self.stage, kind) if self.stage else None
        return own if own is not None else getattr(self.plan, kind)

    def _pointer(self, kind: str, name: str) -> str:
        return f"{self.base}/{kind}/{name}" if name in self._own(kind) else f"/{kind}/{name}"

    def _list_pointer(self, kind: str) -> str:
        base = self.base if self.stage and getattr(self.stage, kind) is not None else ""
        return f"{base}/{kind}"

    def _works(self) -> Works:
        return (self.stage.works if self.stage else None) or self.plan.works

    def _travel(self) -> Travel | None:
        if self.stage is None:
            return self.plan.bodies[self.load].moves if self.load else None
        return self.stage.moves

    def _check_way(self, travel: Travel | None) -> None:
        ground = self.plan.bodies[self.load].ground if self.load else None
        if travel and ground:
            travel_at = f"{self.base}/moves" if self.stage else f"/bodies/{self.load}/moves"
            check_way(
                ground, f"/bodies/{self.load}/ground", self._works(), travel, travel_at, self.so_far.done_m, self.faults
            )  # fmt: skip

    def _direction(self, travel: Travel) -> Vec:
        climb = travel.climb.low if travel.climb else 0.0
        return heading(plan_angle(travel.bearing.low, self.places.north_rad), climb)

    def _places(self) -> Places:
        """The plan's points, the load's brought along, and over them the stage's own, where they are given."""
        known = {}
        own = self._own("points")
        for name, facts in self.plan.points.items():
            at = self.places.of_point(name)
            if name not in own:
                known[name] = along(at, self.so_far.shift, 1.0) if facts.on == self.load else at
        return Places(own, lambda n: self._pointer("points", n), self.places.north_rad, self.faults, known)

    def _bodies(self) -> dict[str, Body]:
        bodies = {name: self._body(name, facts) for name, facts in self.plan.bodies.items()}
        bodies.setdefault(GROUND, Body(GROUND, "/bodies", BodyFacts.model_construct(), False))
        return bodies

    def _body(self, name: str, facts: BodyFacts) -> Body:
        pointer, moves, middle = f"/bodies/{name}", name == self.load, None
        if facts.outline and facts.outline.middle is not None:
            middle = self.places.of(facts.outline.middle, f"{pointer}/outline/middle")
            middle = along(middle, self.so_far.shift, 1.0) if moves else middle
        return Body(name, pointer, facts, moves, middle)

    def _points(self, bodies: dict[str, Body]) -> dict[str, Point]:
        points = {}
        for name, facts in {**self.plan.points, **self._own("points")}.items():
            pointer = self._pointer("points", name)
            body = bodies.get(facts.on)
            if body is None:
                self.faults.unknown(f"{pointer}/on", facts.on, "body", list(bodies))
                body = bodies[GROUND]  # so that what is made fast to it isn't called unknown too
            points[name] = Point(name, pointer, facts, body, self.places.of_point(name))
        return points

    def _connectors(self) -> dict[str, Connector]:
        return {
            name: Connector(
                name, self._pointer("connectors", name), facts,
                facts.length.high if facts.length else 0.0, facts.length is not None,
            )
            for name, facts in {**self.plan.connectors, **self._own("connectors")}.items()
        }  # fmt: skip

    def _redirects(self, chains: Chains) -> None:
        for name, facts in {**self.plan.redirects, **self._own("redirects")}.items():
            pointer = self._pointer("redirects", name)
            hanger = chains.resolve(facts.hung_from, f"{pointer}/hung_from") if facts.hung_from is not None else None
            chains.redirects[name] = Redirect(name, pointer, facts, hanger)

    def _lines(self, chains: Chains) -> list[Line]:
        own = (self.stage.lines if self.stage else None) or {}
        lines = []
        for name, facts in self.plan.lines.items():
            pointer, pieces_at = f"/lines/{name}", f"/lines/{name}/pieces"
            rigged = facts
            if name in own:
                pointer = f"{self.base}/lines/{name}"
                pieces_at = f"{pointer}/pieces" if own[name].pieces else pieces_at
                new = own[name]
                rigged = facts.model_copy(
                    update={"pieces": new.pieces or facts.pieces, "path": new.path, "edge": new.edge}
                )
            lines.append(resolve_line(name, rigged, pointer, pieces_at, chains, self.faults))
        for name in own:
            if name not in self.plan.lines:
                self.faults.unknown(f"{self.base}/lines/{name}", name, "line", list(self.plan.lines), key=True)
        return [line for line in lines if line]

    def _haul(self, lines: list[Line]) -> Line | None:
        """The one line that begins at the winch."""
        hauling = [line for line in lines if line.first is None]
        if len(hauling) == 1:
            return hauling[0]
        if len(lines) == len(self.plan.lines):
            what = "no line begins at the winch" if not hauling else "more than one line begins at the winch"
            self.faults.add("/lines", what, "begin exactly one path with `winch`", key=True, of_whole=True)
        return None

    def _check(self, lines: list[Line], chains: Chains, people: tuple[Person, ...], dampers: Any) -> None:
        check_line_names(lines, {*chains.redirects, *chains.points, *chains.connectors}, self.faults)
        check_joins(lines, self.faults)
        check_fixed_lines(lines, self.faults)
        check_hanging(chains.redirects, self.faults)
        if len(lines) == len(self.plan.lines):
            check_floating(chains.redirects, lines, self.faults)
            check_crew(people, dampers or (), self._list_pointer("dampers"), lines, chains.redirects, self.faults)

    def _mount(self, points: dict[str, Point]) -> Point | None:
        name = self.plan.winch.mounted
        if name not in points:
            self.faults.unknown("/winch/mounted", name, "point", list(points))
        return points.get(name)

    def _winch(self, mount: Point, haul: Line, lines: list[Line], chains: Chains) -> Winch | None:
        facts = self.plan.winch
        ahead = facts.fairlead.ahead.low if facts.fairlead and facts.fairlead.ahead else 0.0
        way = self._way_out(mount, haul, lines, chains)
        return None if way is None else Winch("/winch", facts, mount, along(mount.at, way, ahead), way)

    def _way_out(self, mount: Point, haul: Line, lines: list[Line], chains: Chains) -> Vec | None:
        """Which way the fairlead looks."""
        fairlead = self.plan.winch.fairlead
        if fairlead and fairlead.bearing:
            return heading(plan_angle(fairlead.bearing.low, self.places.north_rad))
        target = _target(haul, lines, chains.redirects)
        if target is None or distance(mount.at, target) == 0.0:
            what = "the line leaves the winch for no other place"
            serves = "lead it first to something that stands elsewhere"
            self.faults.add(f"{haul.pointer}/path", what, serves, of_whole=True)
            return None
        return unit(sub(target, mount.at))

    def _people(self, bodies: dict[str, Body]) -> tuple[Person, ...]:
        at = self._list_pointer("people")
        return tuple(self._person(p, f"{at}/{i}", bodies) for i, p in enumerate(self._pick("people") or ()))

    def _person(self, facts: PersonFacts, pointer: str, bodies: dict[str, Body]) -> Person:
        at = self.places.of(facts.at, f"{pointer}/at") if facts.at else None
        if facts.in_ is None:
            return Person(facts.who, pointer, facts, at, None, False)
        name, _, part = facts.in_.partition(" ")
        body = None if name == GROUND else bodies.get(name)
        if body is None or part not in ("", "cab"):
            known = [n + cab for n in bodies if n != GROUND for cab in ("", " cab")]
            self.faults.unknown(f"{pointer}/in", facts.in_, "body", known)
        return Person(facts.who, pointer, facts, at, body, part == "cab")

    def _stops(self, lines: list[Line], chains: Chains) -> tuple[Stop, ...]:
        names = {j.name for line in lines for j in line.joins} | set(chains.redirects)
        stops = self.stage.stops if self.stage else self.plan.stops
        return tuple(self._stop(s, i, names) for i, s in enumerate(stops))

    def _stop(self, facts: StopFacts, index: int, names: set[str]) -> Stop:
        words = frozenset(_WORD.findall(facts.do)) & names
        return Stop(Span(*facts.after), f"{self.base}/stops/{index}", facts, words)


def _target(haul: Line, lines: list[Line], redirects: dict[str, Redirect]) -> Vec | None:
    """The first place with a fixed point that the line goes to: what the winch looks at.

    A redirect that floats is pulled away from the winch by the line made fast to it, so that line's way counts.
    """
    for turn in haul.turns:
        hanger = redirects[turn.redirect].hanger
        pulled = hanger or _next_of_floating(turn.redirect, lines, redirects)
        place = _held_at(pulled, redirects)
        if place is not None:
            return place
    return _held_at(haul.dead_end, redirects)


def _next_of_floating(name: str, lines: list[Line], redirects: dict[str, Redirect]) -> Chain | None:
    """Along the line whose end is made fast to a floating redirect, the next thing that something holds."""
    for line in lines:
        inward = [redirects[t.redirect].hanger for t in line.turns]
        if line.first and line.first.redirect == name:
            return next((h for h in inward if h), line.dead_end)
        if line.first and line.dead_end.redirect == name:
            return next((h for h in reversed(inward) if h), line.first)
    return None


def _held_at(chain: Chain | None, redirects: dict[str, Redirect]) -> Vec | None:
    """Where the point stands that a chain leads to, through what it hangs from."""
    while chain and chain.redirect:
        chain = redirects[chain.redirect].hanger
    if chain and chain.point:
        return chain.point.at
    return chain.arms[0].point.at if chain and chain.arms else None
