"""Wraps that must stay on the drum.

The rope's fastening on the drum is not made to hold the pull: the wraps that stay hold it, by friction. With too few
of them the fastening lets go, and the load and a whipping rope's end are free at once.

How it is judged: at the station where fewest wraps are on the drum, at the short end of every length. Wire keeps 5
wraps, fibre rope the whole bottom layer and never fewer than wire. Where the plan does not say how far the fairlead
stands from the drum, half a metre of rope is put by for it. What the wraps pass on to the fastening is
T exp(-2 pi mu n), with the low end of what rope grips (HMPE 0.05, others 0.1, from memory), and is checked where the
fastening's own strength is stated.

Sources for winches differ: 5 wraps in the operator's manuals of heavy trucks (TM 9-2320-279-10-2), 4 in that of a
light truck (TM 9-2320-280-10), 3 in a regulation for well servicing (Wyoming OSHA ch. 5), and 2 from memory in a
European standard. The safest is taken. For fibre rope no published figure was found: the whole bottom layer is
common practice, since such rope grips about half as well as wire.

What to do: move the anchor or the winch nearer, put an extension in, or stop sooner.

Worked example: five wraps of wire, 47 kN in the rope.
pull = 47 kN; mu = 0.1; wraps = 5; fastening = pull * exp(-2 * pi * mu * wraps) = 2.031 kN
"""

from __future__ import annotations

from collections.abc import Iterator

from riglint.mechanics.friction import fastening_tension_n
from riglint.mechanics.grip import rope_on_drum_mu
from riglint.mechanics.provenance import TM_9_2320_279_10
from riglint.outcome import Basis, Check, Formula, Grade, Step, Value, Where
from riglint.rulebook.judge import Words, at_least, at_most
from riglint.rulebook.limits import Limit, Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.ratings import place
from riglint.solve.rope import drum_lacks, is_wire, length_lacks, stages
from riglint.solve.solution import DrumFigures, Solution, StageSolution, Station

_WIRE = Basis("handbook", "at least 5 wraps stay on the drum", TM_9_2320_279_10, "p. 2-660", "winching", "read")
_FIBRE = Basis("common practice", "fibre rope: the whole bottom layer stays on the drum", scope="winching")
_RUN = Basis("common practice", "rope between drum and fairlead, where it isn't stated", scope="winching")
_CAPSTAN = Basis("derivation", "wraps hold by friction: T exp(-2 pi mu n)", scope="winching")

_WRAPS = Formula(
    "wraps", "rope_on_drum / bottom_layer * wraps_in_it",
    (("rope_on_drum", "m"), ("bottom_layer", "m"), ("wraps_in_it", "wraps")), "wraps",
)  # fmt: skip
_LEFT = Formula(
    "left_to_fastening", "line_pull * exp(-2 * pi * friction * wraps)",
    (("line_pull", "N"), ("friction", "1"), ("wraps", "wraps")), "N",
)  # fmt: skip
_WORDS = Words(
    "only {measured} stay on the drum, {limit} must; they leave {left} of the pull to the rope's fastening",
    "{measured} stay on the drum, {limit} must; they leave {left} of the pull to the rope's fastening",
    "the wraps that stay on the drum can't be told",
    "Keep {short} more rope on the drum: an extension, or a shorter way from winch to load",
)
_FASTENING = Words(
    "the wraps leave {measured} to the rope's fastening, which holds {limit}",
    "the wraps leave {measured} to the rope's fastening, which holds {limit}",
    "what the wraps leave to the rope's fastening can't be told",
    "Keep more wraps on the drum",
)


@rule(
    title="Wraps left on the drum",
    grade=Grade.DANGER,
    guards="drum",
    basis=(_WIRE, _FIBRE, _CAPSTAN),
    limits=(
        Limit("wire_wraps", 5.0, "wraps", "least wraps of wire rope", _WIRE, "lower"),
        Limit("fibre_layers", 1.0, "layers", "least layers of fibre rope", _FIBRE, "lower"),
        Limit("unstated_run", 0.5, "m", "rope put by between drum and fairlead if not stated", _RUN, "lower"),
    ),
    worse=(Worse("winch/drum/fastening", "lower"), Worse("winch/fairlead/from_drum", "higher")),
)
def drum_wraps(solution: Solution, limits: Limits) -> Iterator[Check]:
    for stage in stages(solution):
        least = min(stage.stations, key=lambda s: s.drum.wraps.low if s.drum else 0.0)
        yield from _station(stage, least, limits)


def _station(stage: StageSolution, station: Station, limits: Limits) -> Iterator[Check]:
    winch, drum = stage.stage.winch, station.drum
    where = Where("drum", "drum", winch.pointer, "", stage.stage.index, station.travel_m)
    lacks = drum_lacks(stage) + length_lacks(stage.stage.haul)
    if drum is None or lacks:
        yield at_least(None, None, "wraps", where, _WORDS, missing=lacks)
        return
    one_m = drum.on_bottom_m / drum.wraps_in_bottom
    wraps, rope = max(0.0, drum.wraps.low), stage.stage.haul.pieces[0].facts.rope
    least = limits["wire_wraps"]
    if rope is None or not is_wire(rope):
        whole = max(least, limits["fibre_layers"] * drum.wraps_in_bottom)
        least = min(least, whole) if rope is None else whole
    missing: tuple[str, ...] = () if rope else (place(stage.stage.haul.pieces[0].pointer, "rope"),)
    fairlead = winch.facts.fairlead
    if not (fairlead and fairlead.from_drum) and least <= wraps < least + limits["unstated_run"] / one_m:
        missing += (place("/winch/fairlead", "from_drum"),)
    yield at_least(
        wraps, least, "wraps", where, _WORDS, missing=missing,
        terms=(
            ("left", Value(fastening_tension_n(1.0, _mu(rope), wraps), "share")),
            ("short", Value((least - wraps) * one_m, "m")),
        ),
        working=_working(drum, wraps), basis=_WIRE if rope and is_wire(rope) else _FIBRE if rope else None,
    )  # fmt: skip
    yield from _fastening(stage, station, where, wraps, _mu(rope))


def _working(drum: DrumFigures, wraps: float) -> tuple[Step, ...]:
    if not 0.0 < wraps <= drum.wraps_in_bottom:
        return ()
    return (_WRAPS.step(wraps, drum.rope_m.low, drum.on_bottom_m, drum.wraps_in_bottom),)


def _mu(rope: str | None) -> float:
    return rope_on_drum_mu(rope or "hmpe").value


def _fastening(stage: StageSolution, station: Station, where: Where, wraps: float, mu: float) -> Iterator[Check]:
    drum = stage.stage.winch.facts.drum
    if drum is None or drum.fastening is None:
        return
    pull = max(station.legs[0].tension.values(), default=None)
    missing = stage.missing["stall" if stage.stage.works == "hauling" else "expected"]
    left = None if pull is None else fastening_tension_n(pull, mu, wraps)
    working = () if pull is None or left is None else (_LEFT.step(left, pull, mu, wraps),)
    yield at_most(
        left, drum.fastening.low, "N", where, _FASTENING, missing=missing, working=working, measure="fastening",
        basis=_CAPSTAN,
    )  # fmt: skip
