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


def place_of(figure: float, figures: Sequence[float]) -> int:
    """Where one of several figures, or one equal to it, comes first. Raises ValueError for none of them.

    Source: derivation.
    """
    for i, other in enumerate(figures):
        if isclose(other, figure, rel_tol=SHARE, abs_tol=LEAST):  # as `same`, which is asked for most of all here
            return i
    return figures.index(figure)


def first_greatest(items: Sequence[T], of: Callable[[T], float]) -> T:
    """Of those whose figure is the greatest, or equal to it, the first. Range: not empty. Source: derivation."""
    figures = [of(item) for item in items]
    return items[place_of(max(figures), figures)]


def first_least(items: Sequence[T], of: Callable[[T], float]) -> T:
    """Of those whose figure is the least, or equal to it, the first. Range: not empty. Source: derivation."""
    return first_greatest(items, lambda item: -of(item))
