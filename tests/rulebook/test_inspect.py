"""Outcomes, findings and verdicts; rules that break."""

import pickle

import pytest

from riglint.outcome import Grade, Result, Verdict
from riglint.rulebook.find import rulebooks
from riglint.rulebook.inspect import inspect
from tests.rulebook.rigs import checking, rulebook_folder, solution

PASS, FAIL, UNKNOWN = checking(5.0), checking(20.0), checking(None)


@pytest.fixture
def run(tmp_path):
    def inspected(bodies, halting=Grade.WARNING):
        book = rulebooks([rulebook_folder(tmp_path, bodies)], standard=False)
        return inspect(solution(), book, halting)

    return inspected


@pytest.mark.parametrize(
    ("body", "result", "verdict"),
    [
        ("yield from ()", "inapplicable", "can't tell"),
        (PASS, "passed", "clear"),
        (f"{PASS}; {UNKNOWN}", "cantTell", "can't tell"),
        (f"{UNKNOWN}; {FAIL}; {PASS}", "failed", "not clear"),
    ],
)
def test_a_rule_is_as_bad_as_its_worst_check(run, body, result, verdict):
    inspection = run({"trial": body})
    (outcome,) = inspection.outcomes
    assert (outcome.result.value, inspection.verdict.value) == (result, verdict)


@pytest.mark.parametrize(
    ("body", "reason"),
    [
        ("yield 1 / 0", "ZeroDivisionError"),
        (f"{FAIL}; raise RuntimeError('lost')", "RuntimeError: lost"),
        ("yield 'all is well'", "not a Check"),
        ("yield at_most(1, 2, 'm', WHERE, WORDS)._replace(result='passed')", "result"),
        ("yield limits['none']", "KeyError"),
        ("def again(): again()\n    yield again()", "RecursionError"),
        ("yield at_most('5 m', limits['most'], 'm', WHERE, WORDS)", "TypeError"),
    ],
)
def test_a_broken_rule_is_untested_and_hides_nothing(run, body, reason):
    inspection = run({"broken": body, "sound": FAIL})
    broken, sound = inspection.outcomes
    assert broken.result is Result.UNTESTED
    assert reason in broken.reason
    assert not broken.findings
    assert [f.rule for f in inspection.findings] == ["sound"]
    assert sound.result is Result.FAILED


def test_a_broken_rule_is_never_clear(run):
    assert run({"broken": "yield 1 / 0", "sound": PASS}).verdict is Verdict.CANT_TELL


def test_the_reason_names_the_line_and_no_path(run, tmp_path):
    (outcome,) = run({"broken": "yield 1 / 0"}).outcomes
    line = next(i for i, t in enumerate((tmp_path / "broken.py").read_text().splitlines(), 1) if "1 / 0" in t)
    assert f"line {line} of the rule" in outcome.reason
    assert str(tmp_path) not in outcome.reason


@pytest.mark.parametrize(
    ("halting", "verdict"),
    [(Grade.DANGER, Verdict.CLEAR), (Grade.WARNING, Verdict.NOT_CLEAR), (Grade.NOTICE, Verdict.NOT_CLEAR)],
)
def test_only_grades_from_the_halting_one_up_halt(run, halting, verdict):
    assert run({"trial": FAIL}, halting).verdict is verdict


def test_a_check_may_have_a_grade_of_its_own(run):
    body = 'yield at_most(20, 10, "m", WHERE, WORDS, grade=Grade.NOTICE)'
    inspection = run({"trial": body})
    assert inspection.findings[0].grade is Grade.NOTICE
    assert inspection.verdict is Verdict.CLEAR


def test_findings_stand_in_a_total_order(run):
    mild = 'yield at_most(90, 10, "m", WHERE, WORDS, grade=Grade.CAUTION)'
    inspection = run({"c": mild, "b": f"{UNKNOWN}; {FAIL}", "a": checking(15.0)})
    seen = [(f.rule, f.result.value) for f in inspection.findings]
    assert seen == [("b", "failed"), ("a", "failed"), ("b", "cantTell"), ("c", "failed")]
    assert len({f.order for f in inspection.findings}) == len(inspection.findings)


def test_outcomes_stand_by_name_and_can_be_sent_to_another_process(run):
    inspection = run({"b": FAIL, "a": PASS})
    assert [o.rule for o in inspection.outcomes] == ["a", "b"]
    assert pickle.loads(pickle.dumps(inspection)) == inspection
