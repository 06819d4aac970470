"""What is new, worse, better, unchanged and gone since an earlier review, and that a folder never gets worse unseen."""

import json

import pytest

from riglint.report.reviewed import Reviewed, head
from riglint.report.sarif import FINGERPRINT
from riglint.review.record import bare
from riglint.review.since import SinceError, compared
from tests.house.rigs import house, waiver
from tests.review.rigs import EXAMPLES, code, folder_of_plans, plans_of, report

FIVE = (EXAMPLES / "five-parts.yaml").read_text("utf-8")


@pytest.fixture
def folder(tmp_path):
    plans = tmp_path / "plans"
    plans.mkdir()
    (plans / "five.yaml").write_text(FIVE, "utf-8")
    (plans / "twisted.yaml").write_bytes((EXAMPLES / "twisted-join.yaml").read_bytes())
    (tmp_path / "old.sarif").write_text(report([plans], "sarif"), "utf-8")
    return plans


def since(folder, **asked):
    old = folder.parent / "old.sarif"
    return plans_of(report([folder], since=old, **asked)), code([folder], since=old, only_new=True)


def states(plan):
    return {finding["state"] for finding in plan["findings"]}


def test_nothing_changed_halts_nothing(folder):
    assert code([folder]) == 1
    found, ends = since(folder)
    assert ends == 0
    assert {state for plan in found.values() for state in states(plan)} == {"unchanged"}
    assert not any(plan["gone"] for plan in found.values())


def test_lines_that_move_and_entries_in_another_order_change_nothing(folder):
    lines = FIVE.splitlines()
    first = next(i for i, line in enumerate(lines) if line.startswith("connectors:"))
    last = next((i for i, line in enumerate(lines[first + 1 :], first + 1) if line[:1].strip()), len(lines))
    block = lines[first:last]
    moved = [*lines[:2], "", "# moved", "", *lines[2:first], *lines[last:], *block]
    (folder / "five.yaml").write_text("\n".join(moved) + "\n", "utf-8")
    found, ends = since(folder)
    assert (ends, states(found["five.yaml"]), found["five.yaml"]["gone"]) == (0, {"unchanged"}, [])


def test_a_new_finding_halts(folder):
    (folder / "third.yaml").write_bytes((EXAMPLES / "three-corners.yaml").read_bytes())
    found, ends = since(folder)
    assert (ends, states(found["third.yaml"]), states(found["five.yaml"])) == (1, {"new"}, {"unchanged"})


@pytest.mark.parametrize(("form", "says"), [("text", "  2 new"), ("html", "<b>2 new</b> since the earlier review")])
def test_the_plan_s_own_line_says_that_it_has_something_new(folder, form, says):
    """Among forty rigs nobody opens each to find the one that a halt is for."""
    (folder / "third.yaml").write_text(FIVE.replace("title: ", "title: another, "), "utf-8")
    lines = report([folder], form, since=folder.parent / "old.sarif").splitlines()
    rows = [line for line in lines if "new" in line and ".yaml" in line and "NEW:" not in line]
    count = len(plans_of(report([folder]))["third.yaml"]["findings"])
    assert [says.replace("2", str(count)) in row for row in rows if "third.yaml" in row] == [True]
    assert not [row for row in rows if "twisted.yaml" in row]


@pytest.mark.parametrize(
    ("rated", "state", "ends"), [("1 kN", "worse", 1), ("249 kN", "worse", 1), ("251 kN", "better", 0)]
)
def test_a_finding_that_got_worse_halts_though_it_is_not_new(folder, rated, state, ends):
    assert "rated: 250 kN" in FIVE
    (folder / "five.yaml").write_text(FIVE.replace("rated: 250 kN", f"rated: {rated}"), "utf-8")
    found, ended = since(folder)
    rock = {f["state"] for f in found["five.yaml"]["findings"] if f["rule"] == "anchor-rating"}
    assert (ended, rock) == (ends, {state})


@pytest.mark.parametrize(
    ("then", "now", "state"),
    [
        (5.0, "without end", "worse"), ("without end", "without end", "unchanged"), ("without end", 5.0, "better"),
        (None, "without end", "worse"),
    ],
)  # fmt: skip
def test_a_use_without_end_is_worse_than_any_and_no_use_at_all_is_not(then, now, state):
    told = {"rule": "r", "fingerprint": "f", "grade": "WARNING", "result": "failed", "waived": None, "use": now}
    old = {"ruleId": "r", "partialFingerprints": {FINGERPRINT: "f"}, "properties": {"grade": "WARNING", "use": then}}
    [finding] = compared(bare("not clear") | {"findings": [told]}, [old])["findings"]
    assert finding["state"] == state


def test_the_plan_with_a_use_without_end_comes_first():
    def order(use):
        most = {"component": "bow", "use": use, "percent": "", "carries": "", "may": ""}
        return head(Reviewed("a", "a", bare("not clear") | {"most_used": most}, 1)).order

    assert order("without end") < order(2.0) < order(1.0)


