"""What is on the drum along the travel: wraps, layers and the pull that is left there."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from itertools import accumulate
from math import atan2, isfinite, pi

from riglint.mechanics.drum import (
    Drum,
    layer_diameter_m,
    layer_length_m,
    layers_under_flange_count,
    wraps_per_layer_count,
)
from riglint.plan.winch import Drum as DrumFacts
from riglint.reading.quantity import Span
from riglint.rig.model import RigStage
from riglint.solve.solution import DrumFigures

MOST_LAYERS = 60
EDGE_M = 1e-9  # rope that differs by less is as long
STEP_M = 1e-5  # rope by which a place that was looked for may miss the wrap on which the layer changes
UNTOLD_RUN_M = 0.5
"""Rope that may lie between drum and fairlead where the plan doesn't say. Source: common practice (`drum-wraps`)."""


class Layers:
    """A drum's layers, worked out once, as far as so much rope takes them."""

    def __init__(self, drum: Drum, rope_m: float) -> None:
        self.per_layer = wraps_per_layer_count(drum.width_m, drum.rope_m)
        lengths: list[float] = []
        while not lengths or (len(lengths) < MOST_LAYERS and sum(lengths) < rope_m):
            lengths.append(layer_length_m(drum, len(lengths) + 1))
        self.ends_m = list(accumulate(lengths))
        self.bottom_m = layer_diameter_m(drum, 1)

    def layer(self, rope_m: float) -> int:
        """The layer that the rope leaves from, with so much on the drum."""
        return min(bisect_left(self.ends_m, rope_m - EDGE_M), len(self.ends_m) - 1) + 1

    def wraps(self, rope_m: float) -> float:
        """Wraps on the drum; negative for rope that is not there."""
        if abs(rope_m) < EDGE_M:  # a join that is just at the fairlead leaves what rounding leaves
            return 0.0
        if rope_m <= 0.0:
            return rope_m / (pi * self.bottom_m)
        layer = self.layer(rope_m)
        below = self.ends_m[layer - 2] if layer > 1 else 0.0
        full = self.ends_m[layer - 1] - below
        return self.per_layer * (layer - 1 + min(1.0, (rope_m - below) / full))


