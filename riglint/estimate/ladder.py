"""Doctrine's ladder: ratio rounded up, tackle friction, total, fall line, and again with one part more if short."""

from __future__ import annotations

from collections.abc import Callable
from math import inf
from typing import Final, NamedTuple

from riglint.mechanics.tackle import (
    fall_line_n,
    required_ratio_count,
    tackle_ratio,
    tackle_resistance_n,
    total_resistance_n,
)  # fmt: skip
from riglint.outcome import Formula, Step

MOST_PARTS: Final = 13  # a plan's line makes at most 12 turns
_SLACK: Final = 1e-9  # equal is not less, whatever rounding did to it
_WORST_LOSS: Final = 0.5  # beyond it a redirect is a brake, and no tackle

_TACKLE = Formula("tackle", "0.1 * resistance * sheaves", (("resistance", "N"), ("sheaves", "1")), "N")
_TOTAL = Formula("total", "resistance + tackle", (("resistance", "N"), ("tackle", "N")), "N")
_FALL = Formula("fall_line", "total / parts", (("total", "N"), ("parts", "1")), "N")
_COMPOUNDED = Formula("by_stated_losses", "resistance / gain", (("resistance", "N"), ("gain", "1")), "N")


class Gives(NamedTuple):
    """What the winch gives on a layer. None for the layer where the one in use can't be told."""

    pull_n: float
    layer: int | None


class Rung(NamedTuple):
    """One try. `line_n` is what counts: the fall line, or what stated losses make of it where that is more."""

    parts: int
    sheaves: int
    tackle_n: float
    total_n: float
    fall_line_n: float
    compounded_n: float | None
    gain: float | None
    gives: Gives

    @property
    def line_n(self) -> float:
        """The line pull needed."""
        return max(self.fall_line_n, self.compounded_n or 0.0)

    @property
    def serves(self) -> bool:
        """Less than the winch gives; equal is not less."""
        return self.line_n < self.gives.pull_n * (1.0 - _SLACK)

    def working(self, load_n: float) -> tuple[Step, ...]:
        """The steps with their numbers."""
        steps = (
            _TACKLE.step(self.tackle_n, load_n, self.sheaves),
            _TOTAL.step(self.total_n, load_n, self.tackle_n),
            _FALL.step(self.fall_line_n, self.total_n, self.parts),
        )
        if self.compounded_n is None or self.gain is None or self.compounded_n <= self.fall_line_n:
            return steps
        return (*steps, _COMPOUNDED.step(self.compounded_n, load_n, self.gain))


def ladder(load_n: float, first_n: float, gives: Callable[[int], Gives], loss: float | None = None) -> tuple[Rung, ...]:
    """Every try from the first ratio to the first that serves, or to the most parts that a line can make.

    Equation: m = ceil(LR / C); R = LR (1 + 0.10 (m - 1)); F = R / m < what the winch gives, else m + 1;
        where losses are stated, F is no less than LR / (1 + (1 - l) + ... + (1 - l)^(m - 1))
    Units: LR `load_n` [N], C `first_n` the winch's pull to begin with [N], l `loss` of a half turn where stated
    Range: LR >= 0, C > 0, 0 <= loss < 1
    Source: lesson 63H34F01, supplement 1b, read second hand; TB 9-2350-292-10 steps 4 and 5, read
    Raises: ValueError outside the range
    """
    rungs: list[Rung] = []
    for parts in range(min(required_ratio_count(load_n, first_n), MOST_PARTS), MOST_PARTS + 1):
        rungs.append(_rung(load_n, parts, gives(parts), loss))
        if rungs[-1].serves:
            break
    return tuple(rungs)


def _rung(load_n: float, parts: int, gives: Gives, loss: float | None) -> Rung:
    sheaves = parts - 1
    total_n = total_resistance_n(load_n, sheaves)
    gain, compounded_n = None, None
    if loss is not None:
        if not 0.0 <= loss < 1.0:
            raise ValueError(f"loss is {loss!r}; it must be 0 to below 1")
        # The winch's own leg runs over no sheave; the tables' lead line has run over one.
        gain = tackle_ratio(parts, 1.0 / (1.0 - loss)) / (1.0 - loss) if loss <= _WORST_LOSS else None
        compounded_n = load_n / gain if gain else inf
    tackle_n = tackle_resistance_n(load_n, sheaves)
    return Rung(parts, sheaves, tackle_n, total_n, fall_line_n(total_n, parts), compounded_n, gain, gives)
