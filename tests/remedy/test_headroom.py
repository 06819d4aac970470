"""Headroom: just before it the verdict stands, just beyond it is another."""

from dataclasses import replace
from math import acos, atan2, cos, degrees, pi, sin

import pytest

from riglint.outcome import Result, Verdict
from riglint.plan.quantities import Span
from riglint.remedy.headroom import headroom
from riglint.remedy.room.of_load import slope_text
from riglint.remedy.room.search import Seen, scanned
from riglint.remedy.workshop import plain_engine
from tests.remedy.cases import BOOK, EXAMPLES, example, worked_out


def of(case, what):
    found = headroom(case.document, case.solution, case.inspection, case.engine)
    return next(one for one in found if one.of == what)


def heavier(name, factor, low, high):
    text, old = (EXAMPLES / f"{name}.yaml").read_text(), f"weight: {low} t to {high} t"
    assert old in text
    return worked_out(text.replace(old, f"weight: {low * factor:.9f} t to {high * factor:.9f} t"))


def test_resistance_on_either_side_of_its_place():
    case = example("re-rig")
    one = of(case, "resistance")
    assert (case.inspection.verdict, one.then, one.rules) == (Verdict.CLEAR, Verdict.NOT_CLEAR, ("enough-pull",))
    assert one.at == pytest.approx(one.now * one.change)
    assert heavier("re-rig", one.change * 0.9999, 8.5, 9.0).inspection.verdict is Verdict.CLEAR
    assert heavier("re-rig", one.change * 1.001, 8.5, 9.0).inspection.verdict is Verdict.NOT_CLEAR


def test_slope_on_either_side_of_its_place():
    text = (EXAMPLES / "straight-pull.yaml").read_text()
    case = worked_out(text)
    one = of(case, "slope")
    old = f"slope: {degrees(one.now):.3g} deg up"
    assert old in text
    for by, verdict in ((-0.01, case.inspection.verdict), (0.05, one.then)):
        steeper = text.replace(old, f"slope: {degrees(one.at) + by:.6f} deg up", 1)
        assert worked_out(steeper).inspection.verdict is verdict


def test_a_stated_resistance_is_scaled_itself():
    text = (EXAMPLES / "five-parts.yaml").read_text().replace("rated: 250 kN", "rated: 900 kN")
    one = of(worked_out(text), "resistance")
    assert one.growing
    assert one.change > 1.0


def test_what_is_not_clear_is_looked_at_the_other_way():
    text = (EXAMPLES / "re-rig.yaml").read_text().replace("8.5 t to 9.0 t", "12 t to 13 t")
    case = worked_out(text)
    one = of(case, "resistance")
    assert case.inspection.verdict is Verdict.NOT_CLEAR
    assert not one.growing
    assert 0.5 < one.change < 1.0
    assert one.then is not Verdict.NOT_CLEAR
    assert one.rules == ("enough-pull",)


def test_no_slope_no_headroom():
    one = of(example("ten-lines"), "slope")
    assert (one.at, one.why_not) == (None, "the slope under the load isn't stated")


def test_more_resistance_goes_one_way():
    for name in ("deadman", "self-recovery"):
        assert of(example(name), "resistance").steady


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [(0.0, 0.0, "0 deg up"), (0.1, 0.1, "5.729577951 deg up"), (-0.2, -0.1, "5.729577951 deg to 11.459155903 deg down"),
     (-0.1, 0.2, "11.459155903 deg up")],
)  # fmt: skip
def test_slopes_as_a_plan_says_them(low, high, text):
    assert slope_text(Span(low, high)) == text


BENT = """
rig_plan: 1
title: Round a corner
bodies:
  van: {moves: {distance: 1 mm, bearing: 0 deg}, weight: 3 t, ground: {surface: gravel, slope: 0 deg}}
points:
  eye: {on: van, at: [0 m, 0 m], kind: tow eye, rated: 500 kN}
  pin: {on: ground, at: [20 m, 10 m], kind: rock, rated: RATED kN, basis: pull test}
  nose: {on: ground, at: [20 m, -10 m], kind: winch mount, rated: 500 kN}
winch: {mounted: nose, rated_pull: 40 kN, rated_layer: 1, stall_pull: 50 kN}
lines:
  haul: {pieces: [rope: {rope: hmpe, diameter: 12 mm, length: 80 m, breaking: 500 kN}],
         path: [winch, corner.sheave, eye]}
redirects:
  corner: {kind: block, loss: 0 %, hung_from: [pin],
           sheave: {tread: 300 mm, groove_for: 12 mm, rated: 500 kN, rated_for: line}}
"""


