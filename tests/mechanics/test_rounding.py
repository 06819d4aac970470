"""What is equal but for rounding, on both sides of where that ends."""

from __future__ import annotations

from math import nan

import pytest

from riglint.mechanics.rounding import first_greatest, first_least, same, surpasses

NAMED = [("a", 2.0), ("b", 5.0), ("c", 5.0 + 1e-9), ("d", 3.0), ("e", 2.0 - 1e-9)]


@pytest.mark.parametrize("size", [1e-3, 1.0, 2.5e5])
@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_a_billionth_of_a_figure_is_rounding_and_more_is_not(size: float, sign: float) -> None:
    near, far = sign * size * (1.0 + 0.995e-9), sign * size * (1.0 + 1.005e-9)
    assert same(sign * size, near)
    assert same(near, sign * size)
    assert not same(sign * size, far)
    assert not same(far, sign * size)


def test_a_millionth_of_a_millionth_is_nothing_and_more_is_not() -> None:
    assert same(0.0, 0.995e-12)
    assert same(-0.995e-12, 0.0)
    assert not same(0.0, 1.005e-12)


def test_what_is_more_by_rounding_does_not_surpass() -> None:
    assert not surpasses(7.0, 7.0)
    assert not surpasses(7.0 * (1.0 + 0.995e-9), 7.0)
    assert surpasses(7.0 * (1.0 + 1.005e-9), 7.0)
    assert not surpasses(7.0, 8.0)


def test_of_those_that_are_equal_but_for_rounding_the_first_counts() -> None:
    assert first_greatest(NAMED, lambda item: item[1])[0] == "b"
    assert first_least(NAMED, lambda item: item[1])[0] == "a"
    assert first_greatest(NAMED[::-1], lambda item: item[1])[0] == "c"
    assert first_least(NAMED[::-1], lambda item: item[1])[0] == "e"


def test_what_is_truly_more_or_less_counts_wherever_it_stands() -> None:
    assert first_greatest([3.0, 1.0, 3.1, 2.0], float) == 3.1
    assert first_least([3.0, 1.0, 0.9, 2.0], float) == 0.9
    assert first_greatest([3.0], float) == first_least([3.0], float) == 3.0


def test_where_a_figure_is_no_number_none_is_greater_than_the_first() -> None:
    assert first_greatest(["a", "b"], lambda _: nan) == first_least(["a", "b"], lambda _: nan) == "a"