def test_an_entry_put_into_a_list_before_others_makes_none_of_their_findings_new(folder):
    before = plans_of(report([folder]))["five.yaml"]
    more = FIVE.replace("people:\n", "people:\n  - {who: cook, at: [-90 m, 0 m]}\n")
    (folder / "five.yaml").write_text(more, "utf-8")
    after = since(folder)[0]["five.yaml"]
    known = {f["fingerprint"] for f in before["findings"] if f["pointer"].startswith("/people/")}
    assert known
    assert known <= {f["fingerprint"] for f in after["findings"] if f["state"] == "unchanged"}


def test_a_plan_that_is_gone_and_a_finding_that_is(folder):
    (folder / "five.yaml").unlink()
    found, ends = since(folder)
    assert (ends, found["five.yaml"]["verdict"]) == (0, "gone")
    assert found["five.yaml"]["gone"]
    assert "five.yaml: GONE: " in report([folder], "text", since=folder.parent / "old.sarif")


def test_a_plan_that_cant_be_read_is_never_let_pass(folder):
    (folder / "five.yaml").write_text("rig_plan: 1\nbodies: [\n")
    found, ends = since(folder)
    assert (ends, found["five.yaml"]["gone"]) == (3, [])  # nobody can say that its findings were put right
    assert '"absent"' not in report([folder], "sarif", since=folder.parent / "old.sarif")


def test_a_plan_that_was_emptied_is_told_as_gone(folder):
    (folder / "five.yaml").write_text("")
    found = since(folder)[0]
    assert found["five.yaml"]["verdict"] == "gone"
    assert found["five.yaml"]["gone"]


def test_what_is_gone_asks_for_nothing(folder):
    (folder / "five.yaml").unlink()
    text = report([folder], "text", since=folder.parent / "old.sarif")
    assert "five.yaml: GONE: " in text
    assert "Put right" not in text


def test_a_waiver_that_ran_out_is_worse(tmp_path):
    plan = house(tmp_path / "plans", waiver())
    (tmp_path / "old.sarif").write_text(report([plan], "sarif"), "utf-8")
    house(tmp_path / "plans", waiver(until="2026-05-31"))
    found = plans_of(report([plan], since=tmp_path / "old.sarif"))["ditch.yaml"]
    assert [f["state"] for f in found["findings"] if f["rule"] == "warning"] == ["worse"]
    (tmp_path / "old.sarif").write_text(report([plan], "sarif"), "utf-8")
    house(tmp_path / "plans", waiver())
    found = plans_of(report([plan], since=tmp_path / "old.sarif"))["ditch.yaml"]
    assert [f["state"] for f in found["findings"] if f["rule"] == "warning"] == ["better"]


def test_an_earlier_log_in_another_layout_says_the_same(folder):
    old = folder.parent / "old.sarif"
    once = report([folder], since=old)
    log = json.loads(old.read_text("utf-8"))
    log["runs"][0]["results"].reverse()
    old.write_text(json.dumps(log, indent=1), "utf-8")
    assert report([folder], since=old) == once


def test_a_log_made_since_another_serves_as_the_next_earlier_one(folder):
    (folder / "twisted.yaml").write_text(FIVE, "utf-8")
    later = folder.parent / "later.sarif"
    later.write_text(report([folder], "sarif", since=folder.parent / "old.sarif"), "utf-8")
    found = plans_of(report([folder], since=later))
    assert {state for plan in found.values() for state in states(plan)} == {"unchanged"}
    assert not any(plan["gone"] for plan in found.values())


@pytest.mark.parametrize("form", ["text", "json", "sarif", "html"])
def test_slices_since_an_earlier_review_merge_to_a_single_run(tmp_path, form):
    plans = folder_of_plans(tmp_path / "plans")
    old = tmp_path / "old.sarif"
    old.write_text(report([plans], "sarif"), "utf-8")
    next(plans.rglob("rig_3.yaml")).unlink()
    next(plans.rglob("rig_4.yaml")).write_text(FIVE, "utf-8")
    files = [tmp_path / f"{part}.json" for part in (1, 2, 3)]
    for file in files:
        file.write_text(report([plans], part=f"{file.stem}/3"), "utf-8")
    assert report([], form, merge=tuple(files), since=old) == report([plans], form, since=old)


@pytest.mark.parametrize("text", ["", "{", '{"runs": []}', '{"runs": [{"tool": {"driver": {"name": "x"}}}]}', "[]"])
def test_what_is_no_earlier_review(folder, text):
    old = folder.parent / "bad.sarif"
    old.write_text(text)
    with pytest.raises(SinceError):
        report([folder], since=old)


@pytest.mark.parametrize(("part", "value"), [("message", "hello"), ("properties", [7])])
def test_a_result_that_no_log_can_have_is_a_fault_of_the_log(folder, part, value):
    old = folder.parent / "old.sarif"
    log = json.loads(old.read_text("utf-8"))
    for result in log["runs"][0]["results"]:
        result[part] = value
    old.write_text(json.dumps(log), "utf-8")
    with pytest.raises(SinceError, match=part):
        report([folder], "text", since=old)


def test_an_earlier_review_that_found_nothing(tmp_path, folder):
    old = tmp_path / "empty.sarif"
    (tmp_path / "nothing").mkdir()
    old.write_text(report([tmp_path / "nothing"], "sarif"), "utf-8")
    assert states(plans_of(report([folder], since=old))["five.yaml"]) == {"new"}
