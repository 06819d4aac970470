"""The worst load of each component over the corners of what friction may be. Source: derivation."""

from collections.abc import Iterable, Sequence
from math import sqrt
from typing import NamedTuple

from riglint.mechanics.rounding import place_of
from riglint.mechanics.vectors import ZERO, Vec, scale

Term = tuple[int, float, float, float]  # a leg's number and the unit vector along which its tension pulls

CANCELS = 1e-6  # of the pulls in a sum: a resultant below that share of them is rounding, and none
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
    Pulls that cancel out to within a millionth leave nothing: 0.05 N in a line at 50 kN is what rounding leaves.
    Source: derivation; vector sums.
    """
    rows = list(corners)
    gains = [sum([tension[leg] * share for leg, share in pull]) for tension in rows]
    blocked_n = cap_n if resistance_n > 0.0 else 0.0
    lines_n = [resistance_n / gain if gain > NO_GAIN else blocked_n for gain in gains]
    columns = list(zip(*rows, strict=True))
    legs = [(_greatest(column, lines_n, cap_n), max(column)) for column in columns]
    extremes = [_extreme(terms, rows, columns, lines_n, cap_n) for terms in elements]
    return Envelope(legs, extremes, min(gains), max(gains))


def _greatest(column: tuple[float, ...], lines_n: list[float], cap_n: float) -> float:
    """The greatest tension of a leg; a slack one carries nothing, whatever the line pull."""
    return min(max([t * n if t > 0.0 else 0.0 for t, n in zip(column, lines_n, strict=True)]), cap_n * max(column))


def _extreme(
    terms: Sequence[Term], rows: list[list[float]], columns: list[tuple[float, ...]], lines_n: list[float], cap_n: float
) -> Extreme:
    """The extreme of a vector sum of legs' pulls."""
    if len(terms) == 1:
        return _single(terms[0], columns, lines_n, cap_n)
    if len(terms) == 2:
        (a, ax, ay, az), (b, bx, by, bz) = terms
        # |t_a u_a + t_b u_b|^2 = (t_a - t_b)^2 + t_a t_b |u_a + u_b|^2, which keeps its digits where the two cancel.
        both = (ax + bx) ** 2 + (ay + by) ** 2 + (az + bz) ** 2
        sizes = [
            size if (size := sqrt((s - t) ** 2 + s * t * both)) >= CANCELS * (s + t) else 0.0
            for s, t in zip(columns[a], columns[b], strict=True)
        ]
    else:
        sizes = [_size(terms, t) for t in rows]
    unit = max(sizes)
    if unit <= 0.0:
        return Extreme(0.0, ZERO, 0.0, ZERO)
    # The first of equals: they may pull in different directions.
    unit_force = _force(terms, rows[place_of(unit, sizes)])
    loads = [size * line_n if size > 0.0 else 0.0 for size, line_n in zip(sizes, lines_n, strict=True)]
    load = max(loads)
    if load > cap_n * unit:
        return Extreme(cap_n * unit, scale(unit_force, cap_n), unit, unit_force)
    if load <= 0.0:
        return Extreme(0.0, ZERO, unit, unit_force)
    at = place_of(load, loads)
    return Extreme(load, scale(_force(terms, rows[at]), lines_n[at]), unit, unit_force)


def _single(term: Term, columns: list[tuple[float, ...]], lines_n: list[float], cap_n: float) -> Extreme:
    """The extreme of one leg's pull."""
    leg, x, y, z = term
    column = columns[leg]
    unit = max(column)
    load = _greatest(column, lines_n, cap_n) if unit > 0.0 else 0.0
    return Extreme(load, (load * x, load * y, load * z), unit, (unit * x, unit * y, unit * z))


def _force(terms: Sequence[Term], tension: list[float]) -> Vec:
    x = y = z = 0.0
    for leg, ux, uy, uz in terms:
        t = tension[leg]
        x += t * ux
        y += t * uy
        z += t * uz
    return (x, y, z)


def _size(terms: Sequence[Term], tension: list[float]) -> float:
    x, y, z = _force(terms, tension)
    size = sqrt(x * x + y * y + z * z)
    return size if size >= CANCELS * sum([tension[leg] for leg, _, _, _ in terms]) else 0.0
