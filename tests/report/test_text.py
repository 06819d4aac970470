"""The report that people read."""

import re

import pytest

from riglint.outcome import Check, Grade, Result, Value, Verdict, Where
from riglint.plan.load import load_plan
from riglint.reading.problems import ReadingFailed
from riglint.report.ink import Ink
from riglint.report.text import report, unread
from riglint.report.words import fill, plain, wrapped
from riglint.rulebook.inspect import inspect
from riglint.solve.solution import CASES
from tests.report.cases import inspected

PLAIN = Ink(False)


def test_the_whole_report(tmp_path, snapshot):
    assert report(inspected(tmp_path), PLAIN) == snapshot


def test_the_workings(tmp_path, snapshot):
    text = report(inspected(tmp_path), PLAIN, with_workings=True)
    assert text[text.index("Workings:") : text.index("Arithmetic")] == snapshot


def test_imperial_where_the_plan_asks_for_it(tmp_path):
    text = report(inspected(tmp_path, "small-winch-tow-eye"), PLAIN)
    assert "lbf" in text
    assert not re.search(r"\d (kN|m|mm)\b", text)


def test_the_verdict_comes_first(tmp_path):
    assert report(inspected(tmp_path), PLAIN).startswith("NOT CLEAR:")


def test_equal_facts_are_asked_for_once(tmp_path):
    assert report(inspected(tmp_path), PLAIN).count("fastening") == 1


def test_lines_fit(tmp_path):
    assert max(map(len, report(inspected(tmp_path), PLAIN, with_workings=True).splitlines())) <= 96


def test_colour_is_only_beside_the_word(tmp_path):
    case = inspected(tmp_path)
    coloured = report(case, Ink(True))
    assert "\x1b[" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == report(case, PLAIN)


def test_a_broken_rule_is_told_at_the_top(tmp_path):
    text = report(inspected(tmp_path, broken="yield 1 / 0"), PLAIN)
    assert "Rule broken broke and was not applied: ZeroDivisionError" in "\n".join(text.splitlines()[:5])


def test_a_limit_that_was_made_milder_is_told(tmp_path):
    case = inspected(tmp_path, trial="yield at_most(5, limits['most'], 'm', WHERE, WORDS)")
    set_ = case.rulebook.setting({"trial": {"most": "30 m"}}, "the house")
    text = report(case._replace(inspection=case.inspection._replace(changed=set_.changed)), PLAIN)
    assert "trial, most: 30 m, MILDER than the rule's own 10 m; set by the house" in text


def test_an_unreadable_plan_lists_every_problem():
    with pytest.raises(ReadingFailed) as failed:
        load_plan("rig_plan: 1\ntitel: x\n", "bad.yaml")
    text = unread("bad.yaml", failed.value)
    assert text.startswith("CAN'T BE READ: bad.yaml")
    assert len(text.splitlines()) == 1 + len(failed.value.problems)
    assert "bad.yaml:2:1" in text


def check(message: str, **more: object) -> Check:
    return Check(Result.FAILED, Where("winch", "winch", "/winch", travel_m=3.0), message, **more)


def test_places_are_filled_and_texts_are_never_taken_for_places():
    one = check("{component} {measured} {limit} {use} {travel} {who} {lost}", measured=2e3, limit=1e3, unit="N",
                use=2.0, terms=(("who", "{measured}"),))  # fmt: skip
    assert fill(one.message, one) == "winch 2 kN 1 kN 200 % 3 m {measured} {lost}"
    assert fill("{far}", one._replace(terms=(("far", Value(3.0, "m")),)), "imperial") == "9.8 ft"


def test_nothing_in_a_plan_can_move_the_cursor():
    assert plain("a\x1b[2Jb\nc\u202ed") == "a [2Jb c d"


def test_wrapping():
    assert wrapped("aa bb cc", "- ", "  ", width=7) == ["- aa bb", "  cc"]
    assert wrapped("x" * 20, "  ", width=7) == ["  " + "x" * 20]
    assert wrapped("", "  ") == ["  "]


def test_a_milder_halting_grade_is_said(tmp_path):
    assert "Halts at NOTICE and above." in report(inspected(tmp_path, halting=Grade.NOTICE), PLAIN)


def test_a_rig_that_cant_stand_is_never_clear_and_says_why(tmp_path):
    case = inspected(tmp_path, trial="yield at_most(5, limits['most'], 'm', WHERE, WORDS)")
    nothing = {case_: {} for case_ in CASES}
    stage = case.solution.stages[0]._replace(refused="ring_a finds no balance", stations=(), peaks=nothing)
    solution = case.solution._replace(stages=(stage,))
    refused = case._replace(solution=solution, inspection=inspect(solution, case.rulebook))
    assert case.inspection.verdict is Verdict.CLEAR
    assert refused.inspection.verdict is Verdict.CANT_TELL
    assert "can't stand as planned: ring_a finds no balance." in report(refused, PLAIN)


@pytest.mark.parametrize(
    ("own", "words"),
    [
        ("yield at_most(1, 2, 'm', WHERE, WORDS)", "nothing found against it"),
        (
            "yield at_most(3, 2, 'm', WHERE, WORDS, grade=Grade.CAUTION)",
            "nothing found that halts the pull, but heed what is told below",
        ),
        (
            "yield at_most(None, 2, 'm', WHERE, WORDS, missing=('/winch/spooled',), grade=Grade.NOTICE)",
            "nothing found that halts the pull, but heed what is told below",
        ),
    ],
)
def test_clear_says_whether_something_is_left_to_heed(tmp_path, own, words):
    text = report(inspected(tmp_path, trial=f"from riglint.outcome import Grade; {own}"), PLAIN)
    assert text.startswith(f"CLEAR: {words}.\n")


def test_a_stage_that_lacks_a_fact_is_counted_from_one(tmp_path):
    own = "yield at_most(None, 2, 'm', WHERE, WORDS, missing=('stages/1: load_held_by',))"
    assert "stage 2: give `load_held_by`" in report(inspected(tmp_path, "re-rig", trial=own), PLAIN)
