"""Every figure of a rig at one place of the travel."""

from collections.abc import Callable
from math import inf, pi
from typing import NamedTuple

from riglint.mechanics.envelope import CANCELS, Envelope, Term, envelope
from riglint.mechanics.tackle import SHEAVE_LOSS
from riglint.mechanics.tension import Ratio, ratio_range
from riglint.mechanics.vectors import ZERO, Vec, along, between_rad, distance, dot, norm
from riglint.reading.quantity import Span
from riglint.rig.model import Line, RigStage, Turn
from riglint.solve.drum_figures import DrumTable
from riglint.solve.events import ideal_gain
from riglint.solve.geometry import Geometry
from riglint.solve.resistance import ResistanceTable
from riglint.solve.sharing import Sharing
from riglint.solve.solution import (
    CASES,
    Case,
    DrumFigures,
    Event,
    Kind,
    Leg,
    ResistanceFigures,
    Station,
    TurnFigures,
)  # fmt: skip
from riglint.solve.wiring import LegEnds, Wiring

ASSUMED_LOSS = Span(0.0, SHEAVE_LOSS.value)  # where the plan is silent, for orientation only: nothing passes on it
NO_SLIP = 0.05  # metres of rope over a seat per metre of travel: below it, it may run either way or not at all

STRAIGHT = 1e-6  # a turn of the rope, in radians, that is rounding and no turn

Key = tuple[Kind, str]
ForceOf = Callable[[int, Case], Vec]
Three = tuple[float | None, float | None, float | None]  # expected, stall, holding


class Scene(NamedTuple):
    """What the stations of a stage share."""

    stage: RigStage
    wiring: Wiring
    drum: DrumTable
    resistance: ResistanceTable
    ropes: tuple[tuple[int, float, float], ...]  # pieces and joins: line, from and to the dead end, widened a hair
    row_of: dict[Key, int]  # rows: the wiring's sums, then the ropes, the winch, the fairlead
    lines: tuple[Line, ...]
    hauls: bool  # whether the winch takes line in


class _Pulls(NamedTuple):
    """Envelopes of the cases at a station. None where a case can't be told or does not occur."""

    expected: Envelope | None
    stall: Envelope
    holding: Envelope | None


def loss_range(loss: Span | None) -> tuple[float, float, float]:
    """Least, most and stated loss of a seat. One figure is the most it can be; a range is what it says."""
    low, high = loss or ASSUMED_LOSS
    if low == high:
        return 0.0, high, high
    return low, high, 0.5 * (low + high)


def build_station(
    scene: Scene, index: int, title: str, geometry: Geometry, rates: tuple[float, ...], events: tuple[Event, ...],
    from_rest: bool,
) -> tuple[Station, ForceOf]:  # fmt: skip
    """The station at a geometry, and what tells the force that goes with a row's load in a case.

    `rates` are the legs' changes of length per metre of travel there. The load is broken away there `from_rest`. It
    may have to be held at any of them: anybody can call a stop anywhere.
    """
    stage, wiring = scene.stage, scene.wiring
    travel_m = geometry.travel_m
    path_m = geometry.to_end[0] - stage.haul.dead_end.length_m
    drum = scene.drum.figures(path_m)
    resists = scene.resistance.at(stage.begins_m + travel_m, from_rest, sets_out=index == 0)
    slips, wraps = _slips(wiring, rates), wraps_at(wiring, geometry)
    running, standing = ratios_at(wiring, wraps, slips), ratios_at(wiring, wraps, [0] * len(wraps))
    stall_n = drum.stall_n if drum else scene.drum.stall_most_n(1)
    sharing = Sharing(wiring, geometry)
    pulls = _pulls(scene, geometry, sharing, resists, running, standing, stall_n)
    stated = sharing.tensions([r.stated for r in running])
    assembly = _Assembly(scene, geometry, resists, running, wraps, slips, pulls, stated, stall_n)
    return assembly.station(index, title, path_m, drum, events), assembly.force


def ratios_at(wiring: Wiring, wraps: list[float], slips: list[int]) -> list[Ratio]:
    """The ratio of each seat, by how much the rope turns over it [rad] and which way it runs.

    Source: `mechanics.tension`.
    """
    return [_ratio(t.turn, wrap, slip) for t, wrap, slip in zip(wiring.turns, wraps, slips, strict=True)]


def _ratio(turn: Turn, wrap_rad: float, slip: int) -> Ratio:
    low, high, stated = loss_range(turn.loss)
    return ratio_range(turn.rolls, wrap_rad, low, high, stated, slip)


def _slips(wiring: Wiring, rates: tuple[float, ...]) -> list[int]:
    """Which way rope runs over each seat: toward the first end where the path beyond it shortens."""
    out = []
    for turn in wiring.turns:
        rate = sum(rates[turn.beyond : wiring.line_legs[turn.line].stop])
        out.append(slip_at(rate))
    return out


def slip_at(rate: float) -> int:
    """Which way rope runs over a seat by how fast the path beyond it grows: 0 where it may be either, or none."""
    return 0 if abs(rate) < NO_SLIP else 1 if rate < 0.0 else -1


