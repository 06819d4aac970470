"""What differs by rounding alone is equal: machines round differently, and must tell the same.

Libraries of mathematical functions agree to a unit in the last place, no further (ISO/IEC 9899 leaves it to them).
So of several that are equal but for that, the first counts, everywhere.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import isclose
from typing import TypeVar

T = TypeVar("T")

SHARE = 1e-9  # of the greater of two figures
LEAST = 1e-12  # of any unit: what is nothing but for rounding


def same(a: float, b: float) -> bool:
    """Whether two figures differ by no more than rounding. Source: derivation."""
    return isclose(a, b, rel_tol=SHARE, abs_tol=LEAST)


def surpasses(a: float, b: float) -> bool:
    """Whether a is more than b, and not by rounding alone. Source: derivation."""
    return a > b and not same(a, b)


def first_greatest(items: Sequence[T], of: Callable[[T], float]) -> T:
    """Of those whose figure is the greatest, or equal to it, the first. Range: not empty. Source: derivation."""
    figures = [of(item) for item in items]
    most = max(figures)
    for figure, item in zip(figures, items, strict=True):
        if figure == most or same(figure, most):
            return item
    return items[0]


def first_least(items: Sequence[T], of: Callable[[T], float]) -> T:
    """Of those whose figure is the least, or equal to it, the first. Range: not empty. Source: derivation."""
    return first_greatest(items, lambda item: -of(item))
