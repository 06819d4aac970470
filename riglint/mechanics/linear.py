"""Small dense linear systems, by elimination with partial pivoting. Source: linear algebra textbooks.

A handful of unknowns at a time: numpy's import alone would take longer than all of the mechanics.
"""

from __future__ import annotations

from math import nan
from operator import mul


def solve_linear(matrix: list[list[float]], right: list[float]) -> list[float]:
    """X with matrix x = right; all NaN where the matrix is singular.

    Symbols: matrix, n rows of n; right, n values; any unit. Range: n from 0 up. Source: Gauss elimination.
    """
    rows = [[r, *row] for row, r in zip(matrix, right, strict=True)]
    heads: list[tuple[float, list[float]]] = []
    while rows:  # each round takes one row and the last column away
        sizes = [abs(row[-1]) for row in rows]
        largest = max(sizes)
        if not largest >= 1e-300:
            return [nan] * len(right)
        head = rows.pop(sizes.index(largest))
        pivot = head.pop()
        heads.append((pivot, head))
        for i, row in enumerate(rows):
            factor = row.pop() / pivot
            if factor:
                rows[i] = [x - factor * h for x, h in zip(row, head)]  # noqa: B905 -- alike, and it is counted in microseconds
    out: list[float] = []
    for pivot, (value, *others) in reversed(heads):
        out.append((value - sum(map(mul, others, out))) / pivot)
    return out
