"""The command as a user meets it: in a process of its own."""

import json
import os
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from riglint.version import VERSION
from tests.rulebook.rigs import checking, rulebook_folder

ROOT = Path(__file__).parents[2]
SOUND = "examples/straight-pull.yaml"
TWISTED = "examples/twisted-join.yaml"


def riglint(*words: str, stdin: bytes = b"", **env: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "riglint", *words],
        cwd=ROOT, input=stdin, capture_output=True, check=False, env=os.environ | env,
    )  # fmt: skip


@pytest.fixture
def bad(tmp_path):
    file = tmp_path / "bad.yaml"
    file.write_text("rig_plan: 1\ntitle: [\n")
    return str(file)


@pytest.fixture
def broken(tmp_path):
    return str(rulebook_folder(tmp_path / "broken", {"broken": "yield 1 / 0"}, name="broken"))


def test_clear():
    ran = riglint("prepull", SOUND)
    assert (ran.returncode, ran.stderr) == (0, b"")
    assert ran.stdout.startswith(b"CLEAR")


def test_not_clear():
    ran = riglint("prepull", TWISTED)
    assert (ran.returncode, ran.stdout[:9]) == (1, b"NOT CLEAR")


def test_what_cant_be_told_halts():
    ran = riglint("prepull", "examples/ten-lines.yaml")
    assert (ran.returncode, ran.stdout[:10]) == (1, b"CAN'T TELL")


def test_findings_below_the_halting_grade_do_not_halt(tmp_path):
    folder = rulebook_folder(tmp_path, {"trial": checking(20.0)})
    call = ("prepull", SOUND, "--rulebook", str(folder))
    assert riglint(*call).returncode == 1
    assert riglint(*call, "--halt-at", "danger").returncode == 0


@pytest.mark.parametrize(
    "words",
    [["prepull"], ["prepull", "--as", "pdf", SOUND], ["lift", SOUND], ["prepull", SOUND, "--halt-at", "RED"],
     ["prepull", SOUND, "--rulebook", "examples"], ["rulebook", "no-such-rule"], ["schemas", "no-such"]],
)  # fmt: skip
def test_a_wrong_call(words):
    ran = riglint(*words)
    assert ran.returncode == 2
    assert ran.stderr
    assert b"Traceback" not in ran.stderr


@pytest.mark.parametrize("plan", ["examples/none.yaml", "examples", "", "nul\0byte"])
def test_what_cant_be_opened(plan):
    if "\0" in plan:
        from riglint.commands.prepull import Call, prepull

        assert prepull(Call((plan,))) == 3
        return
    ran = riglint("prepull", plan)
    assert ran.returncode == 3
    assert b"can't be opened" in ran.stderr
    assert b"Traceback" not in ran.stderr


def test_every_problem_of_a_plan_that_cant_be_read(bad):
    ran = riglint("prepull", bad)
    assert ran.returncode == 3
    assert f"{bad}:".encode() in ran.stdout


def test_a_broken_rule_ends_in_4_and_hides_nothing(broken):
    ran = riglint("prepull", TWISTED, "--rulebook", broken)
    assert ran.returncode == 4
    assert b"Rule broken broke" in ran.stdout
    assert b"twisted-join" in ran.stdout


def test_of_several_plans_all_are_reported_and_the_gravest_code_stands(bad):
    ran = riglint("prepull", SOUND, bad, TWISTED, "examples/none.yaml")
    assert ran.returncode == 3
    assert b"CLEAR: " in ran.stdout
    assert b"CAN'T BE READ" in ran.stdout
    assert TWISTED.encode() in ran.stdout
    assert b"none.yaml" in ran.stderr


def test_standard_input_with_a_name():
    text = (ROOT / SOUND).read_bytes()
    assert b"\nfield.yaml:" in riglint("prepull", "-", "--name", "field.yaml", stdin=text).stdout
    assert riglint("prepull", "-", stdin=text).returncode == 0
    assert riglint("prepull", "-", stdin=b"\xff\xfe\x00").returncode == 3


def test_the_everyday_call_and_the_parsed_one_agree():
    assert riglint("prepull", TWISTED).stdout == riglint("prepull", TWISTED, "--as", "text").stdout


def test_json_is_one_document_for_all_plans(bad):
    ran = riglint("prepull", SOUND, bad, "examples/none.yaml", "--as", "json")
    verdicts = [plan["verdict"] for plan in json.loads(ran.stdout)["plans"]]
    assert verdicts == ["clear", "can't be read", "can't be read"]


