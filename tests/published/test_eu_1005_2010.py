"""Regulation (EU) 1005/2010 Annex II: a towing device bears at least half the largest laden mass."""

import pytest

from riglint.mechanics.capacity import use_ratio
from riglint.mechanics.resistance import mire_resistance_n


def test_constructed_minimum_device_in_wheel_depth() -> None:
    # CONSTRUCTED: 3,000 kg: device 0.5 x 3,000 x 9.81 = 14.7 kN; wheel depth asks 29.4 kN: too little by half
    weight_n = 3_000 * 9.81
    assert 0.5 * weight_n == pytest.approx(14_700, rel=0.002)
    assert mire_resistance_n(weight_n, "wheel depth") == pytest.approx(29_400, rel=0.002)
    assert use_ratio(mire_resistance_n(weight_n, "wheel depth"), 0.5 * weight_n) == pytest.approx(2.0)
