"""What a review finds, and that it is the same whatever the order, the processes, the cache and the slices."""

import json
import os
import re
import select
import shutil
import signal
import subprocess
import sys
import time
from datetime import timedelta
from html import unescape
from pathlib import Path

import pytest
import typer
from jsonschema import Draft202012Validator
from typer.testing import CliRunner

from riglint.commands.review_call import review as options
from riglint.outcome import Grade
from riglint.review.gather import is_plan
from riglint.review.merge import MergeError
from tests.house.rigs import house, waiver
from tests.review.rigs import COMMAND, DAY, EXAMPLES, ROOT, code, command, folder_of_plans, plans_of, report

FORMS = ("text", "json", "sarif", "html")
TWISTED = EXAMPLES / "twisted-join.yaml"
SOUND = EXAMPLES / "straight-pull.yaml"


@pytest.fixture(scope="module")
def plans(tmp_path_factory):
    return folder_of_plans(tmp_path_factory.mktemp("plans"))


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return tmp_path_factory.mktemp("cache")


@pytest.fixture
def few(tmp_path):
    """A sound plan, a bad one, one that can't be read and files that are no plans."""
    for file in (TWISTED, SOUND):
        shutil.copy(file, tmp_path)
    (tmp_path / "torn.yaml").write_text("rig_plan: 1\nbodies: [\n")
    (tmp_path / "workflow.yml").write_text("name: tests\nlines: 3\npoints: 4\n")
    (tmp_path / ".hidden").mkdir()
    shutil.copy(TWISTED, tmp_path / ".hidden")
    return tmp_path


def test_each_plan_has_its_verdict(few):
    found = {name: plan["verdict"] for name, plan in plans_of(report([few])).items()}
    assert found == {
        "straight-pull.yaml": "clear", "torn.yaml": "can't be read", "twisted-join.yaml": "not clear",
        "workflow.yml": "no plan",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("encoding", "line_end", "verdict"),
    [
        ("utf-8-sig", "\n", "not clear"),
        ("utf-8", "\r", "can't be read"),
        ("utf-16", "\r\n", "can't be read"),
        ("utf-32", "\n", "can't be read"),
    ],
)
def test_a_plan_is_one_however_its_editor_saved_it(tmp_path, encoding, line_end, verdict):
    """A plan taken for no plan would go unseen: here its first line comes right behind the mark of its encoding."""
    text = TWISTED.read_text("utf-8")
    text = "# A rig.\n" + text[text.index("rig_plan:") :] if line_end == "\r" else text[text.index("rig_plan:") :]
    (tmp_path / "rig.yaml").write_bytes(text.replace("\n", line_end).encode(encoding))
    assert plans_of(report([tmp_path]))["rig.yaml"]["verdict"] == verdict


@pytest.mark.parametrize("first", ["", "rig_pan: 1", "Rig_plan: 1", "rig-plan: 1", "rigplan: 1"])
def test_a_slip_in_its_first_line_does_not_hide_a_plan(tmp_path, first):
    (tmp_path / "rig.yaml").write_text(TWISTED.read_text("utf-8").replace("rig_plan: 1", first), "utf-8")
    (tmp_path / "chart.yaml").write_text("title: Loads\nlines: [1]\npoints: [2]\n", "utf-8")
    found = plans_of(report([tmp_path]))
    assert found["rig.yaml"]["verdict"] == "can't be read"
    assert found["chart.yaml"]["verdict"] == "no plan"


@pytest.mark.parametrize("text", ['{"rig_plan": 1}', '--- {"rig_plan": 1}', '{\n"title": "x", "rig_plan": 1}'])
def test_a_plan_in_braces_is_one(tmp_path, text):
    (tmp_path / "rig.yaml").write_text(text)
    (tmp_path / "other.yaml").write_text("name: x\n# as in {rig_plan: 1}\n")
    found = plans_of(report([tmp_path]))
    assert (found["rig.yaml"]["verdict"], found["other.yaml"]["verdict"]) == ("can't be read", "no plan")


