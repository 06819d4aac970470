"""Civil Engineering Formulas, earthmoving, read second hand; and teaching pages that print the same law."""

from math import atan

import pytest

from riglint.mechanics.constants import M_PER_INCH, N_PER_LBF
from riglint.mechanics.resistance import grade_component_n, rolling_fraction_by_penetration
from riglint.mechanics.resistance_sum import penetration_resistance


@pytest.mark.parametrize(
    ("inches", "lb_per_ton"),
    [(0, 40), (1, 70), (2, 100), (4, 160)],  # 40 lb/ton and 30 lb/ton for each inch; ton of 2,000 lb
)
def test_rolling_by_penetration(inches: int, lb_per_ton: int) -> None:
    assert rolling_fraction_by_penetration(inches * M_PER_INCH) == pytest.approx(lb_per_ton / 2000)


@pytest.mark.parametrize(
    ("weight_n", "printed_n"),
    [
        (10_000 * N_PER_LBF, 500 * N_PER_LBF),  # teaching page: 10,000 lb at 5 % -> 500 lb
        (4_500 * 9.81, 2_207.25),  # same page: 4,500 kg at 5 % -> 2,207.25 N, with its 9.81
    ],
)
def test_grade_of_five_percent(weight_n: float, printed_n: float) -> None:
    # The page prints W times percent; ours is W sin(slope), 0.125 % less at 5 %.
    assert grade_component_n(weight_n, atan(0.05)) == pytest.approx(printed_n, rel=0.0013)


def test_one_percent_of_grade_is_one_percent_of_weight() -> None:
    # Course notes CE417: 1 % of grade = 20 lb per ton of 2,000 lb = 10 kg/t.
    assert grade_component_n(2000, atan(0.01)) == pytest.approx(20, rel=1e-4)


def test_constructed_grade_of_twenty_percent() -> None:
    # CONSTRUCTED: 18,000 lb, 3,600 + 2 % rolling 360 = 3,960 lb; sin for the printed percent takes 2 % off.
    found = penetration_resistance(18_000 * N_PER_LBF, atan(0.20), 0.0)
    by_kind = {part.kind: part.force_n / N_PER_LBF for part in found.parts}
    assert by_kind["rolling"] == pytest.approx(360)
    assert by_kind["grade"] == pytest.approx(3_600, rel=0.02)
    assert found.total_n / N_PER_LBF == pytest.approx(3_960, rel=0.02)
