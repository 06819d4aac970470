"""Where rope bends, over what, and with what load: seats, hangers on redirects, the fairlead. For rules."""

from collections.abc import Iterator
from math import pi
from typing import Final, NamedTuple

from riglint.mechanics.bend import fibre_bend_demand, wire_bend_demand
from riglint.mechanics.rounding import first_greatest
from riglint.reading.quantity import Span
from riglint.rig.model import Connector, Redirect
from riglint.solve.ratings import place, share_of_use
from riglint.solve.rope import leads
from riglint.solve.seats import Bend, bends, known_n
from riglint.solve.solution import StageSolution

# Fibre gear that is round, so that it has a diameter to bend by; webbing counts only where one is stated.
_ROUND: Final = {"soft shackle": "fibre", "rope strop": "fibre", "wire sling": "wire"}
_ENDLESS: Final = 10.0  # no bend serves for so many times the strength, nor for a load that has no end
STALL_FACTOR: Final = 2.0  # at stall every element has half its strength in hand, wire in a bend too (MGN 308 2.1)
_WITHIN: Final = 1.0 - 1e-9  # just short of its breaking load, where published sheaves begin to count
_WEBBING: Final = frozenset({"strap", "sling", "recovery strap"})


class RopeBend(NamedTuple):
    """Something bent over something, with its worst loads: steady (expected, or at rest) and at stall.

    `missing` are facts of the bend itself; those of the loads are the stage's.
    """

    at: str  # the seat, redirect or fairlead
    pointer: str
    what: str  # the piece or connector
    rope: str | None  # "fibre" or "wire"
    construction: str | None
    tread: Span | None
    diameter: Span | None
    breaking_n: float | None
    moving: bool
    steady_n: float | None
    stall_n: float | None
    station: int
    turn_rad: float
    hanger: bool
    missing: tuple[str, ...]

    @property
    def ratio(self) -> float | None:
        """Tread over diameter, at the sharp end of both; None if either isn't stated. Source: definition."""
        return self.tread.low / self.diameter.high if self.tread and self.diameter else None

    @property
    def shown(self) -> tuple[tuple[float, float, float], ...]:
        """The ratio with the tread and the diameter that give it, where it is known. Source: definition."""
        ratio, tread, diameter = self.ratio, self.tread, self.diameter
        return ((ratio, tread.low, diameter.high),) if ratio is not None and tread and diameter else ()

    def asked(self, load_n: float | None, *, at_stall: bool = False) -> float:
        """The bend ratio that a load asks for: of rope that isn't stated, and of strength, the mildest.

        Equation: as `mechanics.bend`. Published sheaves for wire are for long life: they count for its breaking load
        alone, and below that the load is held against what a standing bend leaves, at stall against half of it.
        Source: as there; half at stall MGN 308 2.1, read second hand
        """
        use = min(_ENDLESS, load_n / self.breaking_n) if load_n is not None and self.breaking_n else 0.0
        hard = min(_WITHIN, STALL_FACTOR * use) if at_stall and use < 1.0 else use
        ropes = (self.rope,) if self.rope else ("fibre", "wire")
        return min(self._demand(rope, use if rope == "fibre" else hard) for rope in ropes)

    @property
    def asked_at_breaking(self) -> float:
        """The bend ratio that the rope's breaking load asks for."""
        return max(self._demand(rope, 1.0) for rope in ((self.rope,) if self.rope else ("fibre", "wire")))

    def _demand(self, rope: str, use: float) -> float:
        if rope == "fibre":
            return fibre_bend_demand(use, moving=self.moving).value
        made = (self.construction or "").lower()
        return wire_bend_demand(use, moving=self.moving and use >= 1.0, construction=made).value


def rope_bends(stage: StageSolution) -> Iterator[RopeBend]:
    """Every bend of a stage: each piece in each seat, each hanger on its redirect, the rope at the fairlead."""
    for bend in bends(stage):
        if (turn := bend.turn) is None:
            continue
        redirect, tread = stage.stage.redirects[turn.redirect], turn.seat.tread
        lacks = () if tread else (place(redirect.pointer, f"tread of its {turn.seat_name}"),)
        at, pointer = f"{turn.redirect}.{turn.seat_name}", f"{redirect.pointer}/{turn.seat_name}"
        yield _of_piece(stage, bend, at, pointer, tread, lacks, pi)
    for redirect in stage.stage.redirects.values():
        yield from _hanger(stage, redirect)
    yield from _fairlead(stage)