def test_a_file_of_blank_lines_is_looked_through_at_once():
    """A pattern that runs on over line ends takes the square of their number: minutes for these."""
    begun = time.monotonic()
    assert not is_plan(b" \n" * 60_000)
    assert time.monotonic() - begun < 3.0


def test_no_plan_is_passed_over_for_where_it_lies(tmp_path):
    """Behind a link to a folder, with an ending in large letters, or both; links that lead back come to an end."""
    elsewhere, rigs = tmp_path / "elsewhere", tmp_path / "rigs"
    elsewhere.mkdir()
    rigs.mkdir()
    shutil.copy(TWISTED, elsewhere / "RIG.YAML")
    (rigs / "linked").symlink_to(elsewhere)
    (rigs / "up").symlink_to(tmp_path)
    (elsewhere / "back").symlink_to(rigs)
    assert {plan["file"]: plan["verdict"] for plan in json.loads(report([rigs]))["plans"]} == {
        "linked/RIG.YAML": "not clear"
    }


def test_a_pipe_is_told_and_not_waited_for(tmp_path):
    os.mkfifo(tmp_path / "rig.yaml")
    assert plans_of(report([tmp_path]))["rig.yaml"]["verdict"] == "can't be read"


def test_a_folder_that_cannot_be_opened_is_told(tmp_path, monkeypatch):
    """Whoever runs the tests may open any folder, so the system's refusal is put in."""
    shutil.copy(SOUND, tmp_path)
    (tmp_path / "locked").mkdir()
    look = os.scandir

    def refuse(path):
        if str(path).endswith("locked"):
            raise PermissionError(13, "Permission denied", str(path))
        return look(path)

    monkeypatch.setattr(os, "scandir", refuse)
    assert plans_of(report([tmp_path]))["locked"]["verdict"] == "can't be read"


def test_text_has_the_worst_first_and_every_finding_with_its_place(few):
    text = report([few], "text")
    order = [text.index(name) for name in ("torn.yaml", "twisted-join.yaml", "straight-pull.yaml")]
    assert order == sorted(order)
    assert "3 plans reviewed for pulls on 2026-06-01: 1 can't be read, 1 not clear and 1 clear." in text
    assert "1 other YAML file is no plan." in text
    lines = TWISTED.read_text("utf-8").splitlines()
    line = next(number for number, written in enumerate(lines, 1) if "twist:" in written)
    assert re.search(rf"twisted-join.yaml:{line}:\d+: DANGER: twisted-join: ", text)


def test_what_it_finds_is_what_inspecting_each_plan_finds(few):
    from riglint.plan.load import load_plan
    from riglint.rulebook.find import standard_rulebook
    from riglint.rulebook.inspect import inspect
    from riglint.solve.solve import solve

    inspection = inspect(solve(load_plan(TWISTED.read_bytes(), "x").rig), standard_rulebook())
    plan = plans_of(report([few]))["twisted-join.yaml"]
    assert [(f["rule"], f["grade"]) for f in plan["findings"]] == [(f.rule, f.grade.value) for f in inspection.findings]
    assert plan["verdict"] == inspection.verdict.value


def test_the_exit_codes_are_those_of_the_prepull_check(few):
    assert code([SOUND]) == 0
    assert code([SOUND, TWISTED]) == 1
    assert code([few]) == 3
    assert code([few / "none.yaml"]) == 3
    assert code([EXAMPLES / "ten-lines.yaml"]) == 1


def test_a_milder_halting_grade_lets_less_pass():
    found = [code([EXAMPLES / "re-rig.yaml"], halting=grade) for grade in Grade]
    assert found == sorted(found)
    assert found[0] < found[-1]


@pytest.mark.parametrize("form", FORMS)
def test_a_folder_and_its_files_in_any_order_give_the_same(plans, form, monkeypatch):
    monkeypatch.chdir(plans)
    files = sorted(plans.rglob("*.yaml"), reverse=True)
    assert report(["."], form) == report([*files, files[0]], form) == report([plans], form)


def test_nothing_of_the_machine_gets_in(plans):
    for form in FORMS:
        assert str(plans) not in report([plans], form)


