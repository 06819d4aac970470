"""Waivers and rules set aside: what is waived stays in sight, what can't be waived isn't, and what is stale is told."""

from datetime import date

import pytest

from riglint.house.context import Contexts
from riglint.outcome import Grade, Result, Verdict
from riglint.report.words import message
from riglint.solve.solve import solve
from tests.house.rigs import PLAN, TODAY, house, inspection, of, waiver

OWN = "house-files"


def test_a_waived_finding_stays_in_sight_and_does_not_halt(tmp_path):
    plan = house(tmp_path, waiver())
    found = inspection(plan)
    [finding] = of(found, "warning")
    assert finding.result is Result.FAILED
    assert (finding.waived.reason, finding.waived.allowed_by, finding.waived.until) == (
        "tested", "foreman", "2026-06-01",
    )  # fmt: skip
    assert found.verdict is Verdict.CLEAR
    assert of(found, OWN) == []


def test_without_the_waiver_it_halts(tmp_path):
    found = inspection(house(tmp_path, ""))
    assert [f.waived for f in of(found, "warning")] == [None]
    assert found.verdict is Verdict.NOT_CLEAR


def test_what_cant_be_told_can_be_waived(tmp_path):
    plan = house(tmp_path, waiver("unknown"), rules=("unknown", "good"))
    assert inspection(plan).verdict is Verdict.CLEAR


@pytest.mark.parametrize(
    ("until", "today", "counts"),
    [
        ("2026-06-01", date(2026, 5, 31), True),
        ("2026-06-01", date(2026, 6, 1), True),
        ("2026-06-01", date(2026, 6, 2), False),
        ("2026-6-1", date(2026, 5, 1), False),
        ("2026-06-31", date(2026, 5, 1), False),
        ("June 2026", date(2026, 5, 1), False),
        ("forever", date(2026, 5, 1), False),
        ("2026-06-01", None, False),
    ],
)
def test_the_last_day(tmp_path, until, today, counts):
    found = inspection(house(tmp_path, waiver(until=until)), today)
    [finding] = of(found, "warning")
    assert (finding.waived is not None) is counts
    assert found.verdict is (Verdict.CLEAR if counts else Verdict.NOT_CLEAR)
    assert [(f.grade, f.result) for f in of(found, OWN)] == ([] if counts else [(Grade.CAUTION, Result.FAILED)])


def test_a_number_where_a_day_belongs_counts_as_gone_by(tmp_path):
    found = inspection(house(tmp_path, waiver().replace("'2026-06-01'", "2099")))
    assert len(of(found, OWN)) == 1


def test_a_danger_is_never_waived(tmp_path):
    found = inspection(house(tmp_path, waiver("danger"), rules=("danger", "good")))
    [finding] = of(found, "danger")
    assert finding.waived is None
    assert found.verdict is Verdict.NOT_CLEAR
    [own] = of(found, OWN)
    assert own.grade is Grade.WARNING
    assert "DANGER" in own.check.message


@pytest.mark.parametrize(
    "other",
    [
        {"component": "bow"},
        {"component": "connector bow"},
        {"component": "/connectors/bow"},
        {"plan": "jobs/2026/ditch.yaml"},
        {"plan": "jobs/*/*.yaml"},
        {"plan": "**/ditch.yaml"},
        {"plan": "**"},
        {"plan": "Van out of a ditch"},
    ],
)
def test_how_a_waiver_may_name_what_it_is_for(tmp_path, other):
    [finding] = of(inspection(house(tmp_path, waiver(**other))), "warning")
    assert finding.waived is not None


@pytest.mark.parametrize(
    "other",
    [
        {"plan": "ditch.yaml"},
        {"plan": "2026/ditch.yaml"},
        {"plan": "jobs/*.yaml"},
        {"plan": "jobs"},
        {"plan": "*"},
        {"plan": "JOBS/2026/ditch.yaml"},
        {"plan": "../jobs/2026/ditch.yaml"},
        {"plan": "van out of a ditch"},
    ],
)
def test_a_waiver_for_another_plan_is_of_no_account(tmp_path, other):
    found = inspection(house(tmp_path, waiver(**other)))
    assert of(found, "warning")[0].waived is None
    assert of(found, OWN) == []


