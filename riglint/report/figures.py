"""Figures in what machines read: six significant digits, a word for what has no end, null for what isn't told."""

from __future__ import annotations

from math import inf
from typing import Any, Final

from riglint.outcome import six_digits

ENDLESS: Final = "without end"
"""JSON has no infinity. A use against a limit of nothing has no end, nor a pull that nothing limits."""


def figure(x: float | None) -> float | str | None:
    """A number to six significant digits; `without end` for what has none, null for what isn't told."""
    if x is None or not -inf < x:  # no number at all
        return None
    return six_digits(x) if x < inf else ENDLESS


def number(told: Any) -> float | None:
    """What such a figure stands for; None for what isn't told or is none."""
    if told == ENDLESS:
        return inf
    return float(told) if isinstance(told, int | float) else None
