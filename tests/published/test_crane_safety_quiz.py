"""A provincial crane safety quiz (rigging): choker hitches and a two-leg sling."""

import pytest

from riglint.mechanics.angles import sling_leg_tension_n
from riglint.mechanics.capacity import hitch_factor


@pytest.mark.parametrize(("bridle_lb", "choker_lb"), [(9_900, 7_425), (16_627, 12_470)])
def test_bridle_used_as_a_choker(bridle_lb: int, choker_lb: int) -> None:
    assert bridle_lb * hitch_factor("choked").value == pytest.approx(choker_lb, abs=0.5)


def test_leg_tension_by_length_and_height() -> None:
    # L 16 ft, W 15,000 lb, H 12 ft by its formula L W / (2 H): 10,000 lb, computed;
    # the page only says that a shackle of 13,000 lb is enough.
    assert sling_leg_tension_n(15_000, 16, 12) == pytest.approx(10_000)