def wraps_at(wiring: Wiring, geometry: Geometry) -> list[float]:
    """By how much the rope turns over each seat [rad]. Source: geometry."""
    return [between_rad(geometry.ways[t.before], geometry.ways[t.beyond]) for t in wiring.turns]


def terms_of(geometry: Geometry, ends: LegEnds) -> list[Term]:
    """The legs that pull on something, each with the way that it pulls. Source: geometry."""
    ways = geometry.ways
    return [(leg, sign * ways[leg][0], sign * ways[leg][1], sign * ways[leg][2]) for leg, sign in ends]


def gains_of(scene: Scene, geometry: Geometry) -> list[tuple[int, float]]:
    """The legs that pull on the load, each with the share of its tension that goes along the travel. Source: geometry.

    Lowered, the rope holds the load back: its pull along the travel is against it.
    """
    net, way = scene.wiring.net, 1.0 if scene.hauls else -1.0
    return [(leg, way * sign * dot(geometry.ways[leg], net.direction)) for leg, sign in scene.wiring.load_ends]


def _pulls(
    scene: Scene, geometry: Geometry, sharing: Sharing, resists: ResistanceFigures, running: list[Ratio],
    standing: list[Ratio], stall_n: float | None,
) -> _Pulls:  # fmt: skip
    wiring = scene.wiring
    terms = [terms_of(geometry, ends) for ends in wiring.sums]
    gain = gains_of(scene, geometry)
    moving = resists.hauling if scene.hauls else resists.driving
    cap_n = stall_n if stall_n is not None and scene.hauls else inf
    run = envelope(sharing.corners(running), terms, gain, moving.high if moving else 0.0, cap_n)
    hold = None
    # On a hauling stage the load at rest pulls back along the slope; on a lowering one it pulls as it drives.
    rest = resists.holding if scene.hauls else resists.driving
    if rest is not None and rest.high > 0.0:
        hold = envelope(sharing.corners(standing), terms, gain, rest.high, inf)
    return _Pulls(run if moving is not None else None, run, hold)


