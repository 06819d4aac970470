"""The call that the page makes: its report is the command's, its edits are made, and nothing breaks it."""

import json
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from riglint.tablet.engine import Engine
from tests.tablet.conftest import EXAMPLES

PLANS = sorted(EXAMPLES.glob("*.yaml"))


@pytest.fixture(scope="module")
def engine(tmp_path_factory: pytest.TempPathFactory) -> Engine:
    return Engine(tmp_path_factory.mktemp("built-in"))


def ask(engine: Engine, text: str, **options: Any) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(engine.work(text, json.dumps(options)))
    return answer


def test_an_answer_holds_all_that_the_page_shows(engine: Engine) -> None:
    text = (EXAMPLES / "fruit-truck.yaml").read_text("utf-8")
    answer = ask(engine, text, name="fruit-truck.yaml")
    sheet = answer["checklist"]["sheet"]
    assert sheet["plan"]["sha256"] == sha256(text.encode()).hexdigest()
    assert answer["picture"].startswith("<svg")
    assert not sheet["may_be_clear"]
    assert any("WARNING" in reason for reason in sheet["why_not"])
    assert answer["verdict_words"] == "do not pull as planned"
    assert {"figures", "run", "stations"} <= answer["stages"][0].keys()
    assert any(finding["working"] for finding in answer["findings"])


@pytest.mark.parametrize("plan", PLANS, ids=lambda p: p.stem)
def test_a_plan_may_be_signed_as_clear_only_if_it_is(engine: Engine, plan: Path) -> None:
    answer = ask(engine, plan.read_text("utf-8"), name=plan.name)
    sheet = answer["checklist"]["sheet"]
    assert sheet["may_be_clear"] == (answer["verdict"] == "clear")
    assert bool(sheet["why_not"]) == (answer["verdict"] != "clear")
    told = [f for f in answer["findings"] if f["result"] in ("failed", "cantTell")]
    if answer["verdict"] == "clear":
        assert ("heed" in answer["verdict_words"]) is bool(told)


def test_an_edit_goes_into_the_text_before_it_is_checked(engine: Engine) -> None:
    text = (EXAMPLES / "straight-pull.yaml").read_text("utf-8")
    answer = ask(engine, text, edits=[{"op": "set", "at": "/connectors/bow_1/working_load", "value": "1 kN"}])
    assert "working_load: 1 kN" in answer["text"]
    assert answer["verdict"] == "not clear"


def test_an_edit_without_a_place_is_told_and_changes_nothing(engine: Engine) -> None:
    text = (EXAMPLES / "straight-pull.yaml").read_text("utf-8")
    answer = ask(engine, text, edits=[{"op": "remove", "at": "/points/none"}])
    assert answer["unedited"]
    assert answer["text"] == text


@pytest.mark.parametrize("text", ["", "[", "- 1", "null", "rig_plan: 1", "a: 1\na: 2", "\ud800", "x: &a 1"])
def test_what_cant_be_read_is_told_with_its_lines(engine: Engine, text: str) -> None:
    answer = ask(engine, text)
    assert answer["verdict"] == "can't be read"
    assert answer["verdict_words"] == "the plan has places to mend"
    assert answer["problems"] or answer["broke"]


def test_data_comes_back_as_long_as_it_is_yaml(engine: Engine) -> None:
    assert ask(engine, "rig_plan: 1\ntitle: begun\n")["data"] == {"rig_plan": 1, "title": "begun"}
    assert ask(engine, "rig_plan: [\n")["data"] is None


def test_a_kit_is_taken_in_for_plans_that_name_it(tmp_path: Path) -> None:
    engine = Engine(tmp_path)
    kit = (EXAMPLES / "company" / "kit.yaml").read_text("utf-8")
    taken = json.loads(engine.keep("kit.yaml", kit))
    number = next(n for n, gear in taken["gear"].items() if gear["is"] == "connector")
    text = (EXAMPLES / "straight-pull.yaml").read_text("utf-8")
    edits = [
        {"op": "set", "at": "/kit", "value": "kit.yaml"},
        {"op": "set", "at": "/connectors/bow_1", "value": {"from_kit": number}},
    ]
    answer = ask(engine, text, edits=edits)
    assert answer["verdict"] != "can't be read", answer["problems"]
    assert answer["data"]["connectors"]["bow_1"] == {"from_kit": number}
    assert json.loads(engine.keep("kit.yaml", "rig_kit: 1\n"))["problems"]


def test_a_kit_cant_be_written_outside(tmp_path: Path) -> None:
    engine = Engine(tmp_path / "in")
    (tmp_path / "in").mkdir()
    engine.keep("../../kit.yaml", (EXAMPLES / "company" / "kit.yaml").read_text("utf-8"))
    assert [p.name for p in (tmp_path / "in").iterdir()] == ["kit.yaml"]


def test_remedies_are_those_of_the_command_with_the_text_as_it_would_be(engine: Engine) -> None:
    text = (EXAMPLES / "fruit-truck.yaml").read_text("utf-8")
    heard: list[int] = []
    found = json.loads(engine.remedies(text, json.dumps({"name": "x.yaml"}), heard.append))["remedies"]
    assert heard == list(range(1, len(heard) + 1))
    findings = ask(engine, text, name="x.yaml")["findings"]
    for remedy in found:
        finding = findings[remedy["finding"]]
        assert finding["result"] == "failed"
        if remedy["text"] is None:
            continue
        assert "# A fruit truck is wheel-deep" in remedy["text"]
        after = ask(engine, remedy["text"], name="x.yaml")
        assert after["verdict"] == remedy["verdict"]
        same = [f for f in after["findings"] if f["rule"] == finding["rule"] and f["result"] == "failed"]
        assert finding["check"]["message"] not in [f["check"]["message"] for f in same]
    assert any(remedy["text"] for remedy in found)
    heard_of_one: list[int] = []
    last = found[-1]["finding"]
    one = json.loads(engine.remedies(text, json.dumps({"name": "x.yaml", "finding": last}), heard_of_one.append))
    assert one["remedies"] == [remedy for remedy in found if remedy["finding"] == last]
    assert len(heard_of_one) < len(heard)