@pytest.mark.parametrize("form", FORMS)
def test_processes_and_cache_change_nothing(tmp_path, plans, cache, form):
    for number in range(3):  # so many that they are parted between processes
        shutil.copytree(plans, tmp_path / "plans" / str(number))
    once = report([tmp_path / "plans"], form)
    assert report([tmp_path / "plans"], form, cache=cache, processes=2) == once
    assert report([tmp_path / "plans"], form, cache=cache) == once


@pytest.mark.parametrize("form", FORMS)
def test_merged_slices_equal_a_single_run(tmp_path, plans, cache, form):
    files = [tmp_path / f"{part}.json" for part in (3, 1, 2)]
    for file in files:
        file.write_text(report([plans], part=f"{file.stem}/3", cache=cache), "utf-8")
    assert report([], form, merge=tuple(files)) == report([plans], form, cache=cache)


def test_a_slice_that_is_missing_is_no_review(tmp_path, plans, cache):
    file = tmp_path / "1.json"
    file.write_text(report([plans], part="1/2", cache=cache), "utf-8")
    with pytest.raises(MergeError, match="of 2 parts 2 is missing"):
        report([], merge=(file,))


def test_all_slices_that_are_missing_are_named(tmp_path, plans, cache):
    file = tmp_path / "1.json"
    file.write_text(report([plans], part="1/4", cache=cache), "utf-8")
    with pytest.raises(MergeError, match="of 4 parts 2, 3 and 4 are missing"):
        report([], merge=(file,))


def test_slices_for_two_days_are_not_one_review(tmp_path, plans, cache):
    """Gear falls due and waivers run out between them."""
    files = [tmp_path / "1.json", tmp_path / "2.json"]
    for number, file in enumerate(files):
        day = DAY + timedelta(days=number)
        file.write_text(report([plans], part=f"{file.stem}/2", cache=cache, today=day), "utf-8")
    with pytest.raises(MergeError, match=r"differ in their day"):
        report([], merge=tuple(files))


def test_half_a_report_is_no_report(tmp_path, plans, cache):
    file = tmp_path / "all.json"
    whole = report([plans], cache=cache)
    for end in (len(whole) // 2, whole.index("\n],"), len(whole) - 3):
        file.write_text(whole[:end], "utf-8")
        with pytest.raises(MergeError):
            report([], merge=(file,))


def test_a_changed_plan_is_worked_out_again(tmp_path, cache):
    plan = tmp_path / "plan.yaml"
    text = TWISTED.read_text("utf-8")
    plan.write_text(text, "utf-8")
    before = report([tmp_path], cache=cache)
    plan.write_text(text.replace("twist:", "notes: looked at\n        twist:"), "utf-8")
    plan.write_text(text + "# a comment\n", "utf-8")
    after = report([tmp_path], cache=cache)
    assert plans_of(before)["plan.yaml"]["sha256"] != plans_of(after)["plan.yaml"]["sha256"]


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("house.yaml", "{most: 20 m}", "{most: 10.5 m}"),
        ("rules/measure.py", "11.0", "30.0"),
        ("kit.yaml", "1 kN", "1 kn"),
    ],
)
def test_the_cache_is_never_stale(tmp_path, file, old, new):
    """Whatever a plan hangs on is changed, and the answer must be that of a run without cache."""
    (tmp_path / "kit.yaml").write_text(
        "rig_kit: 1\ntitle: Kit\ngear:\n  S-1: {is: connector, kind: bow shackle, working_load: 1 kN}\n"
    )
    plan = house(tmp_path, "kit: kit.yaml\nlimits: {measure: {most: 20 m}}\n", ("measure",))
    plan.write_text(plan.read_text().replace("{kind: bow shackle}", "{from_kit: S-1}"))
    stored = tmp_path / "cache"
    report([plan], cache=stored)
    changed = tmp_path / file
    before = report([plan])
    changed.write_text(changed.read_text().replace(old, new))
    assert report([plan], cache=stored) == report([plan]) != before


