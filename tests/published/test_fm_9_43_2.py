"""FM 9-43-2 ch. 2 and FM 4-30.31 ch. 2, recovery: every figure here is FROM MEMORY, not re-read."""

import pytest

from riglint.mechanics.constants import N_PER_LBF
from riglint.mechanics.resistance import (
    doctrine_grade_resistance_n,
    mire_multiple_factor,
    overturn_resistance_n,
    tracked_reduction_fraction,
)


@pytest.mark.parametrize(
    ("depth", "multiple"),
    [("wheel depth", 1.0), ("fender depth", 2.0), ("cab depth", 3.0)],  # from memory
)
def test_mire_multiple_by_depth(depth: str, multiple: float) -> None:
    figure = mire_multiple_factor(depth)
    assert figure.value == multiple
    assert figure.trust == "from memory"


@pytest.mark.parametrize(
    ("backwards", "power", "reduction"),
    [(True, False, 0.10), (False, True, 0.40), (True, True, 0.50), (False, False, 0.0)],  # from memory
)
def test_reductions_for_tracked_vehicles(backwards: bool, power: bool, reduction: float) -> None:
    figure = tracked_reduction_fraction(pulled_backwards=backwards, power_applied=power)
    assert figure.value == reduction


def test_constructed_overturned_vehicle() -> None:
    # CONSTRUCTED from the rule "half the weight", printed nowhere: 18,000 lb -> 9,000 lb.
    assert overturn_resistance_n(18_000 * N_PER_LBF) / N_PER_LBF == pytest.approx(9_000)


def test_constructed_grade_is_the_whole_weight() -> None:
    # CONSTRUCTED from the rule "once the weight at any slope": 18,000 lb -> 18,000 lb.
    assert doctrine_grade_resistance_n(18_000 * N_PER_LBF) / N_PER_LBF == pytest.approx(18_000)
