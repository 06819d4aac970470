"""Rope on a drum."""

from math import pi, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics import drum as d

DRUM = d.Drum(barrel_m=0.065, width_m=0.225, rope_m=0.011)
drums = st.builds(
    d.Drum,
    barrel_m=st.floats(0.03, 1.0),
    width_m=st.floats(0.1, 1.0),
    rope_m=st.floats(0.004, 0.04),
    stack_factor=st.sampled_from([1.0, d.NESTED]),
)
lengths = st.floats(0.0, 300.0)


def test_bottom_layer_of_a_common_drum() -> None:
    assert d.wraps_per_layer_count(0.225, 0.011) == 20
    assert d.layer_length_m(DRUM, 1) == pytest.approx(4.8, abs=0.05)
    assert d.layer_length_m(DRUM, 1) == pytest.approx(20 * sqrt((pi * 0.076) ** 2 + 0.011**2))


def test_the_rope_left_at_the_start_lies_on_the_second_layer() -> None:
    state = d.layer_of(DRUM, 8.7)
    assert state.layer == 2
    assert state.wraps_total == pytest.approx(20 + (8.7 - 4.78) / (20 * pi * 0.098) * 20, abs=0.1)


def test_a_width_of_whole_wraps_holds_them_all() -> None:
    assert d.wraps_per_layer_count(0.3, 0.1) == 3  # 0.3 / 0.1 is 2.9999999999999996


def test_rope_as_wide_as_the_drum_lies_in_one_wrap() -> None:
    assert d.wraps_per_layer_count(0.011, 0.011) == 1


def test_nested_rope_rises_by_the_height_of_an_even_triangle() -> None:
    """Three even circles that touch: the height of an equilateral triangle, sqrt(3) / 2 = 0.8660254 of its side."""
    assert pytest.approx(0.8660254, abs=1e-7) == d.NESTED


def test_an_empty_drum() -> None:
    assert tuple(d.layer_of(DRUM, 0.0)) == pytest.approx((1, 0.0, 0.0, 0.0, 0.076))


@given(drums, st.integers(1, 8))
def test_a_layer_just_full_is_the_layer_in_use(drum: d.Drum, layers: int) -> None:
    state = d.layer_of(drum, d.length_for_layers_m(drum, layers))
    assert state.layer == layers
    assert state.wraps_on_layer == pytest.approx(d.wraps_per_layer_count(drum.width_m, drum.rope_m))
    assert d.layer_of(drum, d.length_for_layers_m(drum, layers) + 0.01).layer == layers + 1


def test_a_full_layer_that_rounding_lengthened_is_no_further_layer() -> None:
    state = d.layer_of(DRUM, d.layer_length_m(DRUM, 1) * (1.0 + 1e-9))
    assert (state.layer, state.wraps_on_layer, state.wraps_total) == (1, 20.0, 20.0)


@given(drums, lengths, lengths)
def test_more_rope_is_more_wraps_and_no_lower_layer(drum: d.Drum, one: float, other: float) -> None:
    short, long = (d.layer_of(drum, length) for length in sorted((one, other)))
    assert short.wraps_total <= long.wraps_total + 1e-6
    assert short.layer <= long.layer


@given(drums, st.floats(0.0, 200.0))
def test_wraps_and_length_are_inverses(drum: d.Drum, wraps: float) -> None:
    assert d.wraps_left_count(drum, d.length_of_wraps_m(drum, wraps)) == pytest.approx(wraps, abs=1e-5)


@given(drums, st.integers(1, 10), st.integers(1, 10))
def test_pull_falls_with_each_layer_and_torque_stays(drum: d.Drum, rated: int, layer: int) -> None:
    pull_n = d.pull_at_layer_n(drum, 5e4, rated, layer)
    assert pull_n * d.layer_diameter_m(drum, layer) == pytest.approx(5e4 * d.layer_diameter_m(drum, rated))
    assert d.pull_at_layer_n(drum, 5e4, rated, layer + 1) < pull_n


