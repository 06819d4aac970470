"""The checks before the pull, made from this plan: what somebody goes and looks at, and ticks.

For the sheet and the tablet alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from riglint.outcome import Inspection
from riglint.plan.conditions import words_of
from riglint.report.numbers import show
from riglint.report.summary import Summary, summaries
from riglint.report.words import listed
from riglint.rig.model import Body, Chain, Join, Person, Piece, RigStage
from riglint.sheet import looks
from riglint.sheet.chains import end_of, held, legs, points_used
from riglint.solve.solution import CASES, Kind, Solution, StageSolution

_SLACK_OUT: Final = (
    ("connectors", "Slack taken up, winch stopped: every pin, join and hitch looked at again"),
    ("line", "Line lies in every seat and leads as drawn"),
    ("anchors", "No anchor and no anchor vehicle has moved"),
)


class Item(NamedTuple):
    """Something to tick. `note` is what goes with it and may be empty."""

    id: str
    text: str
    note: str = ""


class Section(NamedTuple):
    """Items that are looked at together, for one stage (0 the first)."""

    title: str
    items: tuple[Item, ...]
    stage: int = 0


def checklist(solution: Solution, inspection: Inspection) -> tuple[Section, ...]:
    """The sections, stage by stage; `clear to pull` for a stage asks for every tick of that stage.

    A pure function of what was solved and found; the tablet shows the same list. Ids are stable: they are made
    from the stage's number and the place in the plan, such as `0/connectors/bow_b`, so that the same plan gives
    the same ids on every machine. A later stage lists gear only where it is new or rigged another way; areas,
    people, signals and the look with the slack out come in every stage. Texts are plain, not yet escaped.
    """
    told = summaries(solution.stages, inspection)
    seen: set[tuple[str, str]] = set()
    sections: list[Section] = []
    for solved, summary in zip(solution.stages, told, strict=True):
        sections += _of_stage(_Stage(solved, solution.rig.reports_in), summary, seen)
    return tuple(sections)


class _Stage(NamedTuple):
    solved: StageSolution
    system: str

    @property
    def own(self) -> RigStage:
        return self.solved.stage

    def most(self, kind: Kind, name: str) -> str:
        """The most that it carries in any case, as a note."""
        component = self.solved.component(kind, name)
        peaks = [self.solved.peak(component, case) for case in CASES] if component else []
        most = max((peak.load_n for peak in peaks if peak), default=None)
        return "" if most is None else f"up to {show(most, 'N', self.system)}"


def _of_stage(stage: _Stage, summary: Summary, seen: set[tuple[str, str]]) -> Iterator[Section]:
    index = stage.own.index
    gear = (
        ("Vehicles and load", _bodies(stage)),
        ("Winch", _winch(stage)),
        ("Line and joins", _line(stage)),
        ("Redirects", _redirects(stage)),
        ("Connectors", _connectors(stage)),
        ("Anchors and points", _points(stage)),
    )
    always: tuple[tuple[str, Iterable[Item]], ...] = (
        ("Clear areas", _clear(stage, summary)),
        ("People and signals", [*_people(stage.own), *_signals(stage.own), *_stops(stage), *_dampers(stage.own)]),
        ("With the slack out", [Item(f"slack-out/{key}", text) for key, text in _SLACK_OUT]),
    )
    for title, looked_at in gear:
        new = [item for item in looked_at if (item.id, item.text) not in seen]
        seen |= {(item.id, item.text) for item in new}
        yield from _section(title, new, index)
    for title, items in always:
        yield from _section(title, items, index)


def _section(title: str, items: Iterable[Item], index: int) -> Iterator[Section]:
    kept = tuple(item._replace(id=f"{index}/{item.id}") for item in items)
    if kept:
        yield Section(title, kept, index)


def _note(*parts: str) -> str:
    return "; ".join(part for part in parts if part)


def _bodies(stage: _Stage) -> Iterator[Item]:
    own = stage.own
    yield _load(own)
    holding = {own.points[name].body.name for name in points_used(own)} | {own.winch.mount.body.name}
    for body in own.bodies.values():
        if not body.moves and body.name != "ground" and (body.facts.secured or body.name in holding):
            yield from _secured(body, stage.most("body", body.name))


def _load(own: RigStage) -> Item:
    load = own.load
    if own.index == 0 and own.load_held_by is None:
        return Item(f"bodies/{load.name}", f"{load.name}: chocks at hand; its brakes come off only on the signal")
    by = own.load_held_by or "something other than the line"
    note = "" if own.load_held_by else "the plan does not say by what"
    return Item(f"bodies/{load.name}", f"{load.name}: held by {by} until the line is taut", note)


def _secured(body: Body, most: str) -> Iterator[Item]:
    place = f"bodies/{body.name}/secured"
    if not body.facts.secured:
        note = _note("the plan does not say what holds it", most)
        yield Item(place, f"{body.name}: brakes set, wheels chocked", note)
    for way in body.facts.secured or ():
        yield Item(f"{place}/{way}", f"{body.name}: {looks.SECURED[way]}", most)


def _winch(stage: _Stage) -> Iterator[Item]:
    winch = stage.own.winch
    facts = winch.facts
    hand = facts.drive == "hand"
    yield Item("winch/mount", f"Winch fast on {winch.mount.name}, no bolt loose", stage.most("winch", "winch"))
    tried = "Handle and pawls tried" if hand else "Clutch in; control tried, and the winch stops when it is let go"
    yield Item("winch/control", tried)
    holds = f"the plan says it holds {show(facts.brake_hold.low, 'N', stage.system)}" if facts.brake_hold else ""
    yield Item("winch/brake", "Brake tried: it holds", holds or "the plan does not say what it holds")
    wound = _note(_wraps(stage), _spooled(stage.own))
    yield Item("winch/drum", "Rope wound tight, layer by layer, wraps counted", wound)
    yield Item("winch/fairlead", "Fairlead smooth, rope leads fair", stage.most("fairlead", "fairlead"))


def _wraps(stage: _Stage) -> str:
    drum = stage.solved.stations[0].drum if stage.solved.stations else None
    if drum is None or stage.own.haul.unstated:
        return "how many isn't known from the plan"
    if drum.wraps.low <= 0.0:
        return "by the plan the line is too short"
    low, high = (show(wraps, "wraps", stage.system) for wraps in (drum.wraps.low, drum.wraps.high))
    return f"{low} at the start" if low == high else f"{low.split()[0]} to {high} at the start"


def _spooled(own: RigStage) -> str:
    return "the plan says it was wound on loose" if own.winch.facts.spooled == "loose" else ""


def _line(stage: _Stage) -> Iterator[Item]:
    for line in stage.own.lines:
        if line.first:
            text = f"First end of {line.name} made fast to {_made_fast(line.first)}"
            yield Item(f"lines/{line.name}/first_end", text)
        for piece in line.pieces:
            yield _piece(stage, piece)
        for join in line.joins:
            yield _join(stage, join)
        yield Item(f"lines/{line.name}/dead_end", f"Dead end of {line.name} made fast to {_made_fast(line.dead_end)}")


def _made_fast(chain: Chain) -> str:
    return chain.connectors[0].name if chain.connectors else end_of(chain)


def _piece(stage: _Stage, piece: Piece) -> Item:
    facts = piece.facts
    size = show(facts.diameter.mid, "m", stage.system) if facts.diameter else "diameter not stated"
    note = _note(_seen(facts.condition), stage.most("piece", piece.name))
    text = f"{piece.name}, {facts.rope or 'rope'} of {size}: looked over along its whole length and at both ends"
    return Item(piece.pointer.lstrip("/"), text, note)


def _seen(condition: str | tuple[str, ...] | None) -> str:
    found = listed(words_of(condition))
    return f"the plan says: {found}" if found and found != "good" else ""


def _join(stage: _Stage, join: Join) -> Item:
    facts = join.facts
    made = listed(filter(None, (facts.set, "no twist" if facts.twist in (None, "none") else None)))
    text = f"{join.name}, {facts.kind}: {_note(made, 'drawn tight, bears evenly')}"
    twisted = "" if facts.twist in (None, "none") else f"the plan says: {facts.twist}"
    return Item(join.pointer.lstrip("/"), text, _note(twisted, stage.most("join", join.name)))


def _redirects(stage: _Stage) -> Iterator[Item]:
    for redirect in stage.own.redirects.values():
        turns = [turn for line in stage.own.lines for turn in line.turns if turn.redirect == redirect.name]
        if not turns:
            continue
        seats = listed(dict.fromkeys(turn.seat_name for turn in turns))
        hangs = f", hung from {_made_fast(redirect.hanger)}" if redirect.hanger else ", between its lines"
        kind = redirect.facts.kind
        text = f"{redirect.name}, {kind}{hangs}: rope in the {seats}; {looks.REDIRECTS[kind]}"
        note = _note(_seen(redirect.facts.condition), stage.most("redirect", redirect.name))
        yield Item(f"redirects/{redirect.name}", text, note)


def _connectors(stage: _Stage) -> Iterator[Item]:
    for connector, begins, ends in held(stage.own):
        facts = connector.facts
        what = f", {facts.kind}" if facts.kind else ""
        look = looks.CONNECTORS.get(facts.kind or "", looks.UNSTATED)
        how = _note(_note(_seen(facts.condition), looks.PINS.get(facts.pin or "", "")), facts.wrapped or "")
        text = f"{connector.name}{what}, from {begins} to {ends}: {look}"
        yield Item(f"connectors/{connector.name}", text, _note(how, stage.most("connector", connector.name)))


def _points(stage: _Stage) -> Iterator[Item]:
    for name in points_used(stage.own):
        point = stage.own.points[name]
        kind = point.facts.kind
        what = f"{kind} on {point.body.name}" if kind else f"point on {point.body.name}"
        rows = f"rows {point.facts.pickets.arrangement}" if point.facts.pickets else ""
        look = looks.POINTS.get(kind or "", looks.FITTING)
        yield Item(f"points/{name}", f"{name}, {what}: {look}", _note(rows, stage.most("point", name)))


def _clear(stage: _Stage, summary: Summary) -> Iterator[Item]:
    own = stage.own
    for line in own.lines:
        run = "; ".join(f"{a} to {b}" for a, b in legs(line))
        yield Item(f"clear/legs/{line.name}", f"Nobody beside {line.name}, over it, or in line past its ends", run)
    turns = dict.fromkeys(turn.redirect for line in own.lines for turn in line.turns)
    for name in turns:
        yield Item(f"clear/turns/{name}", f"Nobody inside the turn at {name}")
    if summary.flies:
        toward = f", towards {summary.flies.toward}" if summary.flies.toward else ""
        yield Item("clear/flight", f"Nobody where what {summary.flies_from} holds would fly{toward}")
    goes = show(own.travel.high, "m", stage.system)
    yield Item("clear/way", f"Way of {own.load.name} free for {goes} and beyond; nobody before or behind it")
    yield Item("clear/others", "Everybody without a task is out: two line lengths off, outside every turn")


def _people(own: RigStage) -> Iterator[Item]:
    for person in own.people:
        yield Item(f"people{_index(person.pointer)}", _stands(person), _watches(person))
    if not own.people:
        known = "the plan says nobody is near" if own.people_stated else "the plan does not say who stands where"
        yield Item("people", "Told off: who works the winch, who watches, who gives the signals", known)


def _stands(person: Person) -> str:
    if person.body:
        return f"{person.who}: in {'the cab of ' if person.cab else ''}{person.body.name}, and stays there"
    if person.at:
        return f"{person.who}: in place as drawn, with a way out"
    return f"{person.who}: the plan does not say where; in place clear of every area"


def _watches(person: Person) -> str:
    return f"watches {listed(person.facts.watches)}" if person.facts.watches else ""


def _index(pointer: str) -> str:
    return f"/{pointer.rsplit('/', 1)[-1]}"


def _signals(own: RigStage) -> Iterator[Item]:
    signals = own.signals
    by = f"Signals by {signals.by} tried, all know them" if signals else "Signals agreed and tried, all know them"
    giver = signals.given_by if signals else None
    given = f"given by {giver} alone" if giver else "who gives them: one person, named"
    yield Item("signals", by, given)
    yield Item("signals/stop", "All know: anybody may call stop, and stop is obeyed at once")


def _stops(stage: _Stage) -> Iterator[Item]:
    for stop in stage.own.stops:
        low = show(stop.after_m.low, "m", stage.system)
        by = stop.facts.load_held_by
        note = f"load held by {by}: ready" if by else "the plan does not say what holds the load there"
        yield Item(f"stops{_index(stop.pointer)}", f"All know the stop after {low}: {stop.facts.do}", note)


def _dampers(own: RigStage) -> Iterator[Item]:
    for index, damper in enumerate(own.dampers or ()):
        begins, ends = damper.between
        yield Item(f"dampers/{index}", f"Damper lies on {damper.line}, between {begins} and {ends}")