@pytest.mark.parametrize("form", ["text", "html"])
def test_a_fault_of_the_kit_is_told_once_for_all_plans(tmp_path, cache, form):
    """Three plans with one kit have one fault, whether they were worked out now or kept."""
    (tmp_path / "house.yaml").write_text("rig_house: 1\ntitle: Yard\nkit: kit.yaml\n")
    kit = (EXAMPLES / "class" / "kit.yaml").read_text("utf-8")
    (tmp_path / "kit.yaml").write_text(kit.replace("working_load: 32 kN", "working_load: 32 kn"), "utf-8")
    for number in (1, 2, 3):
        shutil.copy(EXAMPLES / "class" / "plans" / f"student-{number}.yaml", tmp_path)
    told = report([tmp_path], form)
    assert "3 plans can't be read for a fault of another file" in unescape(told)
    assert told.count("could be knots") == (1 if form == "text" else 4)
    assert [report([tmp_path], form, cache=cache) for _ in range(2)] == [told, told]


def test_a_house_file_that_turns_up_farther_up_is_no_old_answer(tmp_path):
    plan = house(tmp_path / "depot", "", ("good",))
    stored = tmp_path / "cache"
    before = report([plan], cache=stored)
    (tmp_path / "house.yaml").write_text("rig_house: 1\ntitle: Company\n")
    assert report([plan], cache=stored) == report([plan]) != before


def test_the_day_counts_where_a_waiver_ends(tmp_path):
    from datetime import date

    from riglint.review.run import Order, review

    plan = house(tmp_path, waiver())

    def waived(day):
        order = Order((str(plan),), form="json", today=day, cache=tmp_path / "cache")
        with review(order) as done:
            found = plans_of("".join(done.pieces))["ditch.yaml"]["findings"]
        return [f["waived"] is not None for f in found if f["rule"] == "warning"]

    assert waived(date(2026, 6, 1)) == [True]
    assert waived(date(2026, 6, 2)) == [False]


@pytest.mark.parametrize("rubbish", [b"", b"{}", b"\x78\x01\x00", b"[" * 100_000])
def test_broken_cache_files_are_ignored(tmp_path, few, rubbish):
    stored = tmp_path / "cache"
    once = report([few], cache=stored)
    files = [file for file in stored.rglob("*") if file.is_file()]
    assert files
    for file in files:
        file.write_bytes(rubbish)
    assert report([few], cache=stored) == once


def test_one_cache_file_never_stands_for_another(tmp_path, few):
    stored = tmp_path / "cache"
    once = report([few], cache=stored)
    files = [file for file in sorted(stored.glob("??/*")) if file.is_file()]
    contents = [file.read_bytes() for file in files]
    for file, other in zip(files, contents[1:] + contents[:1], strict=True):
        file.write_bytes(other)
    assert report([few], cache=stored) == once


def test_a_cache_that_cant_be_written_costs_only_time(few, tmp_path):
    (tmp_path / "taken").write_text("a file")
    assert report([few], cache=tmp_path / "taken") == report([few])


def test_two_runs_share_a_cache(tmp_path, plans):
    words = [sys.executable, "-c", COMMAND, str(plans), "--cache", str(tmp_path / "shared"), "--jobs", "1"]
    env = os.environ | {"PYTHONPATH": str(ROOT)}
    both = [subprocess.Popen(words, stdout=subprocess.PIPE, cwd=ROOT, env=env) for _ in range(2)]
    first, second = (run.communicate()[0] for run in both)
    assert first == second != b""


def test_a_killed_run_leaves_no_half_report_and_no_broken_cache(tmp_path, plans):
    for number in range(8):
        shutil.copytree(plans, tmp_path / "plans" / str(number))
    for file in (tmp_path / "plans").rglob("*.yaml"):
        file.write_text(f"{file.read_text('utf-8')}# {file.parent}\n", "utf-8")  # none is in the cache through another
    out, stored = tmp_path / "report.json", tmp_path / "cache"
    out.write_text("the last report")
    words = [str(tmp_path / "plans"), "--as", "json", "--out", str(out), "--cache", str(stored), "--jobs", "2"]
    held, passed = os.pipe()  # closed at the other end when the last process that has it ends
    run = subprocess.Popen(
        [sys.executable, "-c", COMMAND, *words], cwd=ROOT, env=os.environ | {"PYTHONPATH": str(ROOT)}, pass_fds=[passed]
    )
    os.close(passed)
    while not any(stored.glob("??/*")) and run.poll() is None:
        time.sleep(0.01)
    run.send_signal(signal.SIGKILL)
    assert run.wait() == -signal.SIGKILL
    assert select.select([held], [], [], 20)[0], "processes of the killed run live on"
    os.close(held)
    assert out.read_text() == "the last report"
    assert report([tmp_path / "plans"], cache=stored) == report([tmp_path / "plans"])
    assert not list(tmp_path.glob("*.begun"))


