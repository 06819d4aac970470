"""Rig to solution: each stage at each station in each case."""

from __future__ import annotations

from math import inf

from riglint.mechanics.balance import NoBalance
from riglint.mechanics.rounding import place_of
from riglint.rig.model import Rig, RigStage
from riglint.rig.stage import GROUND
from riglint.solve.drum_figures import DrumTable
from riglint.solve.events import Finder
from riglint.solve.geometry import Walk
from riglint.solve.mark import Mark, told
from riglint.solve.nearing import nearings
from riglint.solve.peaking import peaking
from riglint.solve.resistance import ResistanceTable
from riglint.solve.reversing import reversals
from riglint.solve.rope import from_drum_m, layers_lack
from riglint.solve.solution import (
    CASES,
    Case,
    Component,
    Event,
    Peak,
    Solution,
    StageSolution,
    Station,
)  # fmt: skip
from riglint.solve.station import ForceOf, Key, Scene, build_station
from riglint.solve.swinging import swings
from riglint.solve.tautening import tautenings
from riglint.solve.wiring import Wiring, wire

SAME_M = 1e-6  # places of the travel nearer than this are one station
_RANGED = "an end of a place given as a range"


def solve(rig: Rig) -> Solution:
    """Work out a rig. A stage that can't stand as planned comes back with `refused` and without stations."""
    return Solution(rig, tuple(_solve_stage(stage) for stage in rig.stages))


def _solve_stage(stage: RigStage) -> StageSolution:
    wiring = wire(stage)
    scene, own = _scene(stage, wiring)
    components = wiring.components + own
    try:
        walk = Walk(wiring)
        finder = Finder(stage, wiring, walk, scene.drum)
        events = finder.find()
        built = _stations(scene, walk, events, finder.fillings())
    except NoBalance as error:
        return _refused(stage, components, error.reason)
    stations = tuple(station for station, _ in built)
    if stage.works == "paying out" and stations[0].ratio_most <= 0.0:
        reason = "paying out, the load would go towards the winch: no line can push it"
        return _refused(stage, components, reason)
    pulls = _on_bodies(scene, components, built)
    return _result(stage, components, _peaks(scene, components, built), pulls, stations, events)


def _refused(stage: RigStage, components: tuple[Component, ...], reason: str) -> StageSolution:
    nothing: dict[Case, dict[Key, Peak]] = {case: {} for case in CASES}
    return _result(stage, components, nothing, {case: {} for case in CASES}, (), ())._replace(refused=reason)


def _result(
    stage: RigStage, components: tuple[Component, ...], peaks: dict[Case, dict[Key, Peak]],
    pulls: dict[Case, dict[Key, tuple[Peak, ...]]], stations: tuple[Station, ...], events: tuple[Event, ...],
) -> StageSolution:  # fmt: skip
    start = stations[0] if stations else None
    return StageSolution(
        stage=stage,
        components=components,
        peaks=peaks,
        stations=stations,
        events=events,
        parts=_parts(start) if start else 0,
        missing=_missing(stage, stations),
        losses_assumed=tuple(t.pointer for line in stage.lines for t in line.turns if t.loss is None),
        line_m=stage.haul.length,
        line_needed_m=max((s.path_m for s in stations), default=0.0) + from_drum_m(stage),
        pulls=pulls,
    )


def _parts(start: Station) -> int:
    """The legs that pull on the load; none of a further line that hangs slack while the winch pulls."""
    winched, *_ = start.legs
    pulled = any(winched.tension.values())
    return sum(leg.pulls_load for leg in start.legs if not pulled or any(leg.tension.values()))


def _scene(stage: RigStage, wiring: Wiring) -> tuple[Scene, tuple[Component, ...]]:
    """What the stations share, and the components that are not vector sums of legs."""
    own: list[Component] = []
    ropes: list[tuple[int, float, float]] = []
    lines, winch = stage.lines, stage.winch
    for number, line in enumerate(lines):
        for piece in line.pieces:
            own.append(Component("piece", _in_line(stage, line.name, piece.name), piece.pointer, piece))
            ropes.append((number, piece.start_m - SAME_M, piece.end_m + SAME_M))
        for join in line.joins:
            own.append(Component("join", _in_line(stage, line.name, join.name), join.pointer, join))
            ropes.append((number, join.from_dead_end.low - SAME_M, join.from_dead_end.high + SAME_M))
    own.append(Component("winch", "winch", "/winch", winch))
    if winch.facts.fairlead is not None:
        own.append(Component("fairlead", "fairlead", "/winch/fairlead", winch))
    row_of = {c.key: row for c, row in zip(wiring.components, wiring.sum_of, strict=True)}
    row_of.update({component.key: len(wiring.sums) + i for i, component in enumerate(own)})
    resistance = ResistanceTable(stage.load.name, stage.load.facts)
    drum, hauls = DrumTable(stage), stage.works == "hauling"
    return Scene(stage, wiring, drum, resistance, tuple(ropes), row_of, lines, hauls), tuple(own)


def _in_line(stage: RigStage, line: str, name: str) -> str:
    """A piece's or join's name, with its line's where there are several."""
    return f"{line}/{name}" if stage.others else name


