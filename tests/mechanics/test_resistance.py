"""Resistance: what each part is, how parts add, and that worse ground never resists less."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics import resistance as r
from riglint.mechanics.resistance_sum import doctrine_resistance, penetration_resistance, surface_resistance

weights = st.floats(0.0, 1e7)
slopes = st.floats(-pi / 2, pi / 2)


def test_an_unknown_depth_is_refused_with_the_known_ones() -> None:
    with pytest.raises(ValueError, match="wheel depth, fender depth, cab depth"):
        r.mire_multiple_factor("hub")


def test_deeper_never_resists_less() -> None:
    found = [r.mire_resistance_n(1.0, depth) for depth in r.MIRE_MULTIPLES]
    assert found == sorted(found)


def test_firmest_to_softest_surface() -> None:
    order = ["hard road", "firm track", "rutted track", "soft rutted track", "loose sand", "deep mud"]
    bands = [r.rolling_fraction(surface) for surface in order]
    highs = [band.high for band in bands if band is not None]
    assert highs == sorted(highs)
    assert len(highs) == len(order)


def test_gravel_without_a_word_on_it_counts_as_loose() -> None:
    assert r.rolling_fraction("gravel") == r.rolling_fraction("loose gravel")


@given(weights, weights)
def test_parts_of_the_doctrine_scale_with_the_weight(one: float, other: float) -> None:
    light, heavy = sorted((one, other))
    of = [doctrine_resistance(w, depth="fender depth", overturned=True, uphill=True).total_n for w in (light, heavy)]
    assert of[0] <= of[1]
    assert of[1] == pytest.approx(3.5 * heavy)


@given(weights)
def test_each_part_of_the_doctrine_names_its_source(weight_n: float) -> None:
    found = doctrine_resistance(weight_n, depth="cab depth", overturned=True, uphill=True)
    assert [part.kind for part in found.parts] == ["mire", "overturning", "grade"]
    assert all(part.source and part.locator for part in found.parts)
    assert found.total_n == pytest.approx(sum(part.force_n for part in found.parts))


def test_nothing_that_resists_gives_no_parts() -> None:
    assert doctrine_resistance(1e4).parts == ()


def test_a_bad_weight_is_refused_even_with_no_parts() -> None:
    with pytest.raises(ValueError, match="weight_n"):
        doctrine_resistance(-1.0)


@given(weights, slopes, slopes)
def test_a_steeper_way_up_never_pulls_easier(weight_n: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert r.grade_component_n(weight_n, low) <= r.grade_component_n(weight_n, high)


@given(weights, slopes)
def test_down_is_the_mirror_of_up(weight_n: float, slope_rad: float) -> None:
    assert r.grade_component_n(weight_n, -slope_rad) == -r.grade_component_n(weight_n, slope_rad)


@given(weights, slopes)
def test_upper_end_of_a_surface_is_never_below_the_lower(weight_n: float, slope_rad: float) -> None:
    upper = surface_resistance(weight_n, slope_rad, "deep mud", upper=True)
    lower = surface_resistance(weight_n, slope_rad, "deep mud", upper=False)
    assert upper is not None
    assert lower is not None
    assert upper.total_n >= lower.total_n
    assert upper.total_n - lower.total_n == pytest.approx(0.1 * weight_n)


def test_a_surface_without_a_source_gives_nothing_but_still_checks() -> None:
    assert surface_resistance(1e4, 0.0, "wet grass") is None
    with pytest.raises(ValueError, match="slope_rad"):
        surface_resistance(1e4, 2.0, "wet grass")


@given(weights, st.floats(0.0, 0.3), st.floats(0.0, 0.3))
def test_deeper_tyres_never_roll_easier(weight_n: float, one: float, other: float) -> None:
    shallow, deep = sorted((one, other))
    assert penetration_resistance(weight_n, 0.1, shallow).total_n <= penetration_resistance(weight_n, 0.1, deep).total_n


def test_a_reduction_comes_off_the_mire_resistance() -> None:
    """FM 4-30.31 (from memory): 40 % with power to the tracks; 2 x 300 kN x 0.6 = 360 kN at fender depth."""
    assert r.mire_resistance_n(3e5, "fender depth", 0.4) == pytest.approx(3.6e5)


def test_a_surface_resists_with_the_upper_end_unless_the_lower_is_asked_for() -> None:
    """FM 5-434 ch. 1 (from memory): deep mud 10 to 20 % of the weight."""
    for found, expected_n in (
        (surface_resistance(1e5, 0.0, "deep mud"), 2e4),
        (surface_resistance(1e5, 0.0, "deep mud", upper=False), 1e4),
    ):
        assert found is not None
        assert found.total_n == pytest.approx(expected_n)
