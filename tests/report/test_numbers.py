"""Numbers as people read them."""

from math import inf, nan, radians
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.outcome import Unit
from riglint.report.numbers import IMPERIAL, METRIC, at_the_most, pair, percent, show, travel


@pytest.mark.parametrize(
    ("si", "unit", "metric", "imperial"),
    [
        (53_000.0, "N", "53 kN", "11,900 lbf"),
        (53_049.0, "N", "53 kN", "11,900 lbf"),
        (999_600.0, "N", "1000 kN", "225,000 lbf"),
        (850.0, "N", "850 N", "191 lbf"),
        (6.4e3 * 9.80665, "N weight", "6.4 t", "14,100 lb"),
        (80 * 9.80665, "N weight", "80 kg", "176 lb"),
        (31.76, "m", "31.8 m", "104.2 ft"),
        (0.011, "m", "11 mm", "0.43 in"),
        (0.0105, "m", "10.5 mm", "0.41 in"),
        (0.0048, "m", "4.8 mm", "0.19 in"),
        (0.0396, "m off", "0 m", "0.1 ft"),
        (0.24, "m off", "0.2 m", "0.8 ft"),
        (-3.0, "m", "-3 m", "-9.8 ft"),
        (0.0, "m", "0 m", "0 ft"),
        (radians(119.6), "rad", "120 deg", "120 deg"),
        (0.15, "share", "15 %", "15 %"),
        (8.1818, "1", "8.18", "8.18"),
        (7.34, "wraps", "7.3 wraps", "7.3 wraps"),
        (1.0, "wraps", "1 wrap", "1 wrap"),
        (3.0, "parts", "3 parts", "3 parts"),
        (65.0, "degC", "65 degC", "149 degF"),
        (10.0, "K", "10 degC", "18 degF"),
        (0.0, "N", "0 N", "0 lbf"),
    ],
)
def test_shown(si, unit, metric, imperial):
    assert (show(si, unit, METRIC), show(si, unit, IMPERIAL)) == (metric, imperial)


@pytest.mark.parametrize("unit", get_args(Unit))
@pytest.mark.parametrize("system", [METRIC, IMPERIAL])
def test_every_unit_is_shown_with_digits_and_a_word_for_no_figure(unit, system):
    assert any(c.isdigit() for c in show(2.5, unit, system))
    assert show(nan, unit, system) == show(inf, unit, system) == "no finite figure"


def test_two_values_that_differ_are_told_apart():
    assert pair(60_010.0, 60_000.0, "N") == ("60.01 kN", "60 kN")
    assert pair(60_000.0, 60_000.0, "N") == ("60 kN", "60 kN")
    assert pair(60_000.001, 60_000.0, "N") == ("60.000001 kN", "60 kN")


def test_what_only_the_last_digits_of_a_sum_tell_apart_is_shown_as_one():
    """Two legs of 80 kN that all but lie side by side, on an anchor for 160 kN: nobody reads 159.9999995."""
    assert pair(159_999.9995, 160_000.0, "N") == ("160 kN", "160 kN")
    assert percent(159_999.9995 / 160_000.0) == "100 %"


@pytest.mark.parametrize(
    ("use", "text"), [(1.0, "100 %"), (1.001, "100.1 %"), (0.9996, "99.96 %"), (2.089, "209 %"), (inf, "beyond any")]
)
def test_a_use_never_seems_to_be_on_the_limit_when_it_is_not(use, text):
    assert percent(use) == text


def test_travel_is_always_a_distance():
    assert (travel(0.733), travel(0.733, IMPERIAL)) == ("0.7 m", "2.4 ft")


@given(st.floats(1.0, 1e9))
def test_what_is_shown_is_the_figure_to_three_digits(si):
    number, unit = show(si, "N").split()
    shown = float(number.replace(",", "")) * (1000 if unit == "kN" else 1)
    assert shown == pytest.approx(si, rel=0.051 if unit == "N" else 6e-3)


@pytest.mark.parametrize(
    ("si", "metric", "imperial"),
    [
        (23_480.0, "23.4 kN", "5270 lbf"),
        (23_500.0, "23.5 kN", "5280 lbf"),
        (999_999.0, "999 kN", "224,000 lbf"),
        (994.9, "990 N", "223 lbf"),
        (995.0, "0.995 kN", "223 lbf"),
        (87.9, "87 N", "19.7 lbf"),
        (0.0, "0 N", "0 lbf"),
        (inf, "no finite figure", "no finite figure"),
    ],
)
def test_what_must_not_be_passed_is_never_rounded_up(si, metric, imperial):
    assert (at_the_most(si, METRIC), at_the_most(si, IMPERIAL)) == (metric, imperial)
