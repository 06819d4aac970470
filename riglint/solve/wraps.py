"""How few wraps stay on the drum, and how well they hold. For rules."""

from math import isclose, isfinite
from typing import NamedTuple

from riglint.mechanics.friction import fastening_tension_n
from riglint.mechanics.grip import rope_on_drum_mu
from riglint.mechanics.rounding import first_least
from riglint.solve.rope import drum_lacks, is_wire, length_lacks
from riglint.solve.solution import StageSolution, Station


class Wraps(NamedTuple):
    """The least on the drum over the travel. Lengths at their short end; with `lacks`, nothing else counts."""

    station: Station
    wraps: float
    one_m: float  # the length of a wrap of the bottom layer
    in_bottom: float
    on_drum_m: float
    rope: str | None
    mu: float  # of rope on drum, at the least
    pull_n: float | None  # the most in the rope there
    lacks: tuple[str, ...]

    def must_stay(self, wire: float, fibre_layers: float) -> float:
        """Wraps asked of this rope; of rope that isn't stated, the fewer. Fibre never keeps fewer than wire."""
        fibre = max(wire, fibre_layers * self.in_bottom)
        return wire if self.rope is None or is_wire(self.rope) else fibre

    def without(self, rope_m: float) -> "Wraps":
        """With so much less rope on the drum: exact within the bottom layer, above it the least that it may be."""
        on_m = self.on_drum_m - rope_m
        within = on_m <= self.in_bottom * self.one_m
        wraps = max(0.0, on_m / self.one_m) if within else max(self.in_bottom, self.wraps - rope_m / self.one_m)
        return self._replace(wraps=wraps, on_drum_m=on_m)

    @property
    def one_by_one(self) -> bool:
        """Whether each wrap takes the same length, as where none lies above the bottom layer."""
        return self.wraps > 0.0 and isclose(self.wraps * self.one_m, self.on_drum_m)

    def left_n(self, pull_n: float) -> float:
        """What the wraps pass on of a pull; of an endless one, no less. As `mechanics.friction.fastening_tension_n`."""
        return fastening_tension_n(pull_n, self.mu, self.wraps) if isfinite(pull_n) else pull_n


def fewest_wraps(stage: StageSolution) -> Wraps:
    """The station with least rope on the drum. Rope that isn't stated holds as poorly as HMPE."""
    haul = stage.stage.haul
    least = first_least(stage.stations, lambda s: s.drum.wraps.low if s.drum else 0.0)
    rope, drum, lacks = haul.pieces[0].facts.rope, least.drum, drum_lacks(stage) + length_lacks(haul)
    mu, pull = rope_on_drum_mu(rope or "hmpe").value, max(least.legs[0].tension.values(), default=None)
    if drum is None:
        return Wraps(least, 0.0, 1.0, 0.0, 0.0, rope, mu, pull, lacks)
    one_m, wraps = drum.on_bottom_m / drum.wraps_in_bottom, max(0.0, drum.wraps.low)
    return Wraps(least, wraps, one_m, drum.wraps_in_bottom, drum.rope_m.low, rope, mu, pull, lacks)
