"""29 CFR 1918 App II: clips for wire rope, and manila slings in a basket."""

from itertools import pairwise
from math import radians

import pytest

from riglint.mechanics.capacity import hitch_factor
from riglint.mechanics.constants import M_PER_INCH
from riglint.mechanics.thumb import clip_spacing_m, clips_by_table_count

TABLE_1 = [  # rope in, clips drop forged, other, spacing in
    (1 / 2, 3, 4, 3),
    (5 / 8, 3, 4, 3.75),
    (3 / 4, 4, 5, 4.5),
    (7 / 8, 4, 5, 5.25),
    (1, 5, 6, 6),
    (1 + 1 / 8, 6, 6, 6.75),
    (1 + 1 / 4, 6, 7, 7.5),
    (1 + 3 / 8, 7, 7, 8.25),
    (1 + 1 / 2, 7, 8, 9),
]


@pytest.mark.parametrize(("inches", "forged", "other", "spacing"), TABLE_1)
def test_clips(inches: float, forged: int, other: int, spacing: float) -> None:
    rope_m = inches * M_PER_INCH
    assert clips_by_table_count(rope_m, forged=True) == forged
    assert clips_by_table_count(rope_m, forged=False) == other
    assert clip_spacing_m(rope_m) / M_PER_INCH == pytest.approx(spacing)


@pytest.mark.parametrize(("row", "next_row"), list(pairwise(TABLE_1)))
def test_past_a_size_the_next_row_holds(row: tuple[float, ...], next_row: tuple[float, ...]) -> None:
    rope_m = 1.005 * row[0] * M_PER_INCH
    assert clips_by_table_count(rope_m, forged=True) == next_row[1]
    assert clips_by_table_count(rope_m, forged=False) == next_row[2]


def test_past_the_last_size_the_table_says_nothing() -> None:
    assert clips_by_table_count(1.505 * M_PER_INCH, forged=True) is None


@pytest.mark.parametrize(("from_level_deg", "pounds"), [(90, 1_100), (60, 900), (45, 750), (30, 550)])
def test_basket_of_half_inch_manila(from_level_deg: int, pounds: int) -> None:
    # vertical 550 lb; the table rounds to 50 lb
    assert 550 * hitch_factor("basket", radians(from_level_deg)).value == pytest.approx(pounds, abs=55)
