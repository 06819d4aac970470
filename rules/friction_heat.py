"""Friction heat where rope slides over a seat.

Rope that slides through a ring under load heats its surface. Fibre glazes, stiffens and
then melts, and HMPE is weak long before it melts.

How it is judged: for each metre of rope that slides, the seat takes the difference of the
two tensions as heat. If all of that stays in the rope, its mean temperature rises by q /
(m c), with q the heat and m the mass of a metre, c the specific heat. That rise on top of
the air's must stay below what the fibre bears: HMPE 65 degrees C, other synthetics 82.
Past the softening point it is a WARNING. Half or more of the heat goes into the ring, so
this is an upper bound of the mean; the surface is hotter for a moment. At stall nothing
slides, so only the pull as expected counts. A sheave that turns makes no such heat. Aramid,
manila and wire have no figure here and are not judged.

    rise = heat / (mass * specific_heat)

82 degrees C is guidance on slings, read second hand; polypropylene softening at 149 is
read; HMPE's figures, mass and specific heat are from memory.

What to do: a block in place of the ring, fewer turns, or a slow pull with halts to let
the ring cool.

Worked example: 24 kN at a ring that loses 10 %, 11 mm HMPE of 0.0553 kg/m.
heat = 2400 J/m; mass = 0.0553 kg/m; specific_heat = 1850 J/(kg K); rise = heat / (mass * specific_heat) = 23.5 K
"""

from math import inf

from riglint.mechanics.constants import KELVIN_AT_0_C
from riglint.mechanics.heat import fibre_heat
from riglint.outcome import Formula, Where
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, exceeds
from riglint.solve.rope import stages
from riglint.solve.seats import Slide, slides

_BASIS = Basis("derivation", "all friction heat stays in the rope")
_BEARS = Basis(
    "handbook", "synthetics above 180 F are damaged", "osha-sling-guidance", "heat", "lifting", "read second hand"
)
_AIR = Basis("common practice", "a warm day")

_WARM = Formula("rope", "air + rise", (("air", "degC"), ("rise", "K")), "degC")
_WORDS = Words(
    "{piece} gets up to {measured} warm where it slides through {name}; its fibre bears {limit}",
    "{piece} gets up to {measured} warm where it slides through {name}; its fibre bears {limit}",
    "how warm {piece} gets where it slides through {name} can't be told",
    "Use a block there, or pull slowly and let the ring cool")  # fmt: skip


@rule(
    title="Friction heat in a sliding seat", grade=Grade.CAUTION, guards="line", basis=(_BASIS, _BEARS),
    limits=(Limit("air", 30.0, "degC", "temperature of the air and of the rope before it slides", _AIR, "lower"),),
    worse=Worse.by(higher="redirects/*/loss bodies/*/resistance/steady", lower="lines/*/pieces/*/diameter",
                   taken_away="lines/*/pieces/*/diameter"))  # fmt: skip
def friction_heat(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for slide in slides(stage):
            yield from _slide(stage, slide, limits["air"])


def _slide(stage: StageSolution, slide: Slide, air: float) -> Checks:
    facts, turn, bears = slide.piece.facts, slide.turn, fibre_heat(slide.piece.facts.rope or "hmpe")
    if bears is None:
        return
    pointer = f"{stage.stage.redirects[turn.redirect].pointer}/{turn.seat_name}"
    travel_m = stage.stations[slide.station].travel_m
    where = Where("seat", f"{turn.redirect}.{turn.seat_name}", pointer, "expected", stage.stage.index, travel_m)
    keys = (("rope", facts.rope), ("diameter", facts.diameter))
    missing = tuple(place(slide.piece.pointer, key) for key, stated in keys if stated is None)
    rise, most = slide.rise_k(), bears.keep_below.value - KELVIN_AT_0_C
    gets = None if rise is None else air + rise
    melts = gets is not None and bears.softens is not None and exceeds(gets, bears.softens.value - KELVIN_AT_0_C)
    yield at_most(
        gets, most, "degC", where, _WORDS, missing=missing + stage.missing["expected"],
        terms=(("piece", slide.piece.name),), grade=Grade.WARNING if melts else None,
        working=() if rise in (None, inf) else (_WARM.step(air + rise, air, rise),),
    )  # fmt: skip
