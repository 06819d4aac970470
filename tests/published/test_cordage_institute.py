"""Cordage Institute, as quoted (read second hand): bowline 67 to 75 %; CI 1401: factor = MBS / WL."""

import pytest

from riglint.mechanics.capacity import working_load_n
from riglint.mechanics.joins import join_factor


def test_bowline() -> None:
    band = join_factor("bowline", "fibre")
    assert band is not None
    assert (band.low, band.high) == (0.67, 0.75)


def test_design_factor_divides_the_breaking_strength() -> None:
    assert working_load_n(100_000, 5.0) == pytest.approx(20_000)
