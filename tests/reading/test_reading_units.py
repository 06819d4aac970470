"""The unit table against an independent library and against the definitions, exactly."""

from fractions import Fraction

import pint
import pytest

from riglint.reading.quantity import QuantityError, parse_quantity
from riglint.reading.units import SI_UNIT, SIGNED, TRAPS, UNITS

# A slope's percents and a temperature aren't proportional to anything there; they are tested by value.
APART = {("slope", "%"), ("temperature", "degC"), ("number", "")}
EXACT = [(dimension, name) for dimension in UNITS for name in UNITS[dimension] if (dimension, name) not in APART]
SPELT_FOR_PINT = {
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "lb": "pound",
    "t": "tonne",
    "short ton": "short_ton",
    "long ton": "long_ton",
    "kgf": "kilogram_force",
    "lbf": "pound_force",
    "kip": "kilopound_force",
    "°": "degree",
    "deg": "degree",
    "%": "percent",
    "times": "dimensionless",
    "ft/min": "foot/minute",
    "m/min": "meter/minute",
    "km/h": "kilometer/hour",
    "min": "minute",
    "h": "hour",
}
# From the definitions, not from the table: yard and pound of 1959, standard gravity.
G = Fraction("9.80665")
POUND = Fraction("0.45359237")
DEFINED = {
    ("length", "in"): Fraction("0.0254"),
    ("length", "ft"): Fraction("0.3048"),
    ("length", "yd"): Fraction("0.9144"),
    ("mass", "lb"): POUND,
    ("mass", "short ton"): POUND * 2000,
    ("mass", "long ton"): POUND * 2240,
    ("force", "lbf"): POUND * G,
    ("force", "kgf"): G,
    ("force", "kip"): POUND * G * 1000,
    ("weight", "t"): G * 1000,
    ("weight", "lb"): POUND * G,
    ("weight", "short ton"): POUND * G * 2000,
    ("mass or force", "long ton"): POUND * G * 2240,
    ("speed", "ft/min"): Fraction("0.3048") / 60,
    ("stress", "psi"): POUND * G / Fraction("0.0254") ** 2,
}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize(("dimension", "name"), EXACT)
def test_a_unit_is_what_an_independent_library_says(registry, dimension, name):
    there = registry.Quantity(1, SPELT_FOR_PINT.get(name, name))
    if SI_UNIT[dimension] == "N" and there.check("[mass]"):
        there *= registry.standard_gravity
    si = {"times": "dimensionless", "rad": "radian"}.get(SI_UNIT[dimension], SI_UNIT[dimension])
    assert parse_quantity(f"1 {name}", dimension).low == pytest.approx(there.to(si).magnitude, rel=1e-14)


@pytest.mark.parametrize(("dimension", "name"), list(DEFINED))
def test_a_factor_is_exactly_its_definition(dimension, name):
    unit = UNITS[dimension][name]
    assert Fraction(unit.times) / Fraction(unit.over) == DEFINED[dimension, name]


def test_every_dimension_says_its_si_unit_and_signs():
    assert set(SI_UNIT) == set(UNITS) >= SIGNED


@pytest.mark.parametrize("word", sorted(TRAPS))
def test_no_trap_is_a_unit_and_each_is_refused_with_a_mend(word):
    for dimension in UNITS:
        with pytest.raises(QuantityError) as refused:
            parse_quantity(f"5 {word}", dimension)
        assert refused.value.serves
        assert "`" in refused.value.found


def test_a_slope_in_percent_is_a_rise_on_a_run():
    assert parse_quantity("100 %", "slope").low == pytest.approx(parse_quantity("45 deg", "slope").low)


def test_one_percent_of_a_fraction_isn_t_an_angle():
    assert parse_quantity("10 %", "fraction").low == 0.1
