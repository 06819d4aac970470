"""Published 6x19 wire rope table, improved plow steel, fibre core: nominal strength, lb."""

import pytest

from riglint.mechanics.constants import M_PER_INCH, N_PER_LBF
from riglint.mechanics.strength import nominal_wire_strength_n

ROWS = [
    (1 / 4, 5_480),
    (5 / 16, 8_520),
    (3 / 8, 12_200),
    (7 / 16, 16_540),
    (1 / 2, 21_400),
    (9 / 16, 27_000),
    (5 / 8, 33_400),
    (3 / 4, 47_600),
    (7 / 8, 64_400),
    (1, 83_600),
    (1 + 1 / 8, 105_200),
    (1 + 1 / 4, 129_200),
    (1 + 3 / 8, 155_400),
    (1 + 1 / 2, 184_000),
    (2, 320_000),
]


@pytest.mark.parametrize(("inches", "pounds"), ROWS)
def test_printed_sizes(inches: float, pounds: int) -> None:
    figure = nominal_wire_strength_n(inches * M_PER_INCH)
    assert figure is not None
    assert figure.value / N_PER_LBF == pytest.approx(pounds)


@pytest.mark.parametrize("inches", [0.2, 0.55, 1.75, 3.0])
def test_a_size_in_between_has_no_figure(inches: float) -> None:
    assert nominal_wire_strength_n(inches * M_PER_INCH) is None
