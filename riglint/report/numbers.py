"""Numbers as people read them: SI in, metric or imperial text out, always with the unit.

The only place where a figure gets its digits. What is shown is rounded to the nearest, for reading, save what
must not be passed; verdicts are reached before, on the figures themselves.
"""

from __future__ import annotations

from collections.abc import Callable
from math import degrees, floor, inf, isclose, isfinite, log10
from typing import Final

from riglint.mechanics.constants import M_PER_FOOT, N_PER_LBF
from riglint.outcome import Unit, settled

METRIC: Final = "metric"
IMPERIAL: Final = "imperial"

_GRAVITY: Final = 9.80665
_PSI: Final = 6894.757293168
_KILO_N: Final = 995.0  # from here up forces are told in kilonewtons
_EXTRA_MOST: Final = 6
_AS_GOOD_AS: Final = 5e-9  # what the most digits of a percentage don't tell from 100
SMALL_M: Final = 0.4995
"""Shorter than this is the size of a thing, in millimetres or inches; longer is a distance."""

Show = Callable[[float, int], str]
"""From SI and a number of digits beyond the usual ones."""


def show(si: float, unit: Unit, system: str = METRIC, extra: int = 0) -> str:
    """A value in words: `59.6 kN`, `8.7 m`, `13,400 lbf`, `28.5 ft`."""
    if not isfinite(si):
        return "no finite figure"
    table = _IMPERIAL if system == IMPERIAL else _METRIC
    return table[unit](si, extra)


def at_the_most(force_n: float, system: str = METRIC) -> str:
    """A force as `show` has it, but never rounded up: what must not be passed."""
    per = N_PER_LBF if system == IMPERIAL else 1.0
    size = settled(force_n / per)
    if not 0.0 < size < inf:
        return show(force_n, "N", system)
    digits = 2 if system == METRIC and size < _KILO_N else 3
    one = 10.0 ** (floor(log10(size)) + 1 - digits)
    return show(floor(size / one + 1e-9) * one * per, "N", system)


def travel(si: float, system: str = METRIC) -> str:
    """A place along the travel: always in metres or feet, to the tenth."""
    return f"{fixed(si / M_PER_FOOT, 1)} ft" if system == IMPERIAL else f"{fixed(si, 1)} m"


def pair(measured: float, limit: float, unit: Unit, system: str = METRIC) -> tuple[str, str]:
    """Two values that are compared, with as many digits as it takes to tell them apart, if it is worth any."""
    for extra in range(_EXTRA_MOST + 1):
        texts = show(measured, unit, system, extra), show(limit, unit, system, extra)
        if texts[0] != texts[1] or isclose(measured, limit, rel_tol=_AS_GOOD_AS):
            break
    return texts


def percent(use: float) -> str:
    """A use in whole percent; with more digits where it would seem to be on the limit and isn't."""
    if not isfinite(use):
        return "beyond any"
    for digits in range(_EXTRA_MOST + 1):
        text = f"{settled(100 * use):.{digits}f}"
        if isclose(use, 1.0, rel_tol=_AS_GOOD_AS) or float(text) != 100:
            break
    return f"{text} %"


def of_the_limit(use: float) -> str:
    """A use in words."""
    return f"{percent(use)} of the limit" if isfinite(use) else "beyond any limit"


def figures(x: float, digits: int = 3) -> str:
    """A number to so many significant figures, no zeros behind the point, thousands parted by commas."""
    if x == 0 or not isfinite(x):
        return "0" if x == 0 else "no finite figure"
    x = settled(x)
    places = digits - 1 - floor(log10(abs(x)))
    rounded = round(x, places)
    if rounded and floor(log10(abs(rounded))) > floor(log10(abs(x))):
        places -= 1  # 9.996 became 10
    return fixed(rounded, max(0, places))


