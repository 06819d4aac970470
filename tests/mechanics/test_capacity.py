"""Capacity, joins and the rules of thumb."""

from math import pi, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics import capacity, joins, strength, thumb
from riglint.mechanics.constants import M_PER_INCH


@given(st.floats(1.0, 1e7), st.floats(1.0, 20.0), st.floats(1.0, 20.0))
def test_a_larger_factor_never_leaves_more(breaking_n: float, one: float, other: float) -> None:
    small, large = sorted((one, other))
    assert capacity.working_load_n(breaking_n, large) <= capacity.working_load_n(breaking_n, small) <= breaking_n


def test_a_factor_below_one_is_refused() -> None:
    with pytest.raises(ValueError, match="design_factor"):
        capacity.working_load_n(1e5, 0.99)


@given(st.floats(0.0, pi), st.floats(0.0, pi))
def test_a_shackle_pulled_further_aside_never_holds_more(one: float, other: float) -> None:
    near, far = (capacity.shackle_side_factor(angle) or 0.0 for angle in sorted((one, other)))
    assert far <= near


@pytest.mark.parametrize(("hitch", "factor"), [("single", 1.0), ("doubled", 2.0), ("choked", 0.75)])
def test_hitches(hitch: capacity.Hitch, factor: float) -> None:
    assert capacity.hitch_factor(hitch).value == factor


def test_a_basket_must_state_its_angle() -> None:
    assert capacity.hitch_factor("basket", pi / 2).value == 2.0
    with pytest.raises(ValueError, match="from_level_rad"):
        capacity.hitch_factor("basket")


@given(st.floats(0.01, pi / 2), st.floats(0.01, pi / 2))
def test_a_flatter_basket_never_holds_more(one: float, other: float) -> None:
    flat, steep = sorted((one, other))
    assert capacity.hitch_factor("basket", flat).value <= capacity.hitch_factor("basket", steep).value


def test_words_that_no_table_holds_are_refused() -> None:
    with pytest.raises(ValueError, match="single, doubled, basket, choked"):
        capacity.hitch_factor("granny")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="line, resultant"):
        capacity.block_resultant_rating_n(1e4, "load")  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="rope"):
        joins.join_factor("bowline", "string")


def test_square_knot_loop_to_loop_only_with_parallel_legs_and_no_twist() -> None:
    good = joins.join_factor("loop-to-loop square knot", "hmpe", parallel_legs=True, twisted=False)
    assert good is not None
    assert (good.low, good.trust) == (0.85, "common practice")


@pytest.mark.parametrize(
    ("parallel_legs", "twisted"),
    [(False, False), (True, True), (False, True), (None, False), (True, None), (None, None)],
)
def test_square_knot_set_otherwise_or_unstated_has_no_figure(parallel_legs: bool | None, twisted: bool | None) -> None:
    found = joins.join_factor("loop-to-loop square knot", "hmpe", parallel_legs=parallel_legs, twisted=twisted)
    assert found is None


def test_a_knot_costs_slippery_rope_no_less() -> None:
    for kind in ("bowline", "knot"):
        common, slippery = joins.join_factor(kind, "fibre"), joins.join_factor(kind, "hmpe")
        assert common is not None
        assert slippery is not None
        assert slippery.low <= common.low
        assert slippery.trust == "from memory, low confidence"


def test_an_unstated_core_takes_the_lower_column() -> None:
    kinds = ["poured socket", "pressed sleeve", "hand-tucked thimble splice", "wedge socket", "clips"]
    for kind in kinds:
        lows = [joins.join_factor(kind, rope) for rope in ("wire, independent core", "wire, fibre core", "wire")]
        values = [band.low for band in lows if band is not None]
        assert values[2] == min(values)


@pytest.mark.parametrize(
    ("kind", "rope", "low", "high"),
    [  # all from memory; those in HMPE with low confidence
        ("knot", "fibre", 0.50, 0.50),
        ("spliced eye", "hmpe", 0.90, 0.90),
        ("bowline", "hmpe", 0.35, 0.50),
        ("knot", "hmpe", 0.35, 0.50),
        ("girth hitch", "hmpe", 0.60, 0.85),
    ],
)
def test_figures_from_memory(kind: str, rope: str, low: float, high: float) -> None:
    band = joins.join_factor(kind, rope)
    assert band is not None
    assert (band.low, band.high) == (low, high)
    assert band.trust.startswith("from memory")


