"""Small dense linear systems, by elimination with partial pivoting. Source: linear algebra textbooks.

A handful of unknowns at a time: numpy's import alone would take longer than all of the mechanics.
"""

from __future__ import annotations

from math import nan


def solve_linear(matrix: list[list[float]], right: list[float]) -> list[float]:
    """X with matrix x = right; all NaN where the matrix is singular.

    Symbols: matrix, n rows of n; right, n values; any unit. Range: n from 0 up. Source: Gauss elimination.
    """
    n = len(right)
    rows = [[*row, r] for row, r in zip(matrix, right, strict=True)]
    for column in range(n):
        pivot = max(range(column, n), key=lambda r: abs(rows[r][column]))
        if abs(rows[pivot][column]) < 1e-300:
            return [nan] * n
        rows[column], rows[pivot] = rows[pivot], rows[column]
        head = rows[column]
        for row in rows[column + 1 :]:
            factor = row[column] / head[column]
            if factor:
                for j in range(column, n + 1):
                    row[j] -= factor * head[j]
    out = [0.0] * n
    for i in reversed(range(n)):
        row = rows[i]
        out[i] = (row[n] - sum(row[j] * out[j] for j in range(i + 1, n))) / row[i]
    return out
