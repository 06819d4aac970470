"""LR Code for Lifting Appliances ch. 8 s. 3.1.5 and ILO dock work App. H.2: marks on blocks."""

import pytest

from riglint.mechanics.capacity import block_head_load_n, block_resultant_rating_n


def test_head_fitting_carries_twice_the_mark() -> None:
    assert block_head_load_n(1.0) == pytest.approx(2.0)  # marked W: head fitting 2 W


def test_the_same_block_at_the_load() -> None:
    # As a lower block its fitting, fit for 2 W, could take 2 W: the resultant that the mark stands for.
    assert block_resultant_rating_n(1.0, "line") == pytest.approx(2.0)
    assert block_resultant_rating_n(1.0, "resultant") == pytest.approx(1.0)
