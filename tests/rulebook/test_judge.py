"""The law of the limit."""

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.outcome import Result, Where
from riglint.rulebook.judge import Words, at_least, at_most, exceeds, gravest, holds

WHERE = Where("winch", "winch", "/winch")
WORDS = Words("fails", "passes", "unknown", "mend", "find out")
ORDER = (Result.PASSED, Result.CANT_TELL, Result.FAILED)


@pytest.mark.parametrize(("use", "result"), [(0.99, "passed"), (1.0, "passed"), (1.01, "failed")])
def test_use_up_to_one_passes(use, result):
    assert at_most(use * 50.0, 50.0, "N", WHERE, WORDS).result.value == result
    assert at_least(50.0 / use, 50.0, "N", WHERE, WORDS).result.value == result


def test_rounding_at_the_limit_passes_and_a_hair_over_fails():
    assert at_most(0.1 + 0.2, 0.3, "N", WHERE, WORDS).result is Result.PASSED
    assert at_most(1 + 2e-9, 1.0, "N", WHERE, WORDS).result is Result.FAILED


@pytest.mark.parametrize(
    ("value", "past"), [(0.1 + 0.2, False), (0.3 * (1 + 2e-9), True), (0.0, False), (inf, True), (nan, True)]
)
def test_past_a_limit_is_what_a_check_of_it_would_not_pass(value, past):
    assert exceeds(value, 0.3) is past
    assert (at_most(value, 0.3, "N", WHERE, WORDS).result is not Result.PASSED) is past


@pytest.mark.parametrize("check", [at_most, at_least])
@pytest.mark.parametrize(("measured", "limit"), [(nan, 1), (1, nan), (nan, nan), (1, inf), (inf, inf), (1, -inf)])
def test_what_is_no_finite_number_never_passes(check, measured, limit):
    assert check(measured, limit, "N", WHERE, WORDS).result is not Result.PASSED


def test_an_infinite_load_fails_and_an_infinite_reserve_is_not_believed():
    assert at_most(inf, 5.0, "N", WHERE, WORDS).result is Result.FAILED
    assert at_least(inf, 5.0, "N", WHERE, WORDS).result is Result.CANT_TELL


def test_nothing_of_what_is_asked_for_fails():
    assert at_least(0.0, 5.0, "m", WHERE, WORDS).result is Result.FAILED
    assert at_least(-3.0, 5.0, "m", WHERE, WORDS).result is Result.FAILED
    assert at_least(-3.0, 0.0, "m", WHERE, WORDS).result is Result.FAILED
    assert at_least(0.0, 0.0, "m", WHERE, WORDS).result is Result.PASSED


def test_a_limit_of_zero_lets_nothing_through():
    assert at_most(0.0, 0.0, "m", WHERE, WORDS).result is Result.PASSED
    assert at_most(1e-6, 0.0, "m", WHERE, WORDS).result is Result.FAILED


@pytest.mark.parametrize("check", [at_most, at_least])
@pytest.mark.parametrize("pair", [(None, 1.0), (1.0, None), (None, None)])
def test_what_is_not_known_cant_be_told(check, pair):
    made = check(*pair, "N", WHERE, WORDS)
    assert (made.result, made.use, made.message, made.remedy) == (Result.CANT_TELL, None, "unknown", "find out")


def test_a_missing_fact_never_passes_and_hides_no_failure():
    assert at_most(1.0, 2.0, "N", WHERE, WORDS, missing=("x",)).result is Result.CANT_TELL
    assert at_most(3.0, 2.0, "N", WHERE, WORDS, missing=("x",)).result is Result.FAILED


@pytest.mark.parametrize(("true", "result"), [(True, "passed"), (False, "failed"), (None, "cantTell")])
def test_what_is_so_or_not(true, result):
    assert holds(true, WHERE, WORDS).result.value == result
    assert holds(True, WHERE, WORDS, missing=("x",)).result is Result.CANT_TELL


def test_words_and_mend_go_with_the_result():
    over, within = at_most(3.0, 2.0, "N", WHERE, WORDS), at_most(1.0, 2.0, "N", WHERE, WORDS)
    assert (over.message, over.remedy, over.use) == ("fails", "mend", 1.5)
    assert (within.message, within.remedy, within.use) == ("passes", "", 0.5)


NUMBERS = st.floats(allow_nan=False, allow_infinity=False)


@given(NUMBERS, NUMBERS, NUMBERS)
def test_more_is_never_milder(measured, more, limit):
    low, high = sorted((measured, more))
    mild, grave = (at_most(m, limit, "N", WHERE, WORDS).result for m in (low, high))
    assert ORDER.index(mild) <= ORDER.index(grave)
    mild, grave = (at_least(m, limit, "N", WHERE, WORDS).result for m in (high, low))
    assert ORDER.index(mild) <= ORDER.index(grave)


def test_what_is_not_known_is_graver_than_what_passes_and_milder_than_what_fails():
    passed, full = at_most(1.0, 2.0, "N", WHERE, WORDS), at_most(2.0, 2.0, "N", WHERE, WORDS)
    untold, failed = at_most(None, 2.0, "N", WHERE, WORDS), at_most(2.1, 2.0, "N", WHERE, WORDS)
    worse = at_most(3.0, 2.0, "N", WHERE, WORDS)
    assert gravest([passed, full]) is full
    assert gravest([full, untold, passed]) is untold
    assert gravest([full, untold, failed, worse]) is worse
