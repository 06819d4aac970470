"""Wire Rope Sling Users Manual, nominal splice efficiencies of mechanically spliced slings, read in a reprint."""

import pytest

from riglint.mechanics.constants import M_PER_INCH
from riglint.mechanics.joins import end_factor

STEEL, FIBRE = "wire, independent core", "wire, fibre core"


@pytest.mark.parametrize(
    ("inches", "steel", "fibre"),
    [
        (0.25, 0.95, 0.925), (1.0, 0.95, 0.925),  # 1/4 through 1
        (1.0625, 0.925, 0.90), (2.0, 0.925, 0.90),  # 1 1/16 through 2
        (2.0625, 0.90, None), (3.0, 0.90, None),  # 2 1/16 and larger: with a fibre core not established
    ],
)  # fmt: skip
def test_what_a_pressed_sleeve_leaves(inches: float, steel: float, fibre: float | None) -> None:
    for core, share in ((STEEL, steel), (FIBRE, fibre), ("wire", fibre)):  # core not stated: the poorer
        found = end_factor("pressed sleeve", core, inches * M_PER_INCH)
        assert (found and found.low) == share


@pytest.mark.parametrize(("inches", "share"), [(0.5, 0.86), (0.51, None)])
def test_a_hand_tucked_splice_has_no_figure_over_half_an_inch(inches: float, share: float | None) -> None:
    found = end_factor("hand-tucked thimble splice", STEEL, inches * M_PER_INCH)
    assert (found and found.low) == share
