"""What line pull is needed, what the winch gives for it, and what its brake holds, station by station. For rules."""

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from riglint.mechanics.drum import Drum, pull_at_layer_n
from riglint.solve.solution import StageSolution, Station

_NO_GAIN = 1e-9


class Need(NamedTuple):
    """Line pull needed at a station, by both methods. With a loss not stated, `needed_n` is the least that it is."""

    station: Station
    compounded_n: float
    doctrine_n: float
    needed_n: float
    gives_n: float | None
    resistance_n: float
    layer: str


def needs(stage: StageSolution) -> Iterator[Need]:
    """Every station where the resistance is known and hauling gets somewhere, friction left out.

    Where friction takes all that hauling gains there, no line pull is enough: an infinite one is needed.

    Equation: compounded R / g, doctrine R (1 + 0.1 n) / g0; R top of the resistance, g least pull along the travel
    for a unit of line pull, g0 the same without friction, n turns; the greater of both is needed.
    Source: derivation, and lesson 63H34F01 (tackle resistance), read second hand
    """
    for station in stage.stations:
        force, compounded = station.resistance.hauling, station.line_pull_most_n
        if force is None or compounded is None or station.ratio_ideal <= _NO_GAIN:
            continue
        doctrine = station.line_pull_doctrine_n or compounded
        least = force.high / station.ratio_most if station.ratio_most > _NO_GAIN else inf
        needed = least if stage.losses_assumed else max(compounded, doctrine)
        yield Need(station, compounded, doctrine, needed, _gives(stage, station), force.high, layer_of(stage, station))


def _gives(stage: StageSolution, station: Station) -> float | None:
    """On no layer does a winch pull more than on the first, which is the rated one if no other is named."""
    if station.drum:
        return station.drum.pull_n
    facts = stage.stage.winch.facts
    return facts.rated_pull.low if facts.rated_pull and facts.rated_layer in (None, 1) else None


def layer_of(stage: StageSolution, station: Station) -> str:
    """The layer in use there, in words; of a drum that isn't known, the one that the winch is rated for."""
    return str(station.drum.pull_layer if station.drum else stage.stage.winch.facts.rated_layer or 1)


def brake_holds_n(stage: StageSolution, station: Station) -> float | None:
    """What the brake holds at the layer in use; None if it isn't stated, as stated if the drum isn't known.

    Equation: as `mechanics.drum.pull_at_layer_n`. Source: constant torque
    """
    facts, rope = stage.stage.winch.facts, stage.stage.haul.pieces[0].facts.diameter
    if facts.brake_hold is None:
        return None
    stated: float = facts.brake_hold.low
    if station.drum is None or facts.drum is None or rope is None:
        return stated
    # Of measures with a range the pull falls most on the one or on the other, by which of the two layers lies higher.
    small = Drum(facts.drum.diameter.low, facts.drum.width.low, rope.high)
    large = Drum(facts.drum.diameter.high, facts.drum.width.low, rope.low)
    layer = station.drum.pull_layer
    return min(pull_at_layer_n(drum, stated, facts.rated_layer or 1, layer) for drum in (small, large))
