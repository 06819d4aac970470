"""What must hold across the entries of a plan for it to be a rig at all. Each fault is noted at its own place."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import pi, radians, remainder

from riglint.plan.bodies import Travel
from riglint.plan.crew import Damper
from riglint.plan.crew import Stop as StopFacts
from riglint.plan.plan import Plan
from riglint.reading.problems import quoted
from riglint.rig.faults import Faults
from riglint.rig.model import Chain, Join, Line, Person, Piece, Point, Redirect, Winch

SAME_WAY_RAD = radians(1.0)  # bearings nearer than this are one, taken twice
ADDS_UP_M = 0.001  # a millimetre: lengths in feet don't add up to the last digit


def check_names(plan: Plan, faults: Faults) -> None:
    """Points, redirects and connectors are named in one list, so a name may stand for one of them only."""
    kind_of: dict[str, str] = {}
    bases = [("", plan), *((f"/stages/{i}", stage) for i, stage in enumerate(plan.stages))]
    for base, part in bases:
        for kind in ("points", "redirects", "connectors"):
            for name in getattr(part, kind):
                _check_name(f"{base}/{kind}/{name}", name, kind, kind_of, faults)


def _check_name(pointer: str, name: str, kind: str, kind_of: dict[str, str], faults: Faults) -> None:
    if name == "winch":
        faults.add(pointer, "`winch` stands for the winch in paths", "give it another name", key=True)
    elif kind_of.setdefault(name, kind) != kind:
        what = f"`{name}` is already a name under `{kind_of[name]}`"
        faults.add(pointer, what, "give it another name", key=True)


def load_name(plan: Plan, faults: Faults) -> str:
    """The one body that moves; the empty name where there is none or more than one."""
    moving = [name for name, body in plan.bodies.items() if body.moves]
    for name in moving:
        if name == "ground":
            faults.add("/bodies/ground/moves", "the ground moves", "give `moves` to the load", key=True)
    if len(moving) == 1:
        return moving[0]
    if not moving:
        serves = "give it to the load: `moves: {distance: 6 m, bearing: 0 deg}`"
        faults.add("/bodies", "no body has `moves`", serves, key=True, of_whole=True)
    for name in moving[1:]:
        what = f"`{name}` moves, and so does `{moving[0]}`"
        faults.add(f"/bodies/{name}/moves", what, "give `moves` to the one body that is pulled", key=True)
    return ""


def check_stages(plan: Plan, load: str, faults: Faults) -> None:
    """The load's way, its stages and what lies along it fit together."""
    moves = plan.bodies[load].moves if load else None
    for i, stage in enumerate(plan.stages):
        if stage.moves is None:
            serves = "write `moves: {distance: 3 m, bearing: 0 deg}`"
            faults.add(f"/stages/{i}", f"stage {quoted(stage.name)} doesn't say how far it moves the load", serves)
        else:
            _check_stops(stage.stops, f"/stages/{i}", stage.moves, faults)
            if not stage.moves.distance.exact and i + 1 < len(plan.stages):
                what = "the next stage begins where this one ends, and this is a range"
                serves = "write one distance, `4 m`, and try a second plan with the other end"
                faults.add(f"/stages/{i}/moves/distance", what, serves, of_whole=True)
    if plan.stages and plan.stops:
        faults.add(
            "/stops",
            "the plan has stages, so it isn't clear when these are",
            "give them to a stage",
            key=True,
        )
    if moves is None:
        return
    if not plan.stages:
        _check_stops(plan.stops, "", moves, faults)
    _check_sum(plan, load, moves, faults)
    ground = plan.bodies[load].ground
    for i, zone in enumerate(ground.zones if ground else ()):
        if zone.begins_at.low >= moves.distance.high:
            at = f"/bodies/{load}/ground/zones/{i}/begins_at"
            faults.add(at, "this zone begins where the travel is over", _within(moves))


def _check_stops(stops: tuple[StopFacts, ...], base: str, moves: Travel, faults: Faults) -> None:
    for i, stop in enumerate(stops):
        if stop.after.low > moves.distance.high:
            faults.add(f"{base}/stops/{i}/after", "this stop comes after the end of the travel", _within(moves))


