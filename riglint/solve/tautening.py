"""Where along the travel something of fixed length that hung slack comes taut, or goes slack."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import floor

from riglint.mechanics.compound import TAUT
from riglint.rig.model import RigStage
from riglint.solve.geometry import Walk
from riglint.solve.mark import Mark
from riglint.solve.wiring import Wiring

STEP_M = 1e-3  # the millimetre of travel in which it happens: a station on either side, the same on every machine


def tautenings(stage: RigStage, wiring: Wiring, walk: Walk, places: list[float]) -> tuple[Mark, ...]:
    """The places between those given, in pairs a millimetre apart, between which something comes taut or goes slack.

    There what the line pull comes to has a kink, and friction may change sides: loads on the one side don't show on
    the other. What is taut on both of two neighbouring places, or on neither, is taken to stay so in between.

    Equation: tension per unit of line pull = 0. Units: travel s [m]. Range: places in order. Raises NoBalance.
    Source: derivation (Kuhn-Tucker conditions).
    """
    if not wiring.net.strings:
        return ()
    return tuple(found for low, high in pairwise(places) for found in _between(stage, wiring, walk, low, high))


def _between(stage: RigStage, wiring: Wiring, walk: Walk, low_m: float, high_m: float) -> Iterator[Mark]:
    at_low, at_high = _taut(walk, low_m), _taut(walk, high_m)
    changed = [i for i, (a, b) in enumerate(zip(at_low, at_high, strict=True)) if a != b]
    for i in changed:
        before_m, after_m = low_m, high_m
        while after_m - before_m > 0.1 * STEP_M:
            middle_m = 0.5 * (before_m + after_m)
            if _taut(walk, middle_m)[i] == at_low[i]:
                before_m = middle_m
            else:
                after_m = middle_m
        below_m = round(floor(before_m / STEP_M) * STEP_M, 3)
        for place in (below_m, round(below_m + STEP_M, 3)):
            if low_m < place < high_m:
                yield Mark(place, "{} comes taut or goes slack", _name(stage, wiring, i))


def _taut(walk: Walk, travel_m: float) -> list[bool]:
    """Of each tether, then of each string, whether it is taut."""
    whole = walk.at(travel_m).balance.whole
    return [ratio > TAUT for ratio in whole.ratios] if whole else []


def _name(stage: RigStage, wiring: Wiring, number: int) -> str:
    """Of a tether what hangs from it, of a line its name, of a bridle's leg the point that it holds."""
    if number < len(wiring.net.tethers):
        return wiring.names[wiring.net.tethers[number].node]
    first = wiring.legs[wiring.strings[number - len(wiring.net.tethers)][0]]
    return stage.lines[first.line].name if first.line >= 0 else f"the leg to {wiring.names[first.end]}"
