"""Army lesson 63H34F01, supplement 1b, and TB 9-2350-292-10 steps 4 and 5: the recovery formulas.

The lesson prints formulas; the word problem below is CONSTRUCTED from them and printed nowhere.
"""

import pytest

from riglint.mechanics import tackle
from riglint.mechanics.constants import N_PER_LBF
from riglint.mechanics.resistance import mire_resistance_n

# CONSTRUCTED: vehicle 20,000 lb + cargo 5,000 lb, fender depth, wheeled, winch 20,000 lb.
LOAD = mire_resistance_n(25_000 * N_PER_LBF, "fender depth")
WINCH = 20_000 * N_PER_LBF


def test_constructed_load_resistance_and_first_ratio() -> None:
    pounds = LOAD / N_PER_LBF
    assert pounds == pytest.approx(50_000)
    assert tackle.required_ratio_count(LOAD, WINCH) == 3


def test_constructed_first_ratio_is_not_enough() -> None:
    total_n = tackle.total_resistance_n(LOAD, 2)
    assert tackle.tackle_resistance_n(LOAD, 2) / N_PER_LBF == pytest.approx(10_000)
    assert total_n / N_PER_LBF == pytest.approx(60_000)
    assert tackle.fall_line_n(total_n, 3) / N_PER_LBF == pytest.approx(20_000)  # equal, not less


def test_constructed_second_ratio_serves() -> None:
    found = tackle.doctrine_tackle(LOAD, WINCH)
    assert found is not None
    assert (found.ratio_count, found.sheave_count) == (4, 3)
    assert found.tackle_n / N_PER_LBF == pytest.approx(15_000)
    assert found.total_n / N_PER_LBF == pytest.approx(65_000)
    assert found.fall_line_n / N_PER_LBF == pytest.approx(16_250)
    assert tackle.dead_line_n(found.fall_line_n, 2) / N_PER_LBF == pytest.approx(32_500)


@pytest.mark.parametrize(
    ("layer_pull_lb", "serves"),
    # Line pull by layer: TM 9-2320-279-10-2 table 2-7.
    [(20_000, True), (18_173, True), (16_663, True), (15_361, False), (14_254, False)],
)
def test_constructed_fall_line_against_the_layer(layer_pull_lb: int, serves: bool) -> None:
    fall_n = tackle.fall_line_n(tackle.total_resistance_n(LOAD, 3), 4)
    assert (fall_n < layer_pull_lb * N_PER_LBF) is serves


def test_effort_available_is_winch_times_ratio() -> None:
    # TB 9-2350-292-10 step 4: the rule; figures CONSTRUCTED.
    assert tackle.effort_available_n(WINCH, 4) / N_PER_LBF == pytest.approx(80_000)
