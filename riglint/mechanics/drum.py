"""Rope on a drum: wraps and length by layer, the layer in use, wraps left and pull by layer.

Rope lies in helical wraps side by side; each further layer lies `stack_factor` rope diameters higher.
1 stacks wrap on wrap, the default; sqrt(3)/2 nests each wrap between two below. Wrap on wrap gives the
larger diameters, so less pull on the upper layers and fewer layers under the flange.
"""

from dataclasses import dataclass
from math import floor, hypot, inf, pi, sqrt
from typing import Final, NamedTuple

from riglint.mechanics._refuse import refuse

NESTED: Final = sqrt(3.0) / 2.0
LONGEST_M: Final = 100_000.0  # nothing longer is a winch rope; keeps a slip of units from running away

_COUNT_SLACK = 1e-9  # 20 wraps that come out as 19.9999999999 are 20


@dataclass(frozen=True, slots=True)
class Drum:
    """A drum and the rope on it; lengths in metres."""

    barrel_m: float
    width_m: float
    rope_m: float
    stack_factor: float = 1.0

    def __post_init__(self) -> None:
        """Refuse with a ValueError what is not a drum."""
        for name in ("barrel_m", "width_m", "rope_m"):
            size_m = getattr(self, name)
            if not 0.0 < size_m < inf:
                raise refuse(name, size_m, "finite and above 0")
        if self.rope_m > self.width_m:
            raise refuse("rope_m", self.rope_m, f"at most width_m {self.width_m!r}")
        if not 0.8 <= self.stack_factor <= 1.0:
            raise refuse("stack_factor", self.stack_factor, "0.8 to 1")


class DrumState(NamedTuple):
    """How so much rope lies on a drum; the layer is the one that the rope leaves from."""

    layer: int
    wraps_on_layer: float
    wraps_total: float
    length_m: float
    diameter_m: float


def wraps_per_layer_count(width_m: float, rope_m: float) -> int:
    """Wraps that lie side by side.

    Equation: n = floor(B / d)
    Units: B width between the flanges [m], d rope diameter [m]
    Range: 0 < d <= B
    Source: derivation (geometry)
    Raises: ValueError outside the range
    """
    if not 0.0 < rope_m < inf:
        raise refuse("rope_m", rope_m, "finite and above 0")
    if not rope_m <= width_m < inf:
        raise refuse("width_m", width_m, f"finite and at least rope_m {rope_m!r}")
    return floor(width_m / rope_m + _COUNT_SLACK)


def layer_diameter_m(drum: Drum, layer: int) -> float:
    """Diameter from rope centre to rope centre on a layer.

    Equation: D = D0 + d (1 + 2 s (i - 1)); for s = 1, D0 + d (2 i - 1)
    Units: D0 barrel [m], d rope [m], s stack factor, i layer from 1 at the barrel
    Range: i >= 1
    Source: derivation (geometry)
    Raises: ValueError outside the range
    """
    if layer < 1:
        raise refuse("layer", layer, "1 or more")
    return drum.barrel_m + drum.rope_m * (1.0 + 2.0 * drum.stack_factor * (layer - 1))


def layer_length_m(drum: Drum, layer: int) -> float:
    """Rope on one full layer.

    Equation: L = n sqrt((pi D)^2 + d^2)
    Units: n wraps on the layer, D its diameter at rope centre [m], d rope = lead of the helix [m]
    Range: layer >= 1
    Source: derivation (geometry of a helix)
    Raises: ValueError outside the range
    """
    wrap_m = hypot(pi * layer_diameter_m(drum, layer), drum.rope_m)
    return wraps_per_layer_count(drum.width_m, drum.rope_m) * wrap_m


def length_for_layers_m(drum: Drum, layers_count: int) -> float:
    """Rope on so many full layers.

    Equation: L = sum of the layer lengths
    Units: length [m]
    Range: layers >= 0
    Source: derivation (geometry of a helix)
    Raises: ValueError outside the range
    """
    if layers_count < 0:
        raise refuse("layers_count", layers_count, "0 or more")
    return sum(layer_length_m(drum, layer) for layer in range(1, layers_count + 1))


def layer_of(drum: Drum, length_m: float) -> DrumState:
    """Where the rope leaves a drum that holds so much of it.

    Equation: fill layer by layer; wraps on the last = n (length there) / (layer length)
    Units: length on the drum [m]
    Range: 0 <= length <= 100 km. A layer that is just full is the layer in use; an empty drum is on layer 1
    Source: derivation (geometry of a helix)
    Raises: ValueError outside the range
    """
    if not 0.0 <= length_m <= LONGEST_M:
        raise refuse("length_m", length_m, "0 to 100 km")
    per_layer = wraps_per_layer_count(drum.width_m, drum.rope_m)
    layer, rest_m = 1, length_m
    full_m = layer_length_m(drum, 1)
    while rest_m > full_m * (1.0 + _COUNT_SLACK):
        rest_m -= full_m
        layer += 1
        full_m = layer_length_m(drum, layer)
    on_layer = min(rest_m / full_m, 1.0) * per_layer
    total = on_layer + per_layer * (layer - 1)
    return DrumState(layer, on_layer, total, length_m, layer_diameter_m(drum, layer))


def wraps_left_count(drum: Drum, length_m: float) -> float:
    """Wraps on a drum that holds so much rope, all layers counted.

    Equation: as `layer_of`
    Units: length on the drum [m]; wraps, fractions included
    Range: 0 <= length <= 100 km
    Source: derivation (geometry of a helix)
    Raises: ValueError outside the range
    """
    return layer_of(drum, length_m).wraps_total


