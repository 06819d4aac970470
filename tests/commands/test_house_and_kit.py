"""House files, kits and the day of the pull, as a user meets them on the command line."""

import json
from datetime import date
from pathlib import Path

import pytest

from tests.commands.test_commands import ROOT, riglint
from tests.house.rigs import house

PLANS = "examples/company/plans"
OVERDUE = f"{PLANS}/hay-trailer-overdue-shackle.yaml"


def test_a_waived_finding_is_shown_as_waived():
    ran = riglint("prepull", OVERDUE, "--on", "2026-12-15")
    assert ran.returncode == 0
    assert b"no findings; 1 waived" in ran.stdout
    assert b"CAUTION (waived): Gear past its inspection" in ran.stdout
    assert b"Waived until 2026-12-15 by head of the yard" in ran.stdout


def test_a_waiver_that_ran_out_is_a_finding():
    ran = riglint("prepull", OVERDUE, "--on", "2026-12-16", "--halt-at", "caution")
    assert ran.returncode == 1
    assert b"the waiver gear-overdue on bow_1 ran out after 2026-12-15" in b" ".join(ran.stdout.lower().split())


def test_what_the_house_changed_is_shown():
    text = riglint("prepull", f"{PLANS}/hay-trailer.yaml", "--on", "2026-11-25").stdout
    assert b"MILDER than the rule's own 15 deg; set by house.yaml" in text
    assert b"Rules set aside by house.yaml:" in text


def test_the_report_for_machines_has_it_too():
    ran = riglint("prepull", OVERDUE, "--on", "2026-12-15", "--as", "json")
    [plan] = json.loads(ran.stdout)["plans"]
    [finding] = plan["findings"]
    assert finding["waived"]["until"] == "2026-12-15"
    assert [one["rule"] for one in plan["set_aside"]] == ["part-adds-nothing"]


def test_without_a_day_it_is_today():
    """The everyday call, which no parser of options sees, has to look at the calendar, too."""
    everyday = riglint("prepull", OVERDUE)
    assert everyday.stdout == riglint("prepull", OVERDUE, "--on", date.today().isoformat()).stdout
    assert b"date was not given" not in everyday.stdout


@pytest.mark.parametrize("day", ["tomorrow", "2026-02-30", "20260301"])
def test_no_day(day):
    assert riglint("prepull", OVERDUE, "--on", day).returncode == 2


def test_a_bad_house_file_is_told_with_its_own_name(tmp_path):
    plan = house(tmp_path, "limit: {}\n")
    ran = riglint("prepull", str(plan), "--as", "json")
    assert ran.returncode == 3
    [problem] = json.loads(ran.stdout)["plans"][0]["problems"]
    assert problem["file"] == str(tmp_path / "house.yaml")


def test_a_kit_and_a_house_may_be_named(tmp_path):
    text = (ROOT / PLANS / "hay-trailer.yaml").read_text()
    plan = tmp_path / "plan.yaml"
    plan.write_text(text)
    assert riglint("prepull", str(plan)).returncode == 3
    kit, house_file = (str(Path("examples/company") / name) for name in ("kit.yaml", "house.yaml"))
    assert riglint("prepull", str(plan), "--kit", kit, "--on", "2026-11-25").returncode == 0
    assert riglint("prepull", str(plan), "--house", house_file, "--on", "2026-11-25").returncode == 0


def test_a_broken_rule_of_the_house_ends_with_four(tmp_path):
    plan = house(tmp_path, "")
    (tmp_path / "rules" / "broken.py").write_text("1 / 0")
    ran = riglint("prepull", str(plan))
    assert ran.returncode == 4
    assert b"Rule broken broke" in ran.stdout


def test_a_drawing_has_gear_of_the_kit():
    assert riglint("draw", f"{PLANS}/hay-trailer.yaml").returncode == 0
