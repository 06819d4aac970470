"""The command with remedies, headroom and writing."""

import json
import shutil

import pytest
from jsonschema import Draft202012Validator

from riglint.shipped import shipped
from tests.commands.test_commands import ROOT, riglint

TWISTED = "examples/twisted-join.yaml"


@pytest.fixture
def plan(tmp_path):
    return shutil.copy(ROOT / TWISTED, tmp_path / "plan.yaml")


def test_nothing_is_worked_out_unasked():
    assert b"put it right" not in riglint("prepull", TWISTED).stdout


def test_text():
    out = riglint("prepull", TWISTED, "--remedies", "--headroom").stdout.decode()
    assert "1. Take the load off, open join_1 and set it again" in out
    assert "Headroom, before the verdict is better than not clear:" in out


def test_two_findings_of_one_rule_on_one_thing_are_told_apart():
    out = riglint("prepull", "examples/class/plans/student-1.yaml", "--remedies").stdout.decode()
    assert "DANGER drum-wraps, drum:\n" in out
    assert "DANGER drum-wraps, drum, fastening:\n" in out
    assert "drum-wraps (drum, fastening) and overturning" in out
    out = riglint("prepull", "examples/class/plans/student-8.yaml", "--remedies").stdout.decode()
    assert "working-load (connector shackle_x, expected pull), too." in out
    assert "working-load (connector shackle_x, winch stalled), too." in out


def test_json_follows_the_schema():
    plans = (TWISTED, "examples/fruit-truck.yaml", "examples/two-parts.yaml", "examples/three-corners.yaml")
    ran = riglint("prepull", *plans, "--remedies", "--headroom", "--as", "json")
    report = json.loads(ran.stdout)
    Draft202012Validator(json.loads((shipped("schemas") / "report.schema.json").read_text())).validate(report)
    twisted, fruit, two, corners = report["plans"]
    first = twisted["remedies"][0]
    assert (first["number"], first["patch"][0]["op"]) == (1, "test")
    assert twisted["findings"][first["finding"]]["rule"] == "twisted-join"
    assert any(not remedy["patch"] for remedy in fruit["remedies"])
    assert {one["of"] for one in two["headroom"]} == {"resistance", "slope", "swing"}
    sharp = next(one for one in corners["headroom"] if (one["name"], one["side"]) == ("sharp", "wider"))
    assert (sharp["of"], sharp["then"], sharp["anchor"]["point"]) == ("angle", "clear", "bollard_3")
    assert sharp["change"] == pytest.approx(sharp["changes_at"] - sharp["now"], rel=1e-4)


def test_a_remedy_is_written_and_the_plan_reported_as_it_is_then(plan):
    old = plan.read_text()
    ran = riglint("prepull", str(plan), "--write", "1")
    new = plan.read_text()
    assert ran.stdout.decode().startswith(f"Written into {plan}: take the load off")
    assert b"\nCLEAR" in ran.stdout
    assert [a for a, b in zip(old.splitlines(), new.splitlines(), strict=True) if a != b and "twist" not in a] == []


@pytest.mark.parametrize("words", [["--write", "99"], ["--write", "0"]])
def test_a_remedy_that_is_not_there(plan, words):
    old = plan.read_bytes()
    ran = riglint("prepull", str(plan), *words)
    assert (ran.returncode, ran.stdout) == (2, b"")
    assert b"nothing was written" in ran.stderr
    assert plan.read_bytes() == old


def test_only_one_file_is_written():
    assert riglint("prepull", TWISTED, TWISTED, "--write", "1").returncode == 2
    assert riglint("prepull", "-", "--write", "1", stdin=b"x: 1\n").returncode == 2


def test_nobody_is_moved_by_millimetres():
    """The spotter stands 71 mm too near: half a step is the least that anybody can be told."""
    out = riglint("prepull", "examples/join-meets-ring.yaml", "--remedies").stdout.decode()
    assert "Move spotter by 0.5 m, to [7.6 m, -42.4 m]." in out


def test_a_figure_says_its_unit_once():
    out = " ".join(riglint("prepull", "examples/picket-holdfast.yaml", "--remedies").stdout.decode().split())
    assert "Then clear: 2 parts before, 1 part after;" in out
    out = " ".join(riglint("prepull", "examples/five-parts.yaml", "--remedies").stdout.decode().split())
    assert "least on the drum 29.6 wraps before, 35.6 wraps after." in out


def test_a_rope_that_runs_out_leaves_no_less_than_nothing(tmp_path):
    plan = tmp_path / "plan.yaml"
    text = (ROOT / "examples" / "three-parts-short-line.yaml").read_text("utf-8")
    assert "length: 54 m" in text
    plan.write_text(text.replace("length: 54 m", "length: 46 m"), "utf-8")
    out = " ".join(riglint("prepull", str(plan), "--remedies").stdout.decode().split())
    assert "least on the drum 0 wraps before" in out
    assert "drum -" not in out


def test_headroom_of_a_sound_plan_is_how_long_it_stays_so():
    out = riglint("prepull", "examples/straight-pull.yaml", "--headroom").stdout.decode()
    assert "Headroom, before the verdict is no longer clear:" in out