def test_a_rating_for_the_full_drum_means_more_on_the_first_layer() -> None:
    assert d.pull_at_layer_n(DRUM, 5e4, 4, 1) > 5e4


@given(drums, st.floats(0.0, 1.0), st.floats(0.0, 0.2))
def test_layers_that_fit_do_fit_and_one_more_does_not(drum: d.Drum, more_m: float, freeboard_m: float) -> None:
    flange_m = drum.barrel_m + more_m
    layers = d.layers_under_flange_count(drum, flange_m, freeboard_m)

    def outer_m(count: int) -> float:
        return d.layer_diameter_m(drum, count) + drum.rope_m + 2 * freeboard_m

    assert layers == 0 or outer_m(layers) <= flange_m + 1e-9
    assert outer_m(layers + 1) > flange_m - 1e-9


@pytest.mark.parametrize(
    ("flange_m", "layers"),
    [(0.065, 0), (0.086, 0), (0.087, 1), (0.108, 1), (0.109, 2), (0.131, 3), (0.153, 4), (0.174, 4)],
)
def test_layers_under_a_flange_by_hand(flange_m: float, layers: int) -> None:
    """Wrap on wrap, 11 mm rope on a 65 mm barrel: 22 mm of diameter to a layer."""
    assert d.layers_under_flange_count(DRUM, flange_m) == layers
    assert d.layers_under_flange_count(DRUM, flange_m + 0.02, 0.01) == layers
    capacity_m = d.length_for_layers_m(DRUM, layers)
    assert d.drum_capacity_m(DRUM, flange_m) == capacity_m
    assert d.overfill_m(DRUM, capacity_m + 1.0, flange_m) == pytest.approx(1.0)


def test_nested_layers_under_a_flange_by_hand() -> None:
    """The first layer rises by the rope, each further one by 0.866 of it: 3 layers stand 2.732 ropes high."""
    nested = d.Drum(barrel_m=0.1, width_m=0.2, rope_m=0.01, stack_factor=d.NESTED)
    assert d.layers_under_flange_count(nested, 0.1 + 2 * 0.0273) == 2
    assert d.layers_under_flange_count(nested, 0.1 + 2 * 0.0274) == 3


@given(drums, lengths, st.floats(0.0, 1.0))
def test_overfill_is_what_capacity_leaves_over(drum: d.Drum, length_m: float, more_m: float) -> None:
    flange_m = drum.barrel_m + more_m
    over_m = d.overfill_m(drum, length_m, flange_m)
    assert over_m == max(0.0, length_m - d.drum_capacity_m(drum, flange_m))


def test_nesting_lowers_the_layers() -> None:
    nested = d.Drum(barrel_m=0.065, width_m=0.225, rope_m=0.011, stack_factor=d.NESTED)
    assert d.layer_diameter_m(nested, 3) < d.layer_diameter_m(DRUM, 3)
    assert d.layer_diameter_m(nested, 1) == d.layer_diameter_m(DRUM, 1)


def test_growth_of_a_layer_says_the_same_as_the_drum() -> None:
    growth = 2 * DRUM.rope_m / d.layer_diameter_m(DRUM, 1)
    assert d.layer_pull_ratio(growth, 3) == pytest.approx(d.pull_at_layer_n(DRUM, 1.0, 1, 3))


@pytest.mark.parametrize("layer", [0, -1])
def test_there_is_no_layer_below_the_first(layer: int) -> None:
    with pytest.raises(ValueError, match="layer"):
        d.layer_diameter_m(DRUM, layer)


def test_rope_wider_than_the_drum_is_refused() -> None:
    with pytest.raises(ValueError, match="rope_m"):
        d.Drum(barrel_m=0.1, width_m=0.01, rope_m=0.02)


def test_a_slip_of_units_is_refused() -> None:
    with pytest.raises(ValueError, match="length_m"):
        d.layer_of(DRUM, 1e6)
