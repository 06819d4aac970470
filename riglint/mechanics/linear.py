"""Small dense linear systems, by elimination with partial pivoting. Source: linear algebra textbooks.

A handful of unknowns at a time: numpy's import alone would take longer than all of the mechanics.
"""

from __future__ import annotations

from math import nan


def solve_linear(matrix: list[list[float]], right: list[float]) -> list[float]:
    """X with matrix x = right; all NaN where the matrix is singular.

    Symbols: matrix, n rows of n; right, n values; any unit. Range: n from 0 up. Source: Gauss elimination.
    """
    rows = [[*row, r] for row, r in zip(matrix, right, strict=True)]
    heads: list[list[float]] = []
    while rows:  # each round takes one row and one column away
        sizes = [abs(row[0]) for row in rows]
        largest = max(sizes)
        if not largest >= 1e-300:
            return [nan] * len(right)
        head = rows.pop(sizes.index(largest))
        heads.append(head)
        first, *tail = head
        rest = []
        for row in rows:
            factor = row[0] / first
            if factor:
                rest.append([x - factor * h for x, h in zip(row[1:], tail, strict=True)])
            else:
                rest.append(row[1:])
        rows = rest
    out: list[float] = []  # from the last unknown to the first
    for first, *others, value in reversed(heads):
        for factor, x in zip(reversed(others), out, strict=True):
            value -= factor * x  # noqa: PLW2901
        out.append(value / first)
    out.reverse()
    return out
