"""The known word that was meant."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.reading.nearest import nearest, one_of

KNOWN = ["rated", "rated_direction", "diameter", "breaking", "working_load", "length", "at", "on"]


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("ratd", "rated"),
        ("Rated", "rated"),
        ("diametre", "diameter"),
        ("braeking", "breaking"),
        ("working-load", "working_load"),
        ("workingLoad", "working_load"),
        ("lenght", "length"),
        ("rated direction", "rated_direction"),
        ("colour", None),
        ("", None),
        ("l" * 1000, None),
    ],
)
def test_a_slip_of_the_fingers_is_seen(word, meant):
    assert nearest(word, KNOWN) == meant


@given(st.text("abc_", min_size=1, max_size=6), st.lists(st.text("abc_", min_size=1, max_size=6)))
def test_the_order_of_the_known_words_weighs_nothing(word, known):
    assert nearest(word, known) == nearest(word, reversed(known))


@given(st.sampled_from(KNOWN))
def test_a_known_word_is_nearest_to_itself(word):
    assert nearest(word, KNOWN) == word


def test_words_as_a_phrase():
    assert one_of([]) == ""
    assert one_of(["a"]) == "`a`"
    assert one_of(["a", "b", "c"]) == "`a`, `b` or `c`"
