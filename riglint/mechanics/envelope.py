"""The worst load of each component over the corners of what friction may be. Source: derivation."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import sqrt
from typing import NamedTuple

from riglint.mechanics.vectors import ZERO, Vec, scale

Term = tuple[int, float, float, float]  # a leg's number and the unit vector along which its tension pulls

NO_GAIN = 1e-9  # pull per unit of line pull below which hauling gets nowhere


class Extreme(NamedTuple):
    """The greatest load at the given resistance, and per unit of line pull, each with its force there."""

    load_n: float
    force: Vec
    unit_load: float
    unit_force: Vec


class Envelope(NamedTuple):
    """Extremes of legs and of elements, and the least and most pull per unit of line pull."""

    legs: list[tuple[float, float]]  # greatest tension [N] at the resistance, and per unit of line pull
    elements: list[Extreme]
    pull_least: float
    pull_most: float


def envelope(
    corners: Iterable[list[float]],
    elements: Sequence[Sequence[Term]],
    pull: Sequence[tuple[int, float]],
    resistance_n: float,
    cap_n: float,
) -> Envelope:
    """Greatest loads over all corners of leg tensions per unit of line pull.

    Equation: load = |sum t_i u_i| R / sum(t_i c_i), and no more than |sum t_i u_i| cap. Symbols: corners, tensions
    t of all legs per unit of the first's; elements, terms (leg, ux, uy, uz); pull, (leg, c) with c the share of
    the leg's tension along the travel; resistance R in newtons (0 for none); cap, the most line pull in newtons
    (inf for none known). Range: R >= 0, cap > 0. Where hauling gets nowhere the line pull is the cap. The cap is
    put on the greatest load, not on each corner: of the lesser of two loads the worst may lie between corners.
    Source: derivation; vector sums.
    """
    rows = list(corners)
    gains = [sum([tension[leg] * share for leg, share in pull]) for tension in rows]
    blocked_n = cap_n if resistance_n > 0.0 else 0.0
    lines_n = [resistance_n / gain if gain > NO_GAIN else blocked_n for gain in gains]
    columns = list(zip(*rows, strict=True))
    legs = [(_greatest(column, lines_n, cap_n), max(column)) for column in columns]
    extremes = [_single(terms[0], columns, lines_n, cap_n) if len(terms) == 1 else _sum(terms, rows, lines_n, cap_n)
                for terms in elements]  # fmt: skip
    return Envelope(legs, extremes, min(gains), max(gains))


def _greatest(column: tuple[float, ...], lines_n: list[float], cap_n: float) -> float:
    """The greatest tension of a leg; a slack one carries nothing, whatever the line pull."""
    return min(max([t * n if t > 0.0 else 0.0 for t, n in zip(column, lines_n, strict=True)]), cap_n * max(column))


def _single(term: Term, columns: list[tuple[float, ...]], lines_n: list[float], cap_n: float) -> Extreme:
    """The extreme of one leg's pull."""
    leg, x, y, z = term
    column = columns[leg]
    unit = max(column)
    load = _greatest(column, lines_n, cap_n) if unit > 0.0 else 0.0
    return Extreme(load, (load * x, load * y, load * z), unit, (unit * x, unit * y, unit * z))


def _sum(terms: Sequence[Term], rows: list[list[float]], lines_n: list[float], cap_n: float) -> Extreme:
    """The extreme of a vector sum of legs' pulls."""
    best_n = best_unit = -1.0
    force_n = force_unit = ZERO
    (a, ax, ay, az), (b, bx, by, bz), *rest = terms
    for t, line_n in zip(rows, lines_n, strict=True):
        ta, tb = t[a], t[b]
        x, y, z = ta * ax + tb * bx, ta * ay + tb * by, ta * az + tb * bz
        for leg, ux, uy, uz in rest:
            tension = t[leg]
            x += tension * ux
            y += tension * uy
            z += tension * uz
        size = sqrt(x * x + y * y + z * z)
        if size > best_unit:
            best_unit, force_unit = size, (x, y, z)
        if size > 0.0 and size * line_n > best_n:
            best_n, force_n = size * line_n, (x * line_n, y * line_n, z * line_n)
    if best_n > cap_n * best_unit:
        best_n, force_n = cap_n * best_unit, scale(force_unit, cap_n)
    return Extreme(max(best_n, 0.0), force_n, best_unit, force_unit)