@pytest.mark.parametrize(
    ("choice", "env", "coloured"),
    [("auto", {}, False), ("always", {}, True), ("never", {}, False), ("always", {"NO_COLOR": "1"}, True)],
)
def test_colour(choice, env, coloured):
    assert (b"\x1b[" in riglint("prepull", SOUND, "--colour", choice, **env).stdout) is coloured


@pytest.mark.parametrize(
    ("env", "coloured"),
    [({}, True), ({"NO_COLOR": "1"}, False), ({"NO_COLOR": ""}, True), ({"TERM": "dumb"}, False)],
)
def test_colour_on_a_terminal(env, coloured, monkeypatch):
    from riglint.commands.output import ink

    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    for name, value in env.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    assert ink("auto").on is coloured


def test_a_reader_that_leaves_changes_nothing():
    run = subprocess.Popen(
        [sys.executable, "-m", "riglint", "prepull", *[TWISTED] * 20, "--workings"],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    assert run.stdout
    assert run.stderr
    run.stdout.read(10)
    run.stdout.close()
    assert run.stderr.read() == b""
    run.stderr.close()
    assert run.wait() == 1


def test_an_output_that_takes_no_unicode(tmp_path):
    plan = tmp_path / "plan.yaml"
    plan.write_text((ROOT / SOUND).read_text().replace("title: ", "title: Ünïcode \u2192 ", 1))
    ran = riglint("prepull", str(plan), PYTHONIOENCODING="ascii")
    assert (ran.returncode, ran.stderr) == (0, b"")


def test_version_is_the_projects():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    assert project["version"] == VERSION
    assert riglint("--version").stdout == f"riglint {VERSION}\n".encode()


def test_the_rulebook_is_listed():
    listed = riglint("rulebook")
    assert (listed.returncode, b"drum-wraps" in listed.stdout) == (0, True)
    rules = json.loads(riglint("rulebook", "--as", "json").stdout)["rules"]
    assert all(rule["basis"] and rule["page"] and rule["grade"] for rule in rules)


def test_a_rules_page():
    page = riglint("rulebook", "drum-wraps")
    assert page.returncode == 0
    assert b"Basis:" in page.stdout
    (rule,) = json.loads(riglint("rulebook", "drum-wraps", "--as", "json").stdout)["rules"]
    assert rule["rule"] == "drum-wraps"


def test_the_nearest_rule_is_named():
    assert b"drum-wraps" in riglint("rulebook", "drum-wrap").stderr


def test_schemas_are_listed_printed_and_current():
    assert b"report\n" in riglint("schemas").stdout
    assert json.loads(riglint("schemas", "report").stdout)["title"]
    assert riglint("schemas", "--check").returncode == 0


def test_schemas_are_written_where_they_differ(tmp_path, monkeypatch):
    from riglint.commands import schemas

    monkeypatch.setattr(schemas, "shipped", lambda name: tmp_path)
    assert schemas.run(None, write=False, check=True) == 1
    assert schemas.run(None, write=True, check=False) == 0
    assert schemas.run(None, write=False, check=True) == 0


def test_a_station_names_the_gravest_finding_first():
    text = " ".join(riglint("prepull", "examples/up-the-bank.yaml").stdout.decode().split())
    assert "(see WARNING point-direction, CAUTION pull-off-line, NOTICE methods-disagree)" in text


def test_estimate_reports_in_the_units_that_were_asked_for():
    """26 000 lb to its wheels: 26 000 lbf and a tenth, over two parts, as Army lesson 63H34F01 has the ladder."""
    words = ("--weight", "26000 lb", "--mired", "wheel depth", "--slope", "0 deg", "--rated-pull", "20000 lbf",
             "--rated-layer", "1", "--reports-in")  # fmt: skip
    assert b"line pull 14,300 lbf" in riglint("estimate", *words, "imperial").stdout
    assert b"line pull 63.6 kN" in riglint("estimate", *words, "metric").stdout


def test_estimate_says_what_has_to_be_inspected_by_the_day_that_is_named():
    """The class's kit was looked over on 2 March for six months."""
    words = ("--kit", "examples/class/kit.yaml", "--resistance", "60 kN", "--distance", "6 m", "--reach", "25 m")
    assert b"have it inspected first" not in riglint("estimate", *words, "--on", "2026-09-02").stdout
    assert b"ran out after 2026-09-02" in riglint("estimate", *words, "--on", "2026-09-03").stdout
