"""Quantities written for a plan: in a unit that its reader uses, rounded to what can be measured."""

from __future__ import annotations

import re
from math import ceil, floor, inf, log10

from riglint.mechanics.constants import M_PER_FOOT, N_PER_LBF
from riglint.outcome import Unit
from riglint.reading.quantity import QuantityError, parse_quantity
from riglint.report.numbers import SMALL_M

_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}\.000")
Exact = str


def number(x: float) -> str:
    """A number as the grammar of quantities has it: no exponent, no sign, nothing that reads two ways."""
    text = f"{max(0.0, x):.9f}".rstrip("0").rstrip(".")
    return text or "0"


def newtons(low: float, high: float | None = None) -> Exact:
    """A force, or a range of forces, to the last digit."""
    return f"{number(low)} N" if high is None or high == low else f"{number(low)} N to {number(high)} N"


def step_m(system: str, metres: float = 0.1) -> float:
    """What lengths are rounded to: a part of a metre, or about as many feet."""
    return metres if system == "metric" else max(1.0, round(metres / M_PER_FOOT)) * M_PER_FOOT


def length(metres: float, system: str, *, up: bool, step: float = 0.1) -> tuple[str, float]:
    """A length in whole steps, as text and as it then is."""
    one = step_m(system, step)
    count = ceil(metres / one - 1e-9) if up else floor(metres / one + 1e-9)
    unit, per = ("m", 1.0) if system == "metric" else ("ft", M_PER_FOOT)
    return f"{number(round(count * one / per, 6))} {unit}", count * one


def place(at: tuple[float, ...], system: str) -> list[str]:
    """Coordinates to a tenth of a metre or to a foot; with the height where there is one."""
    kept = at if abs(at[2]) > 1e-9 else at[:2]
    return [_signed(c, system) for c in kept]


def exact_place(at: tuple[float, ...]) -> list[str]:
    """Coordinates in metres, to the last digit."""
    kept = at if abs(at[2]) > 1e-12 else at[:2]
    return [("-" if c < 0 else "") + number(abs(c)) + " m" for c in kept]


def _signed(metres: float, system: str) -> str:
    one = step_m(system)
    unit, per = ("m", 1.0) if system == "metric" else ("ft", M_PER_FOOT)
    value = round(metres / one) * one / per
    return ("-" if round(value, 6) < 0 else "") + number(round(abs(value), 6)) + f" {unit}"


def rounded_up(si: float, unit: Unit, system: str) -> float:
    """To two digits of the unit that it is printed in, never down: what gear must be good for at the least.

    The figure that people read is the one that was tried, to the last digit.
    """
    if not 0.0 < si < inf:
        return si
    per = _printed(si, unit) if system == "imperial" else 1.0
    one = 10.0 ** (floor(log10(si / per)) - 1)
    return ceil(si / per / one - 1e-9) * one * per


def size_up(metres: float, system: str) -> float:
    """The size of a rope as it is printed, whole millimetres or hundredths of an inch, never down."""
    one = 0.001 if system == "metric" else M_PER_FOOT / 1200.0
    return ceil(metres / one - 1e-6) * one


def _printed(si: float, unit: Unit) -> float:
    if unit == "N":
        return N_PER_LBF
    return M_PER_FOOT if si >= SMALL_M else M_PER_FOOT / 12.0


def metres_of(text: object) -> float | None:
    """The least that a length of a plan says; None for what isn't one."""
    try:
        return parse_quantity(str(text), "length").low
    except QuantityError:
        return None