def test_an_unknown_join_has_no_figure() -> None:
    assert joins.join_factor("sheet bend", "fibre") is None


@given(st.floats(0.001, 0.1), st.floats(0.001, 0.1))
def test_thicker_is_never_weaker_by_the_thumb(one: float, other: float) -> None:
    thin, thick = sorted((one, other))
    for item in ("wire", "shackle", "hook", "chain", "manila"):
        low, high = thumb.thumb_working_n(item, thin), thumb.thumb_working_n(item, thick)
        assert low is not None
        assert high is not None
        assert low.value <= high.value


def test_things_without_a_rule_of_thumb() -> None:
    assert thumb.thumb_working_n("soft shackle", 0.01) is None
    assert thumb.thumb_breaking_n("hmpe", 0.03) is None


def test_clips_from_one_inch_up_the_table_asks_more_than_the_rule() -> None:
    assert thumb.clips_by_table_count(M_PER_INCH, forged=True) == thumb.clips_count(M_PER_INCH) + 1
    assert thumb.clips_by_table_count(2 * M_PER_INCH, forged=True) is None


@given(st.floats(0.002, 0.1), st.floats(1e8, 3e9))
def test_a_fibre_core_is_the_weaker(diameter_m: float, grade_pa: float) -> None:
    fibre = strength.wire_breaking_n(diameter_m, grade_pa, fibre_core=True)
    steel = strength.wire_breaking_n(diameter_m, grade_pa, fibre_core=False)
    assert fibre.value < steel.value


def test_two_legs_may_open_to_a_limit_in_the_bow() -> None:
    assert capacity.BOW_INCLUDED_MAX_RAD.value == pytest.approx(radians(120))


def test_what_a_block_s_mark_stands_for_at_a_load() -> None:
    """LR Code for Lifting Appliances ch. 8 s. 3.1.5 and ILO dock work App. H.2, read: a head fitting of 2 W."""
    assert capacity.block_resultant_rating_n(30_000.0, "line") == 60_000.0
    assert capacity.block_resultant_rating_n(30_000.0, "resultant") == 30_000.0
    assert capacity.block_head_load_n(30_000.0) == 60_000.0
    assert capacity.BLOCK_HEAD_FACTOR_ILO.value == capacity.BLOCK_HEAD_FACTOR.value == 2.0


def test_a_band_s_end_that_rounding_passed_is_still_in_it() -> None:
    for degrees, share in ((5.0, 1.00), (45.0, 0.70), (90.0, 0.50)):
        assert capacity.shackle_side_factor(radians(degrees) + 1e-9) == share
    assert capacity.shackle_side_factor(pi + 1e-9) is None


@pytest.mark.parametrize(("past", "found"), [(0.995e-3, True), (1.005e-3, False)])
@pytest.mark.parametrize("side", [1.0, -1.0])
def test_a_size_to_a_thousandth_of_an_inch_finds_its_row(past: float, found: bool, side: float) -> None:
    figure = strength.nominal_wire_strength_n((0.5 + side * past) * M_PER_INCH)
    assert (figure is not None) is found


def test_a_size_that_rounding_passed_asks_for_no_further_clip() -> None:
    """29 CFR 1918 App II table 1: 3 clips at 5/8 in, 4 at 3/4 in; NAVEDTRA 14026 p. 1-8: 3 D + 1, 4 at 1 in."""
    assert thumb.clips_by_table_count((0.625 + 0.995e-6) * M_PER_INCH, forged=True) == 3
    assert thumb.clips_by_table_count((0.625 + 1.005e-6) * M_PER_INCH, forged=True) == 4
    assert thumb.clips_count((1.0 + 0.3e-6) * M_PER_INCH) == 4
    assert thumb.clips_count((1.0 + 0.4e-6) * M_PER_INCH) == 5
