"""FM 4-30.31, safety, read second hand: observers one cable length off, and two from wire rope under tension."""

import pytest

from riglint.mechanics.danger import stand_off_m
from riglint.rulebook.find import standard_rulebook


@pytest.mark.parametrize("rule", ["stand-off", "people-clear"])
def test_both_lengths_stand_in_one_manual(rule: str) -> None:
    limits = standard_rulebook().limits[rule]
    assert (limits["floor"], limits["strict"]) == (1, 2)  # TM 9-2320-356-BD p. 4-4 has one as well


def test_metres_for_a_payed_out_length() -> None:
    assert stand_off_m(30.0, 2.0) == pytest.approx(60.0)  # CONSTRUCTED: 2 x 30 m
