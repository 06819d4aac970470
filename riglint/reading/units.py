"""The units a plan may use: a closed, case-sensitive table with exact factors to SI.

Factors are kept as two whole numbers, `times` and `over`, so that `420 mm` is the float nearest to 0.42 and
not 420 times an already rounded 0.001. Basis: the inch, yard and pound as fixed in 1959 (0.0254 m, 0.9144 m,
0.45359237 kg) and standard gravity 9.80665 m/s2, exact by definition in the SI.
"""

import math
from typing import Final, NamedTuple

from riglint.reading.nearest import nearest, one_of

LENGTH: Final = "length"
MASS: Final = "mass"
FORCE: Final = "force"
MASS_OR_FORCE: Final = "mass or force"
WEIGHT: Final = "weight"
ANGLE: Final = "angle"
SLOPE: Final = "slope"
FRACTION: Final = "fraction"
SPEED: Final = "speed"
DURATION: Final = "duration"
STRESS: Final = "stress"
TEMPERATURE: Final = "temperature"
NUMBER: Final = "number"

STANDARD_GRAVITY = 9.80665

LONGEST_QUANTITY = 200
"""Characters; a longer text is no quantity."""


class Unit(NamedTuple):
    """SI value = number * times / over."""

    times: float
    over: float


_LENGTH = {
    "mm": Unit(1, 1000),
    "cm": Unit(1, 100),
    "m": Unit(1, 1),
    "km": Unit(1000, 1),
    "in": Unit(254, 10_000),
    "ft": Unit(3048, 10_000),
    "yd": Unit(9144, 10_000),
}
_MASS = {
    "g": Unit(1, 1000),
    "kg": Unit(1, 1),
    "t": Unit(1000, 1),
    "tonne": Unit(1000, 1),
    "lb": Unit(45_359_237, 10**8),
    "short ton": Unit(90_718_474, 10**5),
    "long ton": Unit(10_160_469_088, 10**7),
}
_FORCE = {
    "N": Unit(1, 1),
    "daN": Unit(10, 1),
    "kN": Unit(1000, 1),
    "MN": Unit(10**6, 1),
    "kgf": Unit(980_665, 10**5),
    "lbf": Unit(44_482_216_152_605, 10**13),
    "kip": Unit(44_482_216_152_605, 10**10),
}
_ANGLE = {"deg": Unit(math.pi, 180), "°": Unit(math.pi, 180), "rad": Unit(1, 1)}
_HEAVY = {name: Unit(unit.times * 980_665, unit.over * 10**5) for name, unit in _MASS.items()} | _FORCE

UNITS: Final[dict[str, dict[str, Unit]]] = {
    LENGTH: _LENGTH,
    MASS: _MASS,
    FORCE: _FORCE,
    MASS_OR_FORCE: _HEAVY,
    WEIGHT: _HEAVY,
    ANGLE: _ANGLE,
    SLOPE: _ANGLE | {"%": Unit(1, 100)},
    FRACTION: {"%": Unit(1, 100), "times": Unit(1, 1)},
    SPEED: {"m/s": Unit(1, 1), "m/min": Unit(1, 60), "ft/min": Unit(3048, 600_000), "km/h": Unit(1000, 3600)},
    DURATION: {"s": Unit(1, 1), "min": Unit(60, 1), "h": Unit(3600, 1), "day": Unit(86_400, 1)},
    STRESS: {
        "Pa": Unit(1, 1),
        "kPa": Unit(1000, 1),
        "MPa": Unit(10**6, 1),
        "psi": Unit(44_482_216_152_605 * 10**8, 10**13 * 64_516),
    },
    TEMPERATURE: {"degC": Unit(1, 1)},
    NUMBER: {"": Unit(1, 1)},
}
"""By dimension; weights come out in newtons, angles in radians, temperatures in degrees Celsius."""

SIGNED: Final = frozenset({LENGTH, ANGLE, SLOPE, TEMPERATURE, NUMBER})
"""Dimensions in which less than nothing has a meaning; a caller may still refuse it."""

