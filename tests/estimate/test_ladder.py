"""The ladder against the doctrine's worked example and its closed form, and on both sides of its limits.

Army lesson 63H34F01, supplement 1b, and TB 9-2350-292-10 steps 4 and 5 print the steps; the word problem is
CONSTRUCTED from them. Line pull by layer: TM 9-2320-279-10-2 table 2-7.
"""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.estimate.ladder import MOST_PARTS, Gives, ladder
from riglint.mechanics.constants import N_PER_LBF
from riglint.mechanics.tackle import doctrine_tackle
from riglint.report.words import working
from tests.estimate.asks import BOG, asked

LOAD, WINCH = 50_000 * N_PER_LBF, 20_000 * N_PER_LBF


def test_the_worked_example(tmp_path):
    found = asked(tmp_path, BOG)
    assert found.load_n == pytest.approx(LOAD)  # 25,000 lb x 2
    first, second = found.rungs
    # 2.5 rounded up: 3 parts, 2 sheaves; 10,000 + 50,000 = 60,000; fall line 20,000 is not LESS than 20,000.
    assert (first.parts, first.sheaves, first.serves) == (3, 2, False)
    assert [n / N_PER_LBF for n in first[2:5]] == pytest.approx([10_000, 60_000, 20_000])
    assert (second.parts, second.sheaves, second.serves) == (4, 3, True)
    assert [n / N_PER_LBF for n in second[2:5]] == pytest.approx([15_000, 65_000, 16_250])
    # A dead line that holds two parts: 32,500 lb.
    worst = max(place.load.expected_n for place in found.places if not place.on_load)
    assert worst / N_PER_LBF == pytest.approx(32_500)


@pytest.mark.parametrize(
    ("layer_pull_lb", "serves"), [(20_000, True), (18_173, True), (16_663, True), (15_361, False), (14_254, False)]
)
def test_four_parts_serve_on_three_layers_of_five(layer_pull_lb, serves):
    fourth = next(
        rung for rung in ladder(LOAD, WINCH, lambda _: Gives(layer_pull_lb * N_PER_LBF, 1)) if rung.parts == 4
    )
    assert fourth.serves is serves


def test_what_is_shown_is_what_was_reckoned(tmp_path):
    found = asked(tmp_path, BOG)
    shown = [working(step, "imperial") for step in found.rungs[1].working(found.load_n or 0.0)]
    assert shown[0] == "tackle = 0.1 * resistance * sheaves = 0.1 * 50,000 lbf * 3 = 15,000 lbf"
    for rung in found.rungs:
        for step in rung.working(found.load_n or 0.0):
            terms = {name: n for (name, _), n in zip(step.formula.terms, step.numbers, strict=True)}
            assert eval(step.formula.expression, {}, terms) == pytest.approx(step.result)


@given(st.floats(1.0, 1e7), st.floats(1.0, 1e6))
def test_as_the_closed_form(load_n, winch_n):
    found = ladder(load_n, winch_n, lambda _: Gives(winch_n, 1))
    closed = doctrine_tackle(load_n, winch_n)
    if closed is not None and closed.ratio_count <= MOST_PARTS:
        assert found[-1].serves
        assert found[-1].parts == closed.ratio_count
    else:
        assert not found[-1].serves


@given(st.floats(1e3, 1e6), st.floats(1e3, 1e6), st.floats(0.0, 0.5))
def test_stated_losses_never_take_fewer_parts(load_n, winch_n, loss):
    plain, lossy = (ladder(load_n, winch_n, lambda _: Gives(winch_n, 1), at) for at in (None, loss))
    assert lossy[-1].parts >= plain[-1].parts or not lossy[-1].serves


def test_one_part_runs_over_no_sheave():
    [rung] = ladder(1000.0, 2000.0, lambda _: Gives(2000.0, 1), 0.1)
    assert rung.compounded_n == pytest.approx(1000.0)
    # Three parts at 8 %: 1 + 0.92 + 0.8464.
    third = ladder(1000.0, 400.0, lambda _: Gives(500.0, 1), 0.08)[-1]
    assert third.gain == pytest.approx(2.7664)


def test_a_redirect_that_takes_more_than_half_is_no_tackle():
    assert ladder(1000.0, 600.0, lambda _: Gives(600.0, 1), 0.6)[-1].line_n == inf
    with pytest.raises(ValueError, match="loss is 1"):
        ladder(1000.0, 600.0, lambda _: Gives(600.0, 1), 1.0)


def test_no_number_of_parts(tmp_path):
    found = asked(tmp_path, BOG.replace("20000 lbf", "5000 lbf"))  # a tenth of the resistance
    assert found.serves is None
    assert found.rungs[-1].parts == MOST_PARTS
