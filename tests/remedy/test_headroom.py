"""Headroom: just before it the verdict stands, just beyond it is another."""

from math import degrees

import pytest

from riglint.outcome import Verdict
from riglint.plan.quantities import Span
from riglint.remedy.headroom import headroom, slope_text
from tests.remedy.cases import EXAMPLES, example, worked_out


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