def _within(moves: Travel) -> str:
    return f"write a place within the travel of {moves.distance.high:.6g} m"


def _check_sum(plan: Plan, load: str, moves: Travel, faults: Faults) -> None:
    """The load's own `moves` is the whole way, and which way: where the stages say another, one of them is a slip."""
    ways = [stage.moves.distance for stage in plan.stages if stage.moves]
    if not ways or len(ways) < len(plan.stages):
        return
    low, high = sum(way.low for way in ways), sum(way.high for way in ways)
    if low > moves.distance.high + ADDS_UP_M or high < moves.distance.low - ADDS_UP_M:
        what = f"the stages move the load {low:.6g} m" + ("" if low == high else f" to {high:.6g} m") + " in all"
        faults.add(f"/bodies/{load}/moves/distance", what, "write that distance here, or mend a stage's", of_whole=True)

    for i, stage in enumerate(plan.stages):
        if moves.climb and moves.climb.low and stage.moves and stage.moves.climb is None:
            what = "the load's way climbs, and this stage doesn't say whether it does"
            faults.add(f"/stages/{i}/moves", what, "write its own `climb: 5 deg`, or `climb: 0 deg`", of_whole=True)
    bearings = {stage.moves.bearing.low for stage in plan.stages if stage.moves}
    if len(bearings) == 1 and abs(remainder(bearings.pop() - moves.bearing.low, 2.0 * pi)) > SAME_WAY_RAD:
        what = "every stage moves the load another way than this"
        faults.add(f"/bodies/{load}/moves/bearing", what, "write that bearing here, or mend the stages'", of_whole=True)


def check_line_names(lines: list[Line], others: set[str], faults: Faults) -> None:
    """Each piece and join has a name of its own, so that a stop or a finding can name it."""
    seen: set[str] = set()
    for line in lines:
        parts: list[Piece | Join] = [*line.pieces, *line.joins]
        for part in parts:
            if part.name in seen:
                faults.add(part.pointer, f"`{part.name}` is already the name of a piece or join", OWN_NAME, key=True)
            elif part.name in others:
                what = f"`{part.name}` is already the name of a point, redirect or connector"
                faults.add(part.pointer, what, OWN_NAME, key=True)
            seen.add(part.name)


OWN_NAME = "give each thing its own name"


def check_joins(lines: list[Line], faults: Faults) -> None:
    """No join is narrower than the rope that it joins: where it goes through hangs on its width."""
    for join in (join for line in lines for join in line.joins):
        sizes = [piece.facts.diameter.low for piece in (join.inner, join.outer) if piece.facts.diameter]
        if join.facts.width and join.facts.width.high < max(sizes, default=0.0):
            serves = "write how wide it is across its thickest place"
            faults.add(f"{join.pointer}/width", "it is narrower than the rope that it joins", serves, of_whole=True)


def check_fixed_lines(lines: list[Line], faults: Faults) -> None:
    """A line that no winch takes in places what it is made fast to, as a connector does, so its length is exact."""
    for piece in (piece for line in lines if line.first for piece in line.pieces):
        length = piece.facts.length
        if length and not length.exact:
            what = "its line doesn't begin at the winch: it places what it is made fast to, and this is a range"
            serves = "write one length, `42 m`, and try a second plan with the other end"
            faults.add(f"{piece.pointer}/length", what, serves, of_whole=True)


def check_hanging(redirects: dict[str, Redirect], faults: Faults) -> None:
    """No redirect hangs, in the end, from itself."""
    for redirect in redirects.values():
        seen = [redirect.name]
        here: Redirect | None = redirect
        while here and here.hanger and here.hanger.redirect:
            here = redirects.get(here.hanger.redirect)
            if here and here.name in seen:
                circle = " from ".join(f"`{name}`" for name in [*seen, here.name])
                what = f"redirects hang in a circle: {circle}"
                faults.add(f"{redirect.pointer}/hung_from", what, "hang one of them from a point")
                return
            if here:
                seen.append(here.name)