def fixed(x: float, places: int) -> str:
    """A number to so many places, no zeros behind the point, thousands parted by commas from 10,000 up."""
    x = settled(x)
    text = f"{x:,.{places}f}" if abs(x) >= 9_999.5 else f"{x:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def _force(si: float, extra: int) -> str:
    if abs(si) < 0.5 and not extra:
        return "0 N"
    if abs(si) < _KILO_N:
        return f"{figures(si, 2 + extra)} N"
    return f"{figures(si / 1000, 3 + extra)} kN"


def _weight(si: float, extra: int) -> str:
    kilograms = si / _GRAVITY
    if abs(kilograms) < 999.5:
        return f"{figures(kilograms, 3 + extra)} kg"
    return f"{figures(kilograms / 1000, 3 + extra)} t"


def _length(si: float, extra: int) -> str:
    if abs(si) >= SMALL_M or si == 0:
        return f"{fixed(si, 1 + extra)} m"
    return f"{fixed(si * 1000, (1 if abs(si) < 0.1 else 0) + extra)} mm"


def _feet(si: float, extra: int) -> str:
    feet = si / M_PER_FOOT
    if abs(si) >= SMALL_M or si == 0:
        return f"{fixed(feet, 1 + extra)} ft"
    return f"{fixed(feet * 12, 2 + extra)} in"


def _angle(si: float, extra: int) -> str:
    turned = degrees(si)
    return f"{fixed(turned, (0 if abs(turned) >= 1 or turned == 0 else 1) + extra)} deg"


def _share(si: float, extra: int) -> str:
    return f"{fixed(100 * si, (0 if abs(si) >= 0.1 else 1) + extra)} %"


def _times(factor: float, name: str, digits: int = 3) -> Show:
    return lambda si, extra: f"{figures(si / factor, digits + extra)} {name}"


def _counted(one: str, many: str, places: int = 0) -> Show:
    def counted(si: float, extra: int) -> str:
        text = fixed(si, places + extra)
        return f"{text} {one if text == '1' else many}"

    return counted


def _stress(si: float, extra: int) -> str:
    return f"{figures(si / 1e6, 3 + extra)} MPa" if abs(si) >= 1e6 else f"{figures(si / 1e3, 3 + extra)} kPa"


def _seconds(si: float, extra: int) -> str:
    return f"{fixed(si, extra)} s" if abs(si) < 120 else f"{figures(si / 60, 2 + extra)} min"


_METRIC: Final[dict[str, Show]] = {
    "N": _force,
    "N weight": _weight,
    "m": _length,
    "m off": lambda si, extra: f"{fixed(si, 1 + extra)} m",
    "rad": _angle,
    "share": _share,
    "1": lambda si, extra: figures(si, 3 + extra),
    "wraps": _counted("wrap", "wraps", 1),
    "layers": _counted("layer", "layers"),
    "parts": _counted("part", "parts"),
    "legs": _counted("leg", "legs"),
    "N m": _times(1000, "kN m"),
    "m/s": _times(1 / 60, "m/min"),
    "s": _seconds,
    "Pa": _stress,
    "degC": lambda si, extra: f"{fixed(si, extra)} degC",
    "K": lambda si, extra: f"{fixed(si, extra)} degC",
    "J/m": _times(1000, "kJ/m"),
    "J/kg": _times(1000, "kJ/kg"),
    "kg/m": _times(1, "kg/m"),
}
_IMPERIAL: Final[dict[str, Show]] = _METRIC | {
    "N": _times(N_PER_LBF, "lbf"),
    "N weight": _times(N_PER_LBF, "lb"),
    "m": _feet,
    "m off": lambda si, extra: f"{fixed(si / M_PER_FOOT, 1 + extra)} ft",
    "N m": _times(N_PER_LBF * M_PER_FOOT, "lbf ft"),
    "m/s": _times(M_PER_FOOT / 60, "ft/min"),
    "Pa": _times(_PSI, "psi"),
    "degC": lambda si, extra: f"{fixed(si * 1.8 + 32, extra)} degF",
    "K": lambda si, extra: f"{fixed(si * 1.8, extra)} degF",
    "kg/m": _times(0.45359237 / M_PER_FOOT, "lb/ft"),
}
