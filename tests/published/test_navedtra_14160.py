"""NAVEDTRA 14160, synthetic lines (mooring): how far handlers stand off, and the load that ruins a line."""

import pytest

from riglint.mechanics.constants import M_PER_FOOT
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.loads import SHARE_OF_BREAKING
from riglint.solve.exposure import CLEARANCE_M

LIMITS = standard_rulebook().limits


def test_six_feet_from_what_holds_the_line() -> None:
    stated = (LIMITS["operator-place"]["distance"], LIMITS["people-clear"]["clearance"], CLEARANCE_M)
    assert [metres / M_PER_FOOT for metres in stated] == pytest.approx([6, 6, 6])


def test_past_three_quarters_of_its_strength_a_line_is_damaged() -> None:
    assert pytest.approx(0.75) == SHARE_OF_BREAKING