def _of_piece(
    stage: StageSolution, bend: Bend, at: str, pointer: str, tread: Span | None, lacks: tuple[str, ...], turn_rad: float
) -> RopeBend:  # fmt: skip
    facts, piece = bend.piece.facts, bend.piece
    keys = (("rope", facts.rope), ("diameter", facts.diameter), ("breaking", facts.breaking))
    missing = lacks + tuple(place(piece.pointer, key) for key, stated in keys if stated is None)
    return RopeBend(
        at, pointer, piece.name, _family(facts.rope), facts.construction, tread, facts.diameter,
        facts.breaking.low if facts.breaking else None, bend.moving, known_n(stage, bend.expected_n), bend.stall_n,
        bend.station, turn_rad, False, missing,
    )  # fmt: skip


def _family(rope: str | None) -> str | None:
    return None if rope is None else "wire" if rope.startswith("wire") else "fibre"


def _hanger(stage: StageSolution, redirect: Redirect) -> Iterator[RopeBend]:
    """The first connector's own bend on the redirect, where it is soft, or may be: it stands."""
    first = redirect.hanger.connectors[0] if redirect.hanger and redirect.hanger.connectors else None
    rope = _soft(first) if first else None
    if first is None or (first.facts.kind and not rope):
        return
    component = stage.component("connector", first.name)
    peaks = [stage.peak(component, case) if component else None for case in ("expected", "holding", "stall")]
    if not any(peaks):
        return
    steady, holding, stall = (peak.load_n if peak else None for peak in peaks)
    steady = max(steady or 0.0, holding or 0.0) if steady is not None or holding is not None else None
    seat_name, facts = _hung_through(redirect), first.facts
    seat = redirect.facts.seat(seat_name) if seat_name else None
    tread = seat.tread if seat else None
    lacks = f"tread of its {seat_name}" if seat_name else "hung_through"
    missing: tuple[str, ...] = () if tread else (place(redirect.pointer, lacks),)
    tread = tread if facts.kind else None  # what may be no rope has no bend to speak of
    keys = (("kind", facts.kind), ("diameter", facts.diameter), ("breaking", facts.breaking))
    missing += tuple(place(first.pointer, key) for key, stated in keys if stated is None)
    peak = peaks[2] or peaks[0] or peaks[1]
    share, _ = share_of_use(first)
    yield RopeBend(
        redirect.name, first.pointer, first.name, rope, None, tread, facts.diameter,
        facts.breaking.low * share.high if facts.breaking else None, False, known_n(stage, steady), stall,
        peak.station if peak else 0, pi, True, missing,
    )  # fmt: skip


def _hung_through(redirect: Redirect) -> str | None:
    """What the hanger bears on; of a block, its head if nothing else is stated."""
    return redirect.facts.hung_through or ("head" if redirect.facts.kind == "block" else None)


def _soft(connector: Connector) -> str | None:
    facts = connector.facts
    if facts.kind in _WEBBING and facts.diameter is None:
        return None
    kind = _ROUND.get(facts.kind or "") or ("fibre" if facts.kind in _WEBBING else None)
    return "wire" if kind and facts.material == "wire" else kind


def _fairlead(stage: StageSolution) -> Iterator[RopeBend]:
    facts = stage.stage.winch.facts.fairlead
    turned = leads(stage) if facts and facts.kind != "none" else []
    if facts is None or not turned:
        return
    station, turn_rad = first_greatest(turned, lambda x: x[1])
    first = stage.stage.haul.pieces[0]
    tension = [s.legs[0].tension for s in stage.stations]
    steady = max((t[c] for t in tension for c in ("expected", "holding") if c in t), default=None)
    stall = max((t["stall"] for t in tension if "stall" in t), default=None)
    tread = Span(2.0 * facts.radius.low, 2.0 * facts.radius.high) if facts.radius else None
    lacks = () if tread else (place("/winch/fairlead", "radius"),)
    bend = Bend(stage.stage.haul, None, first, True, steady, stall, station.index)
    yield _of_piece(stage, bend, "fairlead", "/winch/fairlead", tread, lacks, turn_rad)
