"""Regulation (EU) 1005/2010 Annex II: a towing device bears at least half the largest laden mass."""

import pytest

from riglint.mechanics.capacity import use_ratio
from riglint.mechanics.resistance import mire_resistance_n
from riglint.rulebook.find import standard_rulebook


def test_half_the_laden_mass() -> None:
    # Annex II: static force of at least half the technically permissible maximum laden mass
    assert standard_rulebook().limits["towing-device"]["share"] == pytest.approx(0.5)


def test_constructed_minimum_device_in_wheel_depth() -> None:
    # CONSTRUCTED: 3,000 kg: device 0.5 x 3,000 x 9.81 = 14.7 kN; wheel depth asks 29.4 kN: too little by half
    weight_n = 3_000 * 9.81
    device_n = standard_rulebook().limits["towing-device"]["share"] * weight_n
    assert device_n == pytest.approx(14_700, rel=0.002)
    assert mire_resistance_n(weight_n, "wheel depth") == pytest.approx(29_400, rel=0.002)
    assert use_ratio(mire_resistance_n(weight_n, "wheel depth"), device_n) == pytest.approx(2.0)