def test_a_report_that_breaks_while_it_is_written_leaves_the_last_one(tmp_path):
    from riglint.commands.review import _write

    def pieces():
        yield "half"
        raise KeyboardInterrupt

    out = tmp_path / "report.txt"
    out.write_text("the last report")
    with pytest.raises(KeyboardInterrupt):
        _write(pieces(), out)
    assert out.read_text() == "the last report"
    assert [file.name for file in tmp_path.iterdir()] == ["report.txt"]


@pytest.mark.parametrize(
    "words",
    [["--halt-on", "new", "examples"], ["--slice", "3/2", "examples"], ["--merge", "examples/bridle.yaml"],
     ["--since", "none.sarif", "examples"], ["--since", "README.md", "examples/bridle.yaml"],
     ["--on", "today", "examples"], ["--rulebook", "examples", "examples"], ["--as", "pdf", "examples"],
     ["--out", "no/such/folder/report.txt", "examples/bridle.yaml"], ["schemas"]],
)  # fmt: skip
def test_a_wrong_call(words, monkeypatch):
    monkeypatch.chdir(ROOT)
    app = typer.Typer()
    app.command()(options)
    ran = CliRunner().invoke(app, [*words, "--no-cache"])
    assert ran.exit_code == 2
    assert ran.stderr


def test_a_report_that_can_t_be_written_is_told_by_the_name_that_was_given(tmp_path):
    ran = command(str(SOUND), "--no-cache", "--out", str(tmp_path))
    assert (ran.returncode, ran.stdout) == (2, b"")
    assert str(tmp_path).encode() in ran.stderr
    assert b".begun" not in ran.stderr


def test_the_command_writes_the_report(tmp_path):
    ran = command(str(SOUND), "--as", "json", "--out", str(tmp_path / "r.json"), "--cache", str(tmp_path / "cache"))
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, b"", b"")
    assert json.loads((tmp_path / "r.json").read_text("utf-8"))["plans"]


def test_the_page_is_whole_in_itself_and_escapes_what_plans_say(tmp_path):
    text = TWISTED.read_text("utf-8")
    title = next(line for line in text.splitlines() if line.startswith("title:"))
    (tmp_path / "a.yaml").write_text(text.replace(title, 'title: "<script>alert(1)</script>"'), "utf-8")
    page = report([tmp_path], "html")
    assert "<script>alert" not in page
    assert "http" not in page
    assert page.count("<svg") == 1


def test_the_working_folder_of_a_review_is_left_alone(few):
    before = {file: file.stat().st_mtime_ns for file in Path(few).rglob("*")}
    report([few])
    assert {file: file.stat().st_mtime_ns for file in Path(few).rglob("*")} == before


def test_the_report_follows_its_schema(few):
    schema = json.loads((ROOT / "schemas" / "review.schema.json").read_text("utf-8"))
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    for asked in ({}, {"part": "1/2"}, {"remedies": True}):
        assert list(validator.iter_errors(json.loads(report([few, EXAMPLES / "company"], **asked)))) == []


def test_remedies_are_worked_out_where_asked_for(tmp_path):
    shutil.copy(TWISTED, tmp_path)
    without, cached = (plans_of(report([tmp_path], cache=tmp_path / "cache", remedies=r)) for r in (False, True))
    mended = [f["remedies"] for f in cached["twisted-join.yaml"]["findings"] if f["rule"] == "twisted-join"]
    assert mended == [mended[0]]
    assert mended[0]
    assert not any("remedies" in finding for finding in without["twisted-join.yaml"]["findings"])
    assert "would put it right: " in report([tmp_path], "text", remedies=True)