def length_of_wraps_m(drum: Drum, wraps_count: float) -> float:
    """Rope that so many wraps take, counted from the barrel up; the inverse of `wraps_left_count`.

    Equation: full layers, then the share of the layer begun
    Units: wraps, fractions included; length [m]
    Range: 0 <= wraps <= 100 000
    Source: derivation (geometry of a helix)
    Raises: ValueError outside the range
    """
    if not 0.0 <= wraps_count <= 1e5:
        raise refuse("wraps_count", wraps_count, "0 to 100 000")
    per_layer = wraps_per_layer_count(drum.width_m, drum.rope_m)
    full, rest = divmod(wraps_count, per_layer)
    layers = int(full)
    return length_for_layers_m(drum, layers) + rest / per_layer * layer_length_m(drum, layers + 1)


def layers_under_flange_count(drum: Drum, flange_m: float, freeboard_m: float = 0.0) -> int:
    """Full layers that leave so much flange standing above them.

    Equation: largest i with D0 + 2 d (1 + s (i - 1)) + 2 f <= F
    Units: D0 barrel, d rope, F flange diameter, f free flange above the rope [m], s stack factor
    Range: F >= D0, f >= 0
    Source: derivation (geometry); the free board is the caller's
    Raises: ValueError outside the range
    """
    if not drum.barrel_m <= flange_m < inf:
        raise refuse("flange_m", flange_m, f"finite and at least barrel_m {drum.barrel_m!r}")
    if not 0.0 <= freeboard_m < inf:
        raise refuse("freeboard_m", freeboard_m, "finite and not negative")
    depth = ((flange_m - drum.barrel_m) / 2.0 - freeboard_m) / drum.rope_m
    return max(0, 1 + floor((depth - 1.0) / drum.stack_factor + _COUNT_SLACK))


def drum_capacity_m(drum: Drum, flange_m: float, freeboard_m: float = 0.0) -> float:
    """Rope that the drum takes in full layers under the flange.

    Equation: sum of the layer lengths over the layers that fit
    Units: flange diameter and free flange [m]
    Range: flange >= barrel, free flange >= 0
    Source: derivation (geometry of a helix)
    Raises: ValueError outside the range
    """
    return length_for_layers_m(drum, layers_under_flange_count(drum, flange_m, freeboard_m))


def overfill_m(drum: Drum, length_m: float, flange_m: float, freeboard_m: float = 0.0) -> float:
    """Rope for which there is no room under the flange; 0 where all fits.

    Equation: max(0, length - capacity)
    Units: all lengths [m]
    Range: length >= 0, flange >= barrel, free flange >= 0
    Source: derivation (geometry of a helix)
    Raises: ValueError outside the range
    """
    if not 0.0 <= length_m < inf:
        raise refuse("length_m", length_m, "finite and not negative")
    return max(0.0, length_m - drum_capacity_m(drum, flange_m, freeboard_m))


def handbook_capacity_m(width_m: float, depth_m: float, barrel_m: float, rope_m: float) -> float:
    """Drum capacity by the handbooks' formula, which fills the section without gaps between layers.

    Equation: L = pi B h (D0 + h) / d^2 (printed as 0.2618 B h (D0 + h) / d^2, feet from inches)
    Units: B width, h depth of rope on the barrel, D0 barrel, d rope [m]
    Range: all finite, h >= 0, the others > 0
    Source: winch and wire handbook ch. 12 s. 1, read
    Raises: ValueError outside the range
    """
    for name, size_m in (("width_m", width_m), ("barrel_m", barrel_m), ("rope_m", rope_m)):
        if not 0.0 < size_m < inf:
            raise refuse(name, size_m, "finite and above 0")
    if not 0.0 <= depth_m < inf:
        raise refuse("depth_m", depth_m, "finite and not negative")
    return pi * width_m * depth_m * (barrel_m + depth_m) / rope_m**2


def pull_at_layer_n(drum: Drum, rated_n: float, rated_layer: int, layer: int) -> float:
    """Line pull on a layer from the torque that gives the rated pull on the rated layer.

    Equation: P = P_r D_r / D
    Units: P_r rated pull [N], D_r and D diameters at rope centre on the rated layer and on this one [m]
    Range: P_r >= 0, layers >= 1
    Source: SAE J706 definition (constant torque), read second hand; TM 9-2320-279-10-2 table 2-7 agrees, read
    Raises: ValueError outside the range
    """
    if not 0.0 <= rated_n < inf:
        raise refuse("rated_n", rated_n, "finite and not negative")
    return rated_n * layer_diameter_m(drum, rated_layer) / layer_diameter_m(drum, layer)


def layer_pull_ratio(layer_growth_ratio: float, layer: int) -> float:
    """Pull on a layer over the pull on the first, from the growth of a layer alone.

    Equation: P_i / P_1 = 1 / (1 + c (i - 1))
    Units: c = 2 d s / D_1, growth of the diameter over one layer
    Range: c >= 0, i >= 1
    Source: derivation (constant torque); c = 0.1008 fits TM 9-2320-279-10-2 table 2-7 to 0.1 %
    Raises: ValueError outside the range
    """
    if not 0.0 <= layer_growth_ratio < inf:
        raise refuse("layer_growth_ratio", layer_growth_ratio, "finite and not negative")
    if layer < 1:
        raise refuse("layer", layer, "1 or more")
    return 1.0 / (1.0 + layer_growth_ratio * (layer - 1))
