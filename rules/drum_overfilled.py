"""Rope above the drum's flange.

Rope that comes over the flange drops beside the drum, is crushed or jams it, and the load
has the jerk.

How it is judged: at the station with most rope on the drum, at the long end of its
length, the layers that it takes against the layers that fit under the flange, each layer
lying one rope diameter higher, wound evenly. A pull from one side winds unevenly: then
even a drum that has room can pile rope over its flange.

    layers_that_fit = ((flange - barrel) / 2 - rope) // rope + 1

Derivation from the drum's measures; tables of drum capacity in handbooks fill the section
without gaps, and so come out with more.

What to do: take rope off the drum before the pull, pull from nearer by and re-rig, or
keep to one part.

Worked example: barrel 65 mm, flange 190 mm, rope 11 mm.
flange = 190 mm; barrel = 65 mm; rope = 11 mm; layers_that_fit = ((flange - barrel) / 2 - rope) // rope + 1 = 5
"""

from riglint.outcome import Value, Where
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, first_greatest
from riglint.solve.rope import drum_lacks, length_lacks, stages

_BASIS = Basis("derivation", "rope stays below the flange, layer on layer", scope="winching")

_WORDS = Words(
    "{rope} of rope make {measured} on the drum, and {limit} fit under its flange",
    "{rope} of rope make {measured} on the drum, and {limit} fit under its flange",
    "whether the rope fits under the drum's flange can't be told",
    "Take rope off the drum first, or stop and re-rig before {travel} of travel",
)


@rule(
    title="Rope over the drum's flange", grade=Grade.WARNING, guards="drum", basis=(_BASIS,),
    worse=Worse.by(higher="lines/*/pieces/*/length lines/*/pieces/*/diameter",
                   lower="winch/drum/flange winch/drum/width",
                   taken_away="winch/drum/flange lines/*/pieces/*/length lines/*/pieces/*/diameter winch/drum"),
)  # fmt: skip
def drum_overfilled(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        yield _fullest(stage)


def _fullest(stage: StageSolution) -> Check:
    winch = stage.stage.winch
    lacks = drum_lacks(stage) + length_lacks(stage.stage.haul)
    if winch.facts.drum and winch.facts.drum.flange is None:
        lacks += (place(winch.pointer + "/drum", "flange"),)
    fullest = first_greatest(stage.stations, lambda s: s.drum.rope_m.high if s.drum else 0.0)
    where = Where("drum", "drum", winch.pointer, "", stage.stage.index, fullest.travel_m)
    drum = fullest.drum
    if lacks:
        return at_most(None, None, "layers", where, _WORDS, missing=lacks)
    assert drum is not None and drum.fits is not None  # noqa: S101, PT018 -- nothing lacks
    # Rope that isn't there takes no layer.
    layers = float(drum.layer[1]) if drum.rope_m.high > 0.0 else 0.0
    return at_most(layers, float(drum.fits), "layers", where, _WORDS, terms=(("rope", Value(drum.rope_m.high, "m")),))
