"""Three levels: the answer is not given before it is asked for."""

import math
import re
from functools import cache

import pytest

from riglint.debrief.debrief import Debrief, debrief, sections
from riglint.debrief.lessons import Level, takes
from riglint.debrief.questions import ANY_QUESTION, QUESTIONS, WHERE, question
from riglint.debrief.text import report
from riglint.outcome import Result
from riglint.report.words import compared, fill
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.rule import GUARDS
from tests.debrief.handing_in import PLANS, ROOT, example, handed

SHIPPED = sorted(path.name for path in (ROOT / "examples").glob("*.yaml"))
ALL = [*(f"plans/{path.name}" for path in PLANS), *SHIPPED]
_PLACE = re.compile(r"\([^()\s]+:\d+:\d+\)")


@cache
def judged(name: str) -> Debrief:
    return debrief(example(name), example("model.yaml"), None)


@cache
def told(name: str, level: Level) -> tuple[Debrief, str]:
    shown = [entry for section in sections(judged(name), level) for entry in section.entries]
    return judged(name), "\n".join(line for entry in shown for line in (entry.text, *entry.inner))


def without_names(text: str, one: Debrief) -> str:
    """Without places and without names that the student wrote, which may hold digits."""
    assert one.handed.inspected is not None
    names = set(re.findall(r"[A-Za-z][\w-]*\d[\w-]*", one.handed.inspected.document.text))
    text = _PLACE.sub("", text)
    for name in sorted(names, key=len, reverse=True):
        text = text.replace(name, "")
    return text


@pytest.mark.parametrize("level", [1, 2])
@pytest.mark.parametrize("name", ALL)
def test_no_number_that_answers(name, level):
    one, text = told(name, level)
    assert not re.findall(r"\d", without_names(text, one))


@pytest.mark.parametrize("level", [1, 2])
@pytest.mark.parametrize("name", ALL)
def test_no_remedy_no_message_and_no_name_of_a_rule_that_failed(name, level):
    one, text = told(name, level)
    inspected = one.handed.inspected
    assert inspected is not None
    text = _PLACE.sub("", text)  # an example's file may have the name of a rule
    for finding in inspected.inspection.findings:
        check = finding.check
        for said in (check.remedy, check.message):
            assert not said or fill(said, check, inspected.system) not in text
        if finding.result is Result.FAILED:
            assert finding.rule not in text
            assert finding.title not in text


@pytest.mark.parametrize("name", ALL)
def test_each_level_says_more_of_every_finding(name):
    one, first = told(name, 1)
    second, third = told(name, 2)[1], told(name, 3)[1]
    inspected = one.handed.inspected
    assert inspected is not None
    for finding in inspected.inspection.findings:
        if finding.result is not Result.FAILED:
            continue
        place = inspected.place(finding.check.where.pointer)
        assert place in first
        assert question(finding.rule) in second
        assert question(finding.rule) not in first
        assert finding.title in third
        assert f"riglint rulebook {finding.rule}" in third


def test_the_working_in_the_students_own_numbers():
    text = told("plans/student-1.yaml", 3)[1]
    assert "Principle: Wraps that must stay on the drum. The rope's fastening" in text
    assert "Working: wraps = rope_on_drum / one_wrap = " in text
    assert re.search(r"To be right: no less than 25 wraps\. Yours is [\d.]+ wraps: [\d.]+ wraps too little\.", text)
    assert "Put right: Keep " in text
    assert "Technical Manual 9-2320-279-10-2" in text
    assert "The rule's page: riglint rulebook drum-wraps" in text


@pytest.mark.parametrize("name", ALL)
def test_what_it_takes_names_both_figures(name):
    inspected = example(name).inspected
    assert inspected is not None
    for finding in inspected.inspection.findings:
        check = finding.check
        if finding.result is Result.FAILED and check.measured is not None and check.limit is not None:
            [text] = takes(check, inspected.system)
            assert all(figure in text for figure in compared(check, inspected.system))


def test_the_report_says_how_to_ask_for_more(tmp_path):
    one = debrief(example("plans/student-1.yaml"), None, None)
    assert "--hints 2" in report(one, 1)
    assert "--hints 3" in report(one, 2)
    assert "--hints" not in report(one, 3)
    bad = debrief(handed(tmp_path, "rig_plan: 1\n"), None, None)
    assert "--hints" not in report(bad, 1)


def test_what_is_unsaid_is_named_only_with_the_working():
    first = told("ten-lines.yaml", 1)[1]
    third = told("ten-lines.yaml", 3)[1]
    assert "Something isn't said about the winch" in first
    assert "stall_pull" not in first
    assert "winch: give `stall_pull`" in third


def test_every_standard_rule_has_a_question():
    book = standard_rulebook()
    slugs = {rule.slug for rule in book.rules} | {broken.slug for broken in book.broken}
    assert slugs - set(QUESTIONS) == set()
    assert set(QUESTIONS) - slugs == set()
    assert set(WHERE) == set(GUARDS)
    assert question("a-company-rule") == ANY_QUESTION


@pytest.mark.parametrize("text", [*QUESTIONS.values(), ANY_QUESTION])
def test_questions_ask(text):
    assert text.endswith("?")
    assert not re.search(r"\d", text)
    assert len(set(QUESTIONS.values())) == len(QUESTIONS)


def test_what_is_right_is_said():
    """With the working by the rules' names; before, by what they look at: a name that is missing is an answer."""
    first, last = (told("plans/student-3.yaml", level)[1] for level in (1, 3))
    assert "Line for the whole way" in last
    assert "Line for the whole way" not in first
    assert "The line: its rope, its joins, and what it runs over (all of it)" in first
    assert "The shackles, slings and straps (in part)" in first


def test_a_load_is_shown_with_the_legs_that_it_comes_from():
    """Statics: what two tensions with an angle between them come to, from the printed numbers."""
    text = " ".join(told("three-corners.yaml", 3)[1].split())
    number = r"([\d.]+)"
    found = re.search(rf"pull with {number} kN and {number} kN, {number} deg apart: load = [^=]+ = {number} kN", text)
    a, b, angle, load = map(float, found.groups())
    assert math.sqrt(a * a + b * b + 2 * a * b * math.cos(math.radians(angle))) == pytest.approx(load, rel=0.01)