def check_floating(redirects: dict[str, Redirect], lines: list[Line], faults: Faults) -> None:
    """A redirect that hangs from nothing is held by a line's end or another redirect, and something pulls on it."""
    for redirect in redirects.values():
        if redirect.facts.hung_from is not None:
            continue
        passing = {line.name for line in lines for turn in line.turns if turn.redirect == redirect.name}
        ending = {line.name for line in lines for end in (line.first, line.dead_end) if _is_at(end, redirect.name)}
        hanging = {f".{other.name}" for other in redirects.values() if _is_at(other.hanger, redirect.name)}
        if passing | ending | hanging and not (ending | hanging and len(passing | ending | hanging) > 1):
            serves = "write `hung_from: [connectors, point]`, or make another line's end fast to it"
            faults.add(redirect.pointer, f"`{redirect.name}` hangs from nothing", serves, key=True, of_whole=True)


def _is_at(end: Chain | None, redirect: str) -> bool:
    return end is not None and end.redirect == redirect


def check_pull(
    winch: Winch, lines: list[Line], redirects: dict[str, Redirect], load: str, base: str, faults: Faults
) -> None:
    """The rope goes between the load and something that stays."""
    bodies = {point.body.name for point in _held_points(lines, redirects)} | {winch.mount.body.name}
    at = f"{base}/lines" if base else "/lines"
    if load not in bodies:
        serves = "make a line's end or a redirect fast to a point on it"
        faults.add(at, f"nothing is made fast to the load `{load}`", serves, key=True, of_whole=True)
    elif len(bodies) == 1:
        serves = "make a line's end or a redirect fast to a point that stays"
        faults.add(at, f"everything is made fast to the load `{load}`", serves, key=True, of_whole=True)


def _held_points(lines: list[Line], redirects: dict[str, Redirect]) -> Iterator[Point]:
    """The points that lines pull on, straight or through redirects that hang from one another."""
    ends = [end for line in lines for end in (line.first, line.dead_end) if end]
    to_see = [turn.redirect for line in lines for turn in line.turns] + [e.redirect for e in ends if e.redirect]
    seen: set[str] = set()
    while to_see:
        name = to_see.pop()
        hanger = redirects[name].hanger
        if name not in seen and hanger:
            ends.append(hanger)
            to_see += [hanger.redirect] if hanger.redirect else []
        seen.add(name)
    for end in ends:
        yield from ([end.point] if end.point else [arm.point for arm in end.arms])


def check_crew(
    people: tuple[Person, ...], dampers: tuple[Damper, ...], dampers_at: str, lines: list[Line],
    redirects: dict[str, Redirect], faults: Faults,
) -> None:  # fmt: skip
    """What people watch and where dampers lie is in the rig."""
    watched = [*redirects, *(join.name for line in lines for join in line.joins)]
    for person in people:
        for i, name in enumerate(person.facts.watches or ()):
            if name not in watched:
                faults.unknown(f"{person.pointer}/watches/{i}", name, "join or redirect", watched)
    by_name = {line.name: line for line in lines}
    for i, damper in enumerate(dampers):
        if damper.line not in by_name:
            faults.unknown(f"{dampers_at}/{i}/line", damper.line, "line", list(by_name))
            continue
        _check_damper(damper, f"{dampers_at}/{i}/between", by_name[damper.line], faults)


def _check_damper(damper: Damper, pointer: str, line: Line, faults: Faults) -> None:
    stands = ["winch" if line.first is None else _end_name(line.first)]
    stands += [turn.redirect for turn in line.turns] + [_end_name(line.dead_end)]
    strangers = [(i, name) for i, name in enumerate(damper.between) if name not in stands]
    for i, name in strangers:
        faults.unknown(f"{pointer}/{i}", name, "end of a leg", stands)
    legs = [set(leg) for leg in pairwise(stands)]
    if not strangers and set(damper.between) not in legs:
        what = f"no leg of `{line.name}` goes between `{damper.between[0]}` and `{damper.between[1]}`"
        faults.add(pointer, what, "name what stands at the two ends of one leg")


def _end_name(end: Chain) -> str:
    """What a leg that ends there is said to end at: its point or redirect, or its bridle."""
    return end.point.name if end.point else end.redirect or end.connectors[-1].name
