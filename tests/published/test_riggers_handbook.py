"""Riggers' handbooks: load over line pull by parts, bronze bushed and antifriction sheaves."""

import pytest

from riglint.mechanics.tackle import BALL_SHEAVE, BUSHED_SHEAVE, tackle_ratio

BUSHED = (0.96, 1.87, 2.75, 3.59, 4.39, 5.16, 5.90, 6.60, 7.27, 7.91, 8.52, 9.11)
ANTIFRICTION = (0.98, 1.94, 2.88, 3.81, 4.71, 5.60, 6.47, 7.32, 8.16, 8.98, 9.79, 10.6)


@pytest.mark.parametrize(("parts", "printed"), list(enumerate(BUSHED, start=1)))
def test_bronze_bushed(parts: int, printed: float) -> None:
    tolerance = 0.011 if parts <= 6 else 0.021  # the fitted law, to the rounding of the table
    assert tackle_ratio(parts, BUSHED_SHEAVE.value) == pytest.approx(printed, abs=tolerance)


@pytest.mark.parametrize(("parts", "printed"), list(enumerate(ANTIFRICTION, start=1)))
def test_antifriction(parts: int, printed: float) -> None:
    tolerance = 0.011 if parts <= 6 else 0.026  # 12 parts is printed to one decimal
    assert tackle_ratio(parts, BALL_SHEAVE.value) == pytest.approx(printed, abs=tolerance)
