"""The report for machines."""

import json
from math import inf, nan

import pytest
from jsonschema import Draft202012Validator

from riglint.plan.load import load_plan
from riglint.reading.problems import ReadingFailed
from riglint.report import json_report
from riglint.report.figures import figure, number
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import inspect
from riglint.shipped import shipped
from tests.report.cases import EXAMPLES, inspected

VALIDATOR = Draft202012Validator(json.loads((shipped("schemas") / "report.schema.json").read_text()))


def document(case) -> str:
    return json_report.document([json_report.report(case)])


@pytest.mark.parametrize("plan", sorted(file.stem for file in EXAMPLES.glob("*.yaml")))
def test_every_example_follows_the_schema(tmp_path, plan):
    case = inspected(tmp_path, plan, trial="yield at_most(5, limits['most'], 'm', WHERE, WORDS)")
    book = standard_rulebook()
    case = case._replace(rulebook=book, inspection=inspect(case.solution, book))
    VALIDATOR.validate(json.loads(document(case)))


def test_findings_point_into_the_plan(tmp_path):
    case = inspected(tmp_path)
    (plan,) = json.loads(document(case))["plans"]
    where = plan["findings"][0]["check"]["where"]
    line = case.document.text.splitlines()[where["line"] - 1]
    assert line[where["column"] - 1 :].startswith(where["name"])


def test_the_schema_refuses_what_is_not_there(tmp_path):
    data = json.loads(document(inspected(tmp_path)))
    data["plans"][0]["findings"][0]["colour"] = "red"
    assert not VALIDATOR.is_valid(data)


def test_unreadable_plans_have_their_place_in_it():
    with pytest.raises(ReadingFailed) as failed:
        load_plan("rig_plan: 1\ntitel: x\n", "bad.yaml")
    entries = [json_report.unread("bad.yaml", failed.value), json_report.broke("gone.yaml", "can't be opened")]
    VALIDATOR.validate(json.loads(json_report.document(entries)))


def test_the_same_bytes_each_time(tmp_path):
    assert document(inspected(tmp_path / "a")) == document(inspected(tmp_path / "b"))


def test_figures_have_six_digits_and_read_back():
    assert figure(123456.789) == 123457.0
    assert [number(figure(x)) for x in (0.0, -2.5, inf)] == [0.0, -2.5, inf]


def test_what_has_no_end_is_told_apart_from_what_is_not_told(tmp_path):
    """RFC 8259 has no infinity; null alone would say both."""
    assert figure(inf) == "without end"
    assert figure(None) is figure(nan) is number(None) is number("") is None
    body = "yield at_most({}, limits['most'], 'm', WHERE, WORDS)"
    told = {}
    for name, value in (("endless", "float('inf')"), ("untold", "None")):
        data = json.loads(document(inspected(tmp_path / name, trial=body.format(value))))
        VALIDATOR.validate(data)
        [entry] = data["plans"][0]["findings"]
        told[name] = entry["check"]["measured"], entry["check"]["use"], entry["result"]
    assert told == {"endless": ("without end", "without end", "failed"), "untold": (None, None, "cantTell")}


def test_no_other_word_stands_for_a_figure(tmp_path):
    data = json.loads(document(inspected(tmp_path)))
    data["plans"][0]["findings"][0]["check"]["use"] = "Infinity"
    assert not VALIDATOR.is_valid(data)


def test_keys_stand_in_order(tmp_path):
    def ordered(value):
        if isinstance(value, list):
            return all(map(ordered, value))
        return not isinstance(value, dict) or (list(value) == sorted(value) and all(map(ordered, value.values())))

    assert ordered(json.loads(document(inspected(tmp_path))))
