"""Motor Vehicle Recovery Straps Safety Standard 2017 (AU): 2 to 3 times the lighter vehicle's laden mass."""

import pytest

from riglint.rulebook.find import standard_rulebook


def test_constructed_strap_for_the_lighter_vehicle() -> None:
    # CONSTRUCTED: lighter vehicle 2,500 kg laden: breaking strength of 5,000 to 7,500 kg
    limits = standard_rulebook().limits["recovery-strap"]
    assert limits["least"] * 2_500 == pytest.approx(5_000)
    assert limits["most"] * 2_500 == pytest.approx(7_500)