@pytest.mark.parametrize(
    ("rule", "component", "says"),
    [
        ("good", "bow", "nothing was found"),
        ("wrning", "bow", "none of the rulebooks"),
        ("warning", "bwo", "not in this plan"),
        ("house-files", "bow", "none of the rulebooks"),
    ],
)
def test_a_waiver_that_is_good_for_nothing_is_told(tmp_path, rule, component, says):
    found = inspection(house(tmp_path, waiver(rule, component=component)))
    [own] = of(found, OWN)
    assert own.grade is Grade.NOTICE
    assert says in own.check.message
    assert of(found, "warning")[0].waived is None


def test_what_is_wrong_with_a_waiver_points_at_its_component(tmp_path):
    [own] = of(inspection(house(tmp_path, waiver("good"))), OWN)
    assert own.check.where.pointer == "/connectors/bow"


def test_a_notice_halts_where_notices_halt(tmp_path):
    plan = house(tmp_path, waiver("good"), rules=("good",))
    assert inspection(plan).verdict is Verdict.CLEAR
    assert inspection(plan, halting=Grade.NOTICE).verdict is Verdict.NOT_CLEAR


def test_a_waiver_of_a_broken_rule_is_not_called_unused(tmp_path):
    plan = house(tmp_path, waiver("broken"))
    (tmp_path / "rules" / "broken.py").write_text("1 / 0")
    found = inspection(plan)
    assert [o.rule for o in found.untested] == ["broken"]
    assert of(found, OWN) == []


def test_a_rule_set_aside_is_told_with_its_reason_and_does_not_halt(tmp_path):
    found = inspection(house(tmp_path, "set_aside: {warning: measured by hand}\n"))
    [finding] = of(found, "warning")
    assert finding.waived.sets_aside
    assert finding.waived.reason == "measured by hand"
    assert found.verdict is Verdict.CLEAR
    assert [(one.rule, one.reason) for one in found.set_aside] == [("warning", "measured by hand")]


def test_a_rule_set_aside_is_told_though_it_finds_nothing(tmp_path):
    found = inspection(house(tmp_path, "set_aside: {good: measured by hand}\n"))
    assert [one.rule for one in found.set_aside] == ["good"]


@pytest.mark.parametrize(
    ("rule", "says"), [("danger", "it found a DANGER"), ("unknown_danger", "it can't rule a DANGER out")]
)
def test_a_danger_is_never_set_aside(tmp_path, rule, says):
    found = inspection(house(tmp_path, f"set_aside: {{{rule.replace('_', '-')}: never mind}}\n", rules=(rule, "good")))
    assert of(found, rule.replace("_", "-"))[0].waived is None
    assert found.verdict is Verdict.NOT_CLEAR
    [own] = of(found, OWN)
    assert own.grade is Grade.WARNING
    assert says in message(own.check)


def test_checks_of_waivers_are_no_checks_of_the_rig(tmp_path):
    plan = house(tmp_path, waiver("empty"), rules=())
    (tmp_path / "rules" / "empty.py").write_text(
        '"""Page."""\nfrom riglint.outcome import Basis, Grade\nfrom riglint.rulebook.rule import rule\n'
        '@rule(title="T", grade=Grade.NOTICE, guards="drum", basis=(Basis("derivation", "x"),))\n'
        "def empty(solution, limits):\n    yield from ()\n"
    )
    assert inspection(plan).verdict is Verdict.CANT_TELL


def test_text_of_the_house_file_is_never_taken_for_a_place_to_fill(tmp_path):
    found = inspection(house(tmp_path, waiver(until="{who}", allowed_by="{until}")))
    [own] = of(found, OWN)
    assert ("until", "{who}") in own.check.terms
    assert "{who}" not in own.check.message.replace("{who} had", "")


def test_two_plans_of_one_house_each_have_their_own_waivers(tmp_path):
    plan = house(tmp_path, waiver(plan="jobs/2026/ditch.yaml"))
    other = plan.with_name("other.yaml")
    other.write_text(PLAN.replace("Van out of", "Van into"))
    assert of(inspection(plan), "warning")[0].waived is not None
    assert of(inspection(other), "warning")[0].waived is None


def test_a_plan_outside_the_houses_folder_is_named_by_its_title_alone(tmp_path):
    inside = house(tmp_path / "house", waiver(plan="**"))
    plan = tmp_path / "ditch.yaml"
    plan.write_text(inside.read_text())
    file = tmp_path / "house" / "house.yaml"
    for text, counts in ((file.read_text(), False), (file.read_text().replace("'**'", "Van out of a ditch"), True)):
        file.write_text(text)
        context = Contexts(house=file, today=TODAY, standard=False).of(plan)
        found = context.inspect(solve(context.load(PLAN, "plan.yaml").rig))
        assert (of(found, "warning")[0].waived is not None) is counts