def bent(rated):
    return only("anchor-rating", BENT.replace("RATED", str(rated)))


def only(rule, text):
    """Inspected by one rule alone, so that nothing else sets the limit."""
    book = replace(BOOK, rules=tuple(r for r in BOOK.rules if r.slug == rule))
    return worked_out(text, plain_engine(book))


def angle_at(case, side):
    found = headroom(case.document, case.solution, case.inspection, case.engine)
    return next(one for one in found if (one.of, one.side) == ("angle", side))


def test_an_angle_closes_until_its_anchor_has_all_that_it_may():
    """Statics: two equal tensions with an angle a between them come to 2 T cos(a/2)."""
    case = bent(95)
    one = angle_at(case, "tighter")
    to_winch, to_eye = atan2(-20, 0), atan2(-10, -20)  # the ways of the legs, from the corner
    assert one.now == pytest.approx(abs(to_winch - to_eye), rel=1e-3)
    assert one.at == pytest.approx(2 * acos(95 / (2 * 50)), rel=1e-3)
    assert (one.growing, one.then, one.rules) == (True, Verdict.NOT_CLEAR, ("anchor-rating",))
    assert one.anchor.point == "pin"
    assert one.change == pytest.approx(one.at - one.now)
    outward = (to_winch + to_eye) / 2 + pi
    for more, verdict in ((-0.02, Verdict.CLEAR), (0.02, Verdict.NOT_CLEAR)):
        by = one.anchor.by_m + more
        at = f"[{20 + by * cos(outward):.6f} m, {10 + by * sin(outward):.6f} m]"
        text = case.document.text.replace("[20 m, 10 m]", at)
        assert only("anchor-rating", text).inspection.verdict is verdict


def test_an_angle_that_is_too_tight_has_to_open():
    one = angle_at(bent(65), "wider")
    assert (one.growing, one.then, one.rules) == (False, Verdict.CLEAR, ("anchor-rating",))
    assert one.at == pytest.approx(2 * acos(65 / (2 * 50)), rel=1e-3)
    assert one.anchor.by_m < 0


def test_what_stands_by_itself_only_is_moved():
    text = BENT.replace("RATED", "75")
    for old, new, why in (
        ("on: ground, at: [20 m, 10 m]", "on: tender, at: [20 m, 10 m]", "can't be moved by itself"),
        ("title:", "people: [{who: spotter, at: 3 m bearing 0 deg from pin}]\ntitle:", "measured from pin"),
    ):
        case = only("anchor-rating", text.replace("bodies:", "bodies:\n  tender: {weight: 9 t}").replace(old, new))
        assert why in angle_at(case, "").why_not


def test_points_that_are_measured_from_a_moved_one_stay():
    text = BENT.replace("RATED", "95").replace("at: [20 m, -10 m]", "at: 20 m bearing 270 deg from pin")
    moved, plain = angle_at(only("anchor-rating", text), "tighter"), angle_at(bent(95), "tighter")
    assert moved.at == pytest.approx(plain.at, rel=1e-6)


def test_the_first_of_several_changes_is_found():
    """A verdict that is worse from 11 to 16 and from 25 on: the scan stops at 11."""

    seen = [Seen(Verdict.CLEAR, frozenset()), Seen(Verdict.NOT_CLEAR, frozenset({("rule", "part", Result.FAILED)}))]
    bad = lambda x: 11 < x < 16 or x > 25  # noqa: E731
    found = scanned(lambda x: seen[bad(x)], seen[0], 0.0, (2.0, 5.0, 10.0, 15.0, 22.0, 30.0))
    assert found.last < 11 < found.first
    assert found.first - found.last <= 5 / 4 * 1e-4
    assert not found.steady
    assert found.step == 5
