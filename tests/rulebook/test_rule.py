"""What is refused as a rule or a limit, and limits that files set."""

import pytest

from riglint.outcome import Basis, Grade
from riglint.rulebook.limits import DIMENSIONS, Limit, LimitError, Limits
from riglint.rulebook.rule import RuleError, rule

BASIS = Basis("derivation", "for trying")


def drum_wraps(solution, limits):
    yield from ()


def made(function=drum_wraps, **changed):
    facts = {"title": "Wraps", "grade": Grade.DANGER, "guards": "drum", "basis": (BASIS,)} | changed
    return rule(**facts)(function)


def test_name_and_page_come_from_function_and_module():
    one = made()
    assert (one.slug, one.page) == ("drum-wraps", __doc__.strip())


def not_a_generator(solution, limits):
    return []


def Bad_name(solution, limits):  # noqa: N802
    yield


@pytest.mark.parametrize(
    ("function", "changed", "complaint"),
    [
        (drum_wraps, {"basis": ()}, "no basis"),
        (drum_wraps, {"basis": ("a book",)}, "no basis"),
        (drum_wraps, {"title": " "}, "no title"),
        (drum_wraps, {"grade": "DANGER"}, "grade"),
        (drum_wraps, {"guards": "hats"}, "guard"),
        (drum_wraps, {"limits": (3,)}, "Limit"),
        (not_a_generator, {}, "generator"),
        (Bad_name, {}, "lower case"),
    ],
)
def test_what_is_no_rule(function, changed, complaint):
    with pytest.raises(RuleError, match=complaint):
        made(function, **changed)


def test_two_limits_of_one_name():
    limit = Limit("most", 1.0, "m", "most of it", BASIS, "higher")
    with pytest.raises(RuleError, match="one name"):
        made(limits=(limit, limit))


@pytest.mark.parametrize(
    "changed",
    [{"name": "Most"}, {"name": "a-b"}, {"unit": "J/kg"}, {"basis": None}, {"says": ""}, {"value": float("nan")},
     {"value": float("inf")}, {"value": -1.0}],
)  # fmt: skip
def test_what_is_no_limit(changed):
    facts = {"name": "most", "value": 1.0, "unit": "m", "says": "x", "basis": BASIS, "milder": "higher"}
    with pytest.raises(LimitError):
        Limit(**(facts | changed))


WRAPS = Limit("wraps", 5.0, "wraps", "least wraps", BASIS, "lower")
LENGTH = Limit("length", 2.0, "m", "most length", BASIS, "higher")


def test_a_file_sets_a_limit_in_its_own_unit():
    limits = Limits((WRAPS, LENGTH)).set("length", "10 ft", "house")
    assert limits["length"] == pytest.approx(3.048)
    assert limits["wraps"] == 5.0
    assert limits.source("length") == (limits["length"], "house", True)
    assert limits.source("wraps") == (5.0, "", False)


@pytest.mark.parametrize(("name", "text", "milder"), [("wraps", "4", True), ("wraps", 6, False),
                                                     ("length", "3 m", True), ("length", "1 m", False)])  # fmt: skip
def test_milder_is_told_from_stricter(name, text, milder):
    (changed,) = Limits((WRAPS, LENGTH)).set(name, text, "house").changed("a-rule")
    assert (changed.limit, changed.milder, changed.set_by) == (name, milder, "house")


def test_setting_the_own_value_changes_nothing():
    assert Limits((WRAPS,)).set("wraps", "5", "house").changed("a-rule") == ()


@pytest.mark.parametrize(("name", "text"), [("length", "3"), ("length", "1 m to 2 m"), ("length", "3 kg"),
                                            ("length", "-1 m"), ("wraps", "nan"), ("wires", "3")])  # fmt: skip
def test_what_no_limit_can_be_set_to(name, text):
    with pytest.raises(LimitError):
        Limits((WRAPS, LENGTH)).set(name, text, "house")


@pytest.mark.parametrize("unit", DIMENSIONS)
def test_every_unit_of_a_limit_can_be_shown(unit):
    from riglint.report.numbers import show

    assert show(3.0, unit)


@pytest.mark.parametrize(
    ("kind", "more"),
    [("standard", {}), ("standard", {"source": "x", "locator": "1"}), ("common practice", {"source": "x"})],
)
def test_a_basis_is_complete_and_never_dressed_up(kind, more):
    with pytest.raises(ValueError, match="basis"):
        Basis(kind, "something", **more)
    with pytest.raises(ValueError, match="supports"):
        Basis("derivation", " ")
