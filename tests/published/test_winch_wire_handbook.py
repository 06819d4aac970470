"""Oceanographic winch and wire handbook ch. 12 s. 1: L (ft) = 0.2618 W h (B + h) / d^2, sizes in inches."""

import pytest

from riglint.mechanics.constants import M_PER_FOOT, M_PER_INCH
from riglint.mechanics.drum import Drum, handbook_capacity_m, length_for_layers_m


@pytest.mark.parametrize(
    ("width", "depth", "barrel", "rope"),
    [(20.0, 4.0, 12.0, 0.5), (9.0, 1.3, 2.56, 0.433), (36.0, 10.0, 30.0, 1.0)],
)
def test_formula_in_the_units_it_is_printed_in(width: float, depth: float, barrel: float, rope: float) -> None:
    printed_ft = 0.2618 * width * depth * (barrel + depth) / rope**2
    ours_m = handbook_capacity_m(*(inches * M_PER_INCH for inches in (width, depth, barrel, rope)))
    assert ours_m / M_PER_FOOT == pytest.approx(printed_ft, rel=1e-4)


@pytest.mark.parametrize("layers", [1, 3, 8])
def test_layer_model_agrees_with_it(layers: int) -> None:
    # Whole layers of whole wraps, wrap on wrap: the two differ only by the lead of the helix.
    drum = Drum(barrel_m=0.3, width_m=0.5, rope_m=0.0125)
    by_formula_m = handbook_capacity_m(0.5, layers * 0.0125, 0.3, 0.0125)
    assert length_for_layers_m(drum, layers) == pytest.approx(by_formula_m, rel=1e-4)


@pytest.mark.parametrize(
    ("rope", "factor"),
    # Wire Rope Users Manual, K = 0.2618 / d^2, FROM MEMORY; 3/8 to 7/8 in
    [(3 / 8, 1.86), (7 / 16, 1.37), (1 / 2, 1.05), (9 / 16, 0.828), (3 / 4, 0.465), (7 / 8, 0.342)],
)
def test_the_other_manuals_factors(rope: float, factor: float) -> None:
    ours_m = handbook_capacity_m(*(inches * M_PER_INCH for inches in (1.0, 1.0, 1.0, rope)))
    assert ours_m / M_PER_FOOT == pytest.approx(2 * factor, rel=0.006)