def _stations(
    scene: Scene, walk: Walk, events: tuple[Event, ...], full: tuple[Mark, ...]
) -> list[tuple[Station, ForceOf]]:
    end_m = scene.stage.travel.high
    known = [e.travel_m for e in events] + [s for e in events for s in e.spread]
    places = _places(known + [layer.travel_m for layer in full], end_m)
    taut = tautenings(scene.stage, scene.wiring, walk, places)
    places = _places(places + [turn.travel_m for turn in taut], end_m)
    back = reversals(scene.wiring, walk, places)
    places = _places(places + [turn.travel_m for turn in back], end_m)
    near = nearings(scene.stage, scene.wiring, walk, places)
    places = _places(places + [pair.travel_m for pair in near], end_m)
    swing = swings(scene.wiring, walk, places)
    places = _places(places + [turn.travel_m for turn in swing], end_m)
    marks = (*full, *back, *taut, *near, *swing)
    built = [_build(scene, walk, events, places, travel_m, marks) for travel_m in places]
    most = peaking(scene, walk, [station for station, _ in built])
    if not most:
        return built
    both = _places(places + [peak.travel_m for peak in most], end_m)
    built += [_build(scene, walk, events, both, peak, (*marks, *most)) for peak in both if peak not in places]
    built.sort(key=lambda one: one[0].travel_m)
    return [(station._replace(index=index), force) for index, (station, force) in enumerate(built)]


def _build(
    scene: Scene, walk: Walk, events: tuple[Event, ...], places: list[float], travel_m: float,
    marks: tuple[Mark, ...],
) -> tuple[Station, ForceOf]:  # fmt: skip
    index, end_m = places.index(travel_m), scene.stage.travel.high
    here = tuple(e for e in events if abs(e.travel_m - travel_m) <= SAME_M)
    title = "; ".join(e.text for e in here)
    if not title:
        why = told(mark for mark in marks if abs(mark.travel_m - travel_m) <= SAME_M)
        title = "start" if index == 0 else "end" if index == len(places) - 1 else why or _RANGED
    starts = index == 0 or any(e.kind == "planned stop" for e in here)
    return build_station(scene, index, title, walk.at(travel_m), walk.rates(travel_m, end_m), here, starts)


def _places(found: list[float], end_m: float) -> list[float]:
    """The start, the end, and what lies between, in order, each once."""
    places: list[float] = [0.0]
    for travel_m in sorted(found):
        if travel_m - places[-1] > SAME_M and end_m - travel_m > SAME_M:
            places.append(travel_m)
    return [*places, end_m] if end_m > SAME_M else places


def _peaks(
    scene: Scene, components: tuple[Component, ...], built: list[tuple[Station, ForceOf]]
) -> dict[Case, dict[Key, Peak]]:
    """The worst over the stations of each component's load in each case."""
    along = list(zip(*[station.rows for station, _ in built], strict=True))  # of each row, its loads by station
    peaks: dict[Case, dict[Key, Peak]] = {case: {} for case in CASES}
    worst: dict[int, list[Peak | None]] = {}  # by row, since several components may share one
    for component in components:
        key = component.key
        row = scene.row_of[key]
        if row not in worst:
            by_case = zip(CASES, zip(*along[row], strict=True), strict=True)
            worst[row] = [_worst(loads, row, case, built) for case, loads in by_case]
        for case, peak in zip(CASES, worst[row], strict=True):
            if peak is not None:
                peaks[case][key] = peak
    return peaks


def _worst(loads: tuple[float | None, ...], row: int, case: Case, built: list[tuple[Station, ForceOf]]) -> Peak | None:
    known = [-inf if load is None else load for load in loads]
    best = max(known)
    if best == -inf:
        return None
    at = place_of(best, known)
    return Peak(best, built[at][1](row, case), at)


def _on_bodies(
    scene: Scene, components: tuple[Component, ...], built: list[tuple[Station, ForceOf]]
) -> dict[Case, dict[Key, tuple[Peak, ...]]]:
    """What pulls on each body but the ground at every station: a lesser pull that lifts or is across may be worse."""
    bodies = [(c.key, scene.row_of[c.key]) for c in components if c.kind in ("body", "load") and c.name != GROUND]
    pulls: dict[Case, dict[Key, tuple[Peak, ...]]] = {case: {} for case in CASES}
    for at, case in enumerate(CASES):
        for key, row in bodies:
            loads = [station.rows[row][at] for station, _ in built]
            pulls[case][key] = tuple(
                Peak(load, built[i][1](row, case), i) for i, load in enumerate(loads) if load is not None
            )
    return pulls


def _missing(stage: RigStage, stations: tuple[Station, ...]) -> dict[Case, tuple[str, ...]]:
    """Facts without which a case's loads are not known, or are only known to be at least what is given."""
    winch = stage.winch.facts
    stall: list[str] = []
    if winch.stall_pull is None:
        stall.append("/winch/stall_pull" if winch.rated_pull else "/winch/rated_pull")
    if winch.rated_layer is None:
        stall.append("/winch/rated_layer")
    elif winch.rated_layer > 1:  # on a lower layer the winch pulls more than it is stated to
        stall += layers_lack(stage)
    losses = [f"{stage.redirects[t.redirect].pointer}/loss" for line in stage.lines for t in line.turns
              if t.loss is None]  # fmt: skip
    moving = [fact for s in stations for fact in _moving_lacks(stage, s)]
    rest = [fact for s in stations for fact in s.resistance.rest_missing]
    lists: dict[Case, list[str]] = {"expected": moving + losses, "stall": stall, "holding": rest + losses}
    return {case: tuple(dict.fromkeys(facts)) for case, facts in lists.items()}


def _moving_lacks(stage: RigStage, station: Station) -> tuple[str, ...]:
    """What the resistance lacks, hauled or lowered."""
    found = station.resistance
    return found.missing if stage.works == "hauling" else found.rest_missing
