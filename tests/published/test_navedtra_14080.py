"""NAVEDTRA 14080, bridle hitch: 1,000 lb on two legs."""

from math import radians

import pytest

from riglint.mechanics.angles import bridle_loads, equalised_leg_n, sling_leg_factor


@pytest.mark.parametrize(("from_level_deg", "leg_lb"), [(90, 500), (30, 1_000)])
def test_leg_load_by_angle(from_level_deg: int, leg_lb: int) -> None:
    assert 500 * sling_leg_factor(radians(from_level_deg)) == pytest.approx(leg_lb)
    assert equalised_leg_n(1_000, 2 * radians(90 - from_level_deg)) == pytest.approx(leg_lb)


def test_two_legs_of_thirty_degrees_by_statics() -> None:
    assert bridle_loads(1_000, radians(60), radians(60)) == pytest.approx((1_000, 1_000))


@pytest.mark.parametrize(
    ("from_level_deg", "factor"),
    [  # 1 / sin, three printed decimals (1.154 and 1.414 stand in a dealer's page; the rest computed)
        (90, 1.000),
        (75, 1.035),
        (60, 1.154),
        (55, 1.221),
        (50, 1.305),
        (45, 1.414),
        (40, 1.556),
        (35, 1.743),
        (30, 2.000),
        (25, 2.366),
        (20, 2.924),
        (15, 3.864),
        (10, 5.759),
        (5, 11.47),
    ],
)
def test_sling_leg_table(from_level_deg: int, factor: float) -> None:
    assert sling_leg_factor(radians(from_level_deg)) == pytest.approx(factor, abs=0.005)