SI_UNIT: Final[dict[str, str]] = {
    LENGTH: "m",
    MASS: "kg",
    FORCE: "N",
    MASS_OR_FORCE: "N",
    WEIGHT: "N",
    ANGLE: "rad",
    SLOPE: "rad",
    FRACTION: "times",
    SPEED: "m/s",
    DURATION: "s",
    STRESS: "Pa",
    TEMPERATURE: "degC",
    NUMBER: "",
}

_THREE_TONS = "write `t` (metric, 1000 kg), `short ton` (2000 lb) or `long ton` (2240 lb)"
_TONS = ("has three meanings", _THREE_TONS)
_KILONEWTON = ("could be knots", "write `kN` for kilonewtons")
_KILOGRAM = ("isn't a unit here", "write `kg`")
_POUNDS = ("could be a mass or a force", "write `lb` (mass) or `lbf` (force)")
_FEET = ("isn't a unit here", "write `ft`")
_INCHES = ("isn't a unit here", "write `in`")
_DEGREES = ("isn't a unit here", "write `deg`")
_CELSIUS = ("could be coulombs or a temperature", "write `degC`")
_TON_FORCE = ("depends on which ton is meant", "write `kN`, `kgf` or `lbf`")

TRAPS: Final[dict[str, tuple[str, str]]] = {
    **dict.fromkeys(("ton", "tons", "Ton", "Tons", "TON", "tn", "T"), _TONS),
    **dict.fromkeys(("tonf", "tf", "ton-force"), _TON_FORCE),
    **dict.fromkeys(("kn", "KN", "Kn"), _KILONEWTON),
    **dict.fromkeys(("Kg", "KG", "kgs", "kilo", "kilos", "K", "k"), _KILOGRAM),
    **dict.fromkeys(("pound", "pounds", "lbs", "LB", "Lb", "LBS"), _POUNDS),
    **dict.fromkeys(("foot", "feet", "Ft", "FT", "'", "\u2032", "\u2019"), _FEET),
    **dict.fromkeys(("inch", "inches", "In", "IN", '"', "\u2033", "\u201d"), _INCHES),
    **dict.fromkeys(("degree", "degrees", "Deg", "DEG", "º", "˚"), _DEGREES),
    **dict.fromkeys(("C", "c", "°C", "celsius", "Celsius"), _CELSIUS),
    "mN": ("is a thousandth of a newton", "write `MN` for meganewtons or `kN`"),
    "M": ("isn't a unit here", "write `m` for metres"),
    "F": ("isn't a unit here", "write `degC`"),
    "degF": ("isn't a unit here", "write `degC`"),
    "percent": ("isn't a unit here", "write `%`"),
}
"""Words that look like units and are refused: why, and the mend."""


def serving(dimension: str) -> str:
    """The units that serve for a dimension, as a phrase."""
    return one_of(name for name in UNITS[dimension] if name)


def other_dimension(unit: str) -> str | None:
    """A dimension that does know this unit, for messages."""
    return next((dimension for dimension, units in UNITS.items() if unit in units), None)


def why_not(unit: str, dimension: str) -> tuple[str, str]:
    """What is wrong with a word that isn't a unit of this dimension, and what would serve."""
    if unit in TRAPS:
        reason, mend = TRAPS[unit]
        meant = any(f"`{name}`" in mend for name in UNITS[dimension])
        return f"`{unit}` {reason}", mend if meant else f"write the unit as {serving(dimension)}"
    if dimension == NUMBER:
        return f"`{unit}` stands where a bare number is wanted", "leave the unit out"
    other = other_dimension(unit)
    if other:
        return f"`{unit}` is a unit of {other}, not of {dimension}", f"write the unit as {serving(dimension)}"
    near = nearest(unit, UNITS[dimension])
    hint = f"perhaps `{near}` is meant: " if near else ""
    return f"`{unit}` isn't a unit of {dimension}", f"{hint}write the unit as {serving(dimension)}"