class DrumTable:
    """A stage's drum with its layers worked out once. `known` is False where the plan lacks a dimension.

    Of measures with a range each figure takes the ends that are adverse for it.
    """

    def __init__(self, stage: RigStage) -> None:
        self.facts = stage.winch.facts
        self.line = stage.haul
        drum, rope = self.facts.drum, stage.haul.pieces[0].facts.diameter
        fairlead = self.facts.fairlead
        stated = fairlead.from_drum if fairlead else None
        self.run = stated or Span(0.0, 0.0)
        self.run_m = self.run.mid
        self.unstated_m = 0.0 if stated else UNTOLD_RUN_M
        self.known = drum is not None and rope is not None and rope.high <= drum.width.low
        self.layer_ends_m: list[float] = []
        self.fits: int | None = None
        if drum is not None and rope is not None and self.known:
            self._work_out(drum, rope)

    def _work_out(self, drum: DrumFacts, rope: Span) -> None:
        # Thick rope on a narrow drum lies in the most layers; on a wide barrel too, in the fewest wraps. Thin rope on a
        # wide drum lies in the fewest layers, and in the most wraps to each.
        self.crowded = Drum(drum.diameter.low, drum.width.low, rope.high)
        stout = Drum(drum.diameter.high, drum.width.low, rope.high)
        self.roomy = Drum(drum.diameter.high, drum.width.high, rope.low)
        rope_m = min(self.line.length.high, 1e5)
        self.most = Layers(self.crowded, rope_m)
        self.fewest = self.most if self.roomy == self.crowded else Layers(self.roomy, rope_m)
        self.longest = self.most if stout == self.crowded else Layers(stout, rope_m)
        self.layer_ends_m = self.most.ends_m
        self.outermost = len(self.most.ends_m)
        if drum.flange is not None:
            self.fits = layers_under_flange_count(stout, max(drum.flange.low, drum.diameter.high))
            thin = Drum(drum.diameter.low, drum.width.high, rope.low)
            self.outermost = layers_under_flange_count(thin, max(drum.flange.high, drum.diameter.low)) or self.outermost

    def _grows(self, rated_layer: int, layer: int) -> tuple[float, float]:
        """The least and the most that a pull grows by from its layer to another, by constant torque."""
        ends = [layer_diameter_m(drum, rated_layer) / layer_diameter_m(drum, layer)
                for drum in (self.crowded, self.roomy)]  # fmt: skip
        return min(ends), max(ends)

    def pull_least_n(self, layer: int) -> float | None:
        """The least pull available on a layer: by constant torque from the layer that the rating is for.

        A rating that does not say its layer is taken as the first layer's, where the winch pulls most.
        """
        rated = self.facts.rated_pull
        if rated is None or not self.known:
            return None
        return float(rated.low * self._grows(self.facts.rated_layer or 1, layer)[0])

    def stall_most_n(self, layer: int) -> float | None:
        """The most that the winch can pull on a layer.

        A pull that does not say its layer is taken as the outermost layer's, which makes the first the strongest.
        With no stall pull stated, the rated pull stands as the least that it can be.
        """
        stall = self.facts.stall_pull or self.facts.rated_pull
        if stall is None:
            return None
        if not self.known:
            return float(stall.high)
        return float(stall.high * self._grows(self.facts.rated_layer or self.outermost, layer)[1])

    def filling_paths(self) -> Iterator[tuple[float, int]]:
        """How long the path is, in metres, where a layer is full by the rope that either pull is reckoned with."""
        if not self.known:
            return
        most_m, least_m = self.line.length.high - self.run.low, self.line.length.low - self.run.high - self.unstated_m
        for rope_m, layers in ((most_m, self.most), (least_m, self.fewest)):
            if isfinite(rope_m):
                yield from ((rope_m - end_m, number) for number, end_m in enumerate(layers.ends_m, start=1))

    def figures(self, path_m: float) -> DrumFigures | None:
        """What is on the drum with so much line between fairlead and dead end."""
        if not self.known:
            return None
        rope = Span(self.line.length.low - path_m - self.run.high, self.line.length.high - path_m - self.run.low)
        ends = self.layer_ends_m
        low, high = self.most.layer(rope.low), self.most.layer(rope.high)
        # Where a layer is full the winch pulls, a hair on either side, as on that one and as on the next.
        pulls_on, stalls_on = rope.high + STEP_M, rope.low - self.unstated_m - STEP_M
        pull_layer = self.most.layer(pulls_on)
        full = tuple(layer if r >= ends[layer - 1] - EDGE_M else layer - 1
                     for layer, r in ((low, rope.low), (high, rope.high)))  # fmt: skip
        return DrumFigures(
            rope_m=rope,
            wraps=Span(self.longest.wraps(rope.low), self.most.wraps(rope.high)),
            layer=(low, high),
            full_layers=(full[0], full[1]),
            on_bottom_m=self.longest.ends_m[0] / self.longest.per_layer * self.fewest.per_layer,
            wraps_in_bottom=float(self.fewest.per_layer),
            pull_layer=pull_layer,
            pull_n=self.pull_least_n(pull_layer),
            stall_n=self.stall_most_n(self.fewest.layer(stalls_on)),
            fits=self.fits,
        )


def fleet_angle(off_m: float, width_m: float, from_drum_m: float) -> float:
    """The greatest angle between the rope and the line square to the drum, fairlead `off_m` off its middle.

    Equation: atan((B/2 + |off|) / distance). Source: geometry.
    """
    return atan2(0.5 * width_m + abs(off_m), from_drum_m)
