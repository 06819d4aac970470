"""ASME B30.26 fig. 26-1.9.1 (percentages read second hand) and WAC 296-155-33905 fig. 17 (bands)."""

from math import degrees, radians

import pytest

from riglint.mechanics.capacity import BOW_INCLUDED_MAX_RAD, shackle_side_factor
from riglint.rulebook.find import standard_rulebook


@pytest.mark.parametrize(
    ("off_deg", "share"),
    [(0, 1.0), (5, 1.0), (6, 0.70), (45, 0.70), (46, 0.50), (90, 0.50), (91, None), (180, None)],
)
def test_side_load_bands(off_deg: int, share: float | None) -> None:
    assert shackle_side_factor(radians(off_deg)) == share


@pytest.mark.parametrize(("off_deg", "share"), [(5.001, 0.70), (45.001, 0.50), (90.001, None)])
def test_between_bands_the_next_one_counts(off_deg: float, share: float | None) -> None:
    assert shackle_side_factor(radians(off_deg)) == share


def test_two_legs_in_the_bow() -> None:
    assert degrees(BOW_INCLUDED_MAX_RAD.value) == pytest.approx(120)


def test_hardware_that_has_lost_a_tenth_of_its_size_ends_its_use() -> None:
    """26-1.8.5(d), from memory: a 10 % reduction of the original dimension at any point."""
    assert standard_rulebook().limits["gear-condition"]["worn"] == pytest.approx(0.10)
