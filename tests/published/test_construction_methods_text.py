"""Construction methods text, table 4-1, and FM 5-434 ch. 1: rolling by surface, FROM MEMORY, not re-read."""

import pytest

from riglint.mechanics.resistance import rolling_fraction


@pytest.mark.parametrize(
    ("surface", "low_lb", "high_lb"),
    [  # lb per ton of 2,000 lb, from memory
        ("hard road", 40, 40),
        ("firm track", 64, 65),
        ("rutted track", 100, 100),
        ("soft rutted track", 150, 150),
        ("loose sand", 200, 200),
        ("loose gravel", 200, 200),
        ("deep mud", 200, 400),  # text 300 to 400, manual 200 to 400: the wider band
    ],
)
def test_rolling_by_surface(surface: str, low_lb: int, high_lb: int) -> None:
    band = rolling_fraction(surface)
    assert band is not None
    assert (band.low * 2000, band.high * 2000) == pytest.approx((low_lb, high_lb))
    assert band.trust == "from memory"


def test_grass_has_no_citable_figure() -> None:
    assert rolling_fraction("wet grass") is None
