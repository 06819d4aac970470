"""Tension along lines: each seat's ratio, and the corners of what friction may be.

Tension falls in the way the rope runs over a seat. How much it falls is never better known than a range, so
loads are judged at every corner of the box of ratios: a load that is a norm of leg tensions, over a pull that is
a sum of them, is greatest at a corner (it is quasi-convex in each ratio by itself).
"""

from collections.abc import Sequence
from math import pi
from typing import NamedTuple

from riglint.mechanics._refuse import refuse
from riglint.mechanics.friction import mu_from_half_turn_loss, sliding_ratio, turning_ratio

NO_RANGE = 1e-12  # between a ratio's ends: nearer than this they are one corner


class Ratio(NamedTuple):
    """Tension beyond a seat over tension before it, seen from the line's first end."""

    low: float
    high: float
    stated: float  # with the loss as stated


def seat_ratio(rolls: bool, wrap_rad: float, loss_fraction: float) -> float:
    """Outgoing over incoming tension at a seat, the rope running over it.

    Equation: (1 - loss)^(theta / pi) where rope slides, which is exp(-mu theta); 1 - loss sin(theta / 2) at a
    sheave that turns. Units: theta wrap angle [rad]; loss at a half turn, as a fraction.
    Range: 0 <= loss < 1, 0 <= theta <= pi.
    Source: capstan law, textbooks of mechanics, read; bearing friction on the resultant, derivation.
    Raises: ValueError outside the range.
    """
    if not 0.0 <= wrap_rad <= pi + 1e-9:
        raise refuse("wrap_rad", wrap_rad, "0 to pi")
    if rolls:
        return turning_ratio(loss_fraction, wrap_rad)
    return sliding_ratio(mu_from_half_turn_loss(loss_fraction), wrap_rad)


def ratio_range(
    rolls: bool,
    wrap_rad: float,
    loss_low_fraction: float,
    loss_high_fraction: float,
    loss_stated_fraction: float,
    slip: int,
) -> Ratio:
    """The ratio of a seat over the range of its loss.

    Equation: q = seat_ratio; q where rope runs toward the first end (slip +1), 1/q where it runs away (-1),
    anything from q to 1/q where it does not slip (0). Units: theta [rad], losses as fractions.
    Range: 0 <= low <= stated <= high < 1. Source: derivation from the capstan law. Raises: ValueError outside it.
    """
    best = seat_ratio(rolls, wrap_rad, loss_low_fraction) if loss_low_fraction else 1.0
    worst = seat_ratio(rolls, wrap_rad, loss_high_fraction)
    stated = worst
    if loss_stated_fraction != loss_high_fraction:
        stated = seat_ratio(rolls, wrap_rad, loss_stated_fraction)
    if slip > 0:
        return Ratio(worst, best, stated)
    if slip < 0:
        return Ratio(1.0 / best, 1.0 / worst, 1.0 / stated)
    return Ratio(worst, 1.0 / worst, 1.0)


def corner_tensions(ratios: Sequence[Ratio]) -> list[list[float]]:
    """Of each leg its tensions per unit of the first leg's, for every corner of the ratios' box.

    Equation: t_0 = 1, t_k = t_(k-1) q_k. Units: none. Range: any number of ratios; 2^n corners, of which those
    that a ratio with no range would double are left out, and of each leg those that ratios beyond it would.
    Source: derivation.
    """
    tensions = [[1.0]]
    for low, high, _ in ratios:
        before = tensions[-1]
        both = (low, high) if high - low > NO_RANGE else (low,)
        tensions.append([t * q for t in before for q in both])
    return tensions
