"""Wire Rope Users Manual (4th ed.): lead line pp. 86-88; strength over stationary sheaves or pins."""

import pytest

from riglint.mechanics.bend import wire_bend_efficiency_fraction
from riglint.mechanics.tackle import PLAIN_SHEAVE, ROLLER_SHEAVE, ideal_pull_n, lead_line_factor

PLAIN, ROLLER = PLAIN_SHEAVE.value, ROLLER_SHEAVE.value


def test_lead_line_without_friction() -> None:
    assert ideal_pull_n(6_000, 4) == pytest.approx(1_500)  # 6,000 lb, 4 parts
    assert lead_line_factor(4, 1.0) == pytest.approx(0.25)


def test_four_parts_plain() -> None:
    assert lead_line_factor(4, PLAIN) == pytest.approx(0.309, abs=0.0005)


def test_two_more_lead_sheaves() -> None:
    # 0.309 x 1.09 x 1.09 = 0.367; 6,000 x 0.367 = 2,202 lb
    factor = lead_line_factor(4, PLAIN, lead_sheaves_count=2)
    assert factor == pytest.approx(0.367, abs=0.0005)
    assert 6_000 * factor == pytest.approx(2_202, abs=3)


@pytest.mark.parametrize(
    ("sheave", "factors"),
    [  # computed by the law when the figures were compiled; only 4 parts plain is printed
        (PLAIN, (1.09, 0.568, 0.395, 0.309, 0.257, 0.223, 0.199, 0.181)),
        (ROLLER, (1.04, 0.530, 0.360, 0.275, 0.225, 0.191, 0.167, 0.149)),
    ],
)
def test_factors_by_parts(sheave: float, factors: tuple[float, ...]) -> None:
    ours = [lead_line_factor(parts, sheave) for parts in range(1, 9)]
    assert ours == pytest.approx(factors, abs=0.00051)


@pytest.mark.parametrize(
    ("bend", "percent"),
    # read second hand
    [(1, 50), (2, 65), (4, 75), (6, 79), (8, 83), (10, 86), (15, 89), (20, 91), (30, 93), (40, 95)],
)
def test_strength_over_a_pin(bend: int, percent: int) -> None:
    assert wire_bend_efficiency_fraction(bend) * 100 == pytest.approx(percent)


def test_half_inch_rope_over_ten_inches() -> None:
    assert wire_bend_efficiency_fraction(10 / 0.5) == pytest.approx(0.91)  # ratio 20: 91 %


def test_another_suppliers_point_lies_on_the_curve() -> None:
    assert wire_bend_efficiency_fraction(16) == pytest.approx(0.90, abs=0.01)  # 16: 90 %