class _Assembly:
    """Puts the figures of one station together."""

    def __init__(
        self, scene: Scene, geometry: Geometry, resists: ResistanceFigures, ratios: list[Ratio], wraps: list[float],
        slips: list[int], pulls: _Pulls, stated: list[float], stall_n: float | None,
    ) -> None:  # fmt: skip
        self.scene, self.geometry, self.resists, self.ratios = scene, geometry, resists, ratios
        self.wraps, self.slips, self.pulls, self.stated = wraps, slips, pulls, stated
        self.stall_n = stall_n if scene.hauls else None
        self.way = 1.0 if scene.hauls else -1.0

    def station(
        self, index: int, title: str, path_m: float, drum: DrumFigures | None, events: tuple[Event, ...]
    ) -> Station:
        wiring, geometry = self.scene.wiring, self.geometry
        ideal = ideal_gain(wiring, geometry)
        run = self.pulls.stall
        moving = self.resists.hauling if self.scene.hauls else self.resists.driving
        gain = self.way * sum(
            sign * self.stated[leg] * dot(geometry.ways[leg], wiring.net.direction) for leg, sign in wiring.load_ends
        )
        mid = moving.mid / gain if moving and gain > 1e-9 else None
        legs_n = self._legs()
        return Station(
            index=index,
            travel_m=geometry.travel_m,
            title=title,
            events=events,
            places=dict(zip(wiring.names, geometry.places, strict=True)),
            legs=tuple(self._leg(i, legs_n[i], mid) for own in wiring.line_legs for i in own),
            turns=tuple(self._turn(k, legs_n) for k in range(len(wiring.turns))),
            path_m=path_m,
            ratio_ideal=ideal,
            ratio_least=run.pull_least,
            ratio_most=run.pull_most,
            resistance=self.resists,
            line_pull_n=mid,
            line_pull_most_n=_over(moving, run.pull_least),
            line_pull_doctrine_n=self._by_doctrine(moving, ideal),
            pull_along_n=Span(self.stall_n * run.pull_least, self.stall_n * run.pull_most) if self.stall_n else None,
            pull_across_n=self._across(),
            drum=drum,
            rows=self._rows(legs_n),
            row_of=self.scene.row_of,
        )

    def force(self, row: int, case: Case) -> Vec:
        """The force of a row's worst load in a case; zero where it has no one direction or can't be told."""
        pulls = self.pulls
        own = {"expected": pulls.expected, "stall": pulls.stall, "holding": pulls.holding}[case]
        if own is None or row >= len(own.elements) or (case == "stall" and self.stall_n is None):
            return ZERO
        return own.unit_force(row, self.stall_n or 0.0) if case == "stall" else own.force(row)

    def _legs(self) -> list[Three]:
        """Of each leg the worst tension in each case."""
        expected, stall, holding = self.pulls.expected, self.pulls.stall, self.pulls.holding
        cap = self.stall_n
        return [
            (
                expected.legs[i][0] if expected else None,
                stall.legs[i][1] * cap if cap is not None else None,
                holding.legs[i][0] if holding else None,
            )
            for i in range(len(self.scene.wiring.legs))
        ]

    def _leg(self, i: int, tension: Three, line_pull: float | None) -> Leg:
        wiring, geometry = self.scene.wiring, self.geometry
        leg = wiring.legs[i]
        line = self.scene.lines[leg.line]
        cases: dict[Case, float] = {
            case: value for case, value in zip(CASES, tension, strict=True) if value is not None
        }
        return Leg(
            line=line.name,
            index=i - wiring.line_legs[leg.line].start,
            begins=wiring.names[leg.begin],
            ends=wiring.names[leg.end],
            start=geometry.places[leg.begin],
            end=geometry.places[leg.end],
            length_m=geometry.lengths[i],
            pulls_load=int(wiring.moves[leg.begin] != wiring.moves[leg.end]),
            tension=cases,
            as_stated_n=(line_pull or 0.0) * self.stated[i],
        )

    def _turn(self, k: int, legs_n: list[Three]) -> TurnFigures:
        wired = self.scene.wiring.turns[k]
        ratio = self.ratios[k]
        line_n: dict[Case, float] = {}
        heat: dict[Case, float] = {}
        share = 0.0 if wired.turn.rolls or self.slips[k] == 0 else 1.0 - min(ratio.low, 1.0 / ratio.high)
        for case, before, beyond in zip(CASES, legs_n[wired.before], legs_n[wired.beyond], strict=True):
            if before is not None and beyond is not None:
                line_n[case] = max(before, beyond)
                heat[case] = share * max(before, beyond) if share else 0.0
        line = self.scene.lines[wired.line]
        beyond_m = self.geometry.path_beyond(self.scene.wiring, wired.line, wired.index)
        return TurnFigures(
            turn=wired.turn,
            line=line.name,
            index=wired.index,
            wrap_rad=self.wraps[k],
            included_rad=pi - self.wraps[k],
            slip=self.slips[k],
            ratio_low=ratio.low,
            ratio_high=ratio.high,
            path_beyond_m=beyond_m - line.dead_end.length_m,
            line_n=line_n,
            heat_j_m=heat,
        )

    def _by_doctrine(self, moving: Span | None, ideal: float) -> float | None:
        """Field manuals reckon tackle friction as a share of the resistance for each sheave, and add it."""
        if moving is None or self.way * ideal <= 1e-9:
            return None
        sheaves = len(self.scene.stage.haul.turns)
        return moving.high * (1.0 + SHEAVE_LOSS.value * sheaves) / (self.way * ideal)

    def _across(self) -> float | None:
        row = self.scene.row_of.get(("load", self.scene.stage.load.name))
        if self.stall_n is None or row is None:
            return None
        extreme = self.pulls.stall.elements[row]
        way = self.scene.wiring.net.direction
        force = self.pulls.stall.unit_force(row)
        across = norm(along(force, way, -dot(force, way)))
        return self.stall_n * across if across > CANCELS * extreme.unit_load else 0.0

    def _rows(self, legs_n: list[Three]) -> tuple[Three, ...]:
        expected, holding, cap = self.pulls.expected, self.pulls.holding, self.stall_n
        out: list[Three] = [
            (
                expected.elements[i].load_n if expected else None,
                own.unit_load * cap if cap is not None else None,
                holding.elements[i].load_n if holding else None,
            )
            for i, own in enumerate(self.pulls.stall.elements)
        ]
        out += self._rope_rows(legs_n)
        out.append(legs_n[0])
        out.append(self._fairlead(legs_n[0]))
        return tuple(out)

    def _rope_rows(self, legs_n: list[Three]) -> list[Three]:
        """Pieces and joins carry the worst of the legs that they lie in; what is on the drum, the first leg's."""
        lengths = self.geometry.lengths
        ends: list[list[tuple[float, float, Three]]] = []
        for own, line in zip(self.scene.wiring.line_legs, self.scene.lines, strict=True):
            beyond = -line.dead_end.length_m
            rows = []
            for i in reversed(own):
                outer, beyond = beyond, beyond + lengths[i]
                rows.append((outer, beyond if i else inf, legs_n[i]))
            ends.append(rows)
        return [
            _worst([three for low, high, three in ends[line] if start <= high and stop >= low])
            for line, start, stop in self.scene.ropes
        ]

    def _fairlead(self, first: Three) -> Three:
        """The rope bends at the fairlead by the angle between the winch's outlook and the first leg."""
        factor = distance(self.scene.stage.winch.outlook, self.geometry.ways[0])
        straight = factor < STRAIGHT  # bears nothing, even of a pull without end
        expected, stall, holding = (None if n is None else 0.0 if straight else n * factor for n in first)
        return (expected, stall, holding)


def _over(force: Span | None, gain: float) -> float | None:
    if force is None:
        return None
    if force.high == 0.0:
        return 0.0
    return force.high / gain if gain > 1e-9 else inf


def _worst(rows: list[Three]) -> Three:
    if len(rows) == 1:
        return rows[0]
    expected, stall, holding = (
        (max([v for v in column if v is not None], default=None) for column in zip(*rows, strict=True))
        if rows
        else (None, None, None)
    )
    return (expected, stall, holding)
