"""A class: goals, marks with reasons, the most common mistakes, and the forms that they are printed in."""

import csv
import io
import re
from base64 import b64encode
from functools import cache
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from riglint.commands.debrief import DebriefCall, run
from riglint.commands.exits import Exit
from riglint.debrief.classroom import classroom
from riglint.debrief.debrief import debrief
from riglint.debrief.goals import goals
from riglint.debrief.handed import hand_in
from riglint.debrief.marks import marked
from riglint.debrief.page import class_page, one_page
from riglint.debrief.schema import schema_text, task_schema
from riglint.debrief.sheet import as_csv
from riglint.house.context import Contexts
from riglint.outcome import Result, Verdict
from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from tests.debrief.handing_in import CLASS, DAY, PLANS, ROOT, edited, example, handed, task, task_of
from tests.rulebook.rigs import rulebook_folder

TASK = (CLASS / "task.yaml").read_text()
# What each of the eight did wrong: rules that must fail, goals that must be missed (by a word of each).
MISTAKES = {
    "student-1": ({"drum-wraps"}, {"above"}),
    "student-2": ({"enough-pull"}, {"moves", "above"}),
    "student-3": ({"working-load"}, {"above"}),
    "student-4": ({"people-clear"}, {"above"}),
    "student-5": ({"tree-anchor"}, {"above"}),
    "student-6": (set(), {"scenario"}),
    "student-7": ({"forbidden-point"}, {"kit", "above"}),
    "student-8": ({"working-load"}, {"above"}),
}


@cache
def room():
    plans = [example(f"plans/{path.name}") for path in PLANS]
    return classroom(plans, example("model.yaml"), task())


def marks_of(one, given=None):
    given = given or task()
    return marked(given, one, goals(given, one))


def test_the_model_plan_is_a_solution():
    model = example("model.yaml")
    assert model.inspected is not None
    assert model.inspected.inspection.verdict is Verdict.CLEAR
    assert {goal.result for goal in goals(task(), model)} == {Result.PASSED}
    found = marks_of(model)
    assert (found.earned, found.lost, found.passed) == (100.0, (), True)


@pytest.mark.parametrize("name", MISTAKES)
def test_each_student_made_the_mistake(name):
    one = example(f"plans/{name}.yaml")
    rules, missed = MISTAKES[name]
    assert one.inspected is not None
    failed = {o.rule for o in one.inspected.inspection.outcomes if o.result is Result.FAILED}
    assert rules <= failed
    reached = goals(task(), one)
    assert all(any(word in g.what for g in reached if g.result is Result.FAILED) for word in missed)
    assert sum(goal.result is Result.FAILED for goal in reached) == len(missed)
    assert marks_of(one).passed is False


def test_marks_add_up_and_every_loss_has_its_reason():
    for one in room().debriefs:
        found = one.marked
        assert found is not None
        assert found.earned == pytest.approx(max(0.0, found.full - sum(lost.marks for lost in found.lost)))
        for lost in found.lost:
            assert lost.says
            assert lost.rule or lost.why


def test_marks_by_rule_go_before_marks_by_grade():
    lost = {one.rule: one.marks for one in marks_of(example("plans/student-1.yaml")).lost}
    assert lost["drum-wraps"] == 20.0
    cheap = task_of(TASK.replace("drum-wraps: 20", "drum-wraps: 3"))
    assert {one.rule: one.marks for one in marks_of(example("plans/student-1.yaml"), cheap).lost}["drum-wraps"] == 3.0


def test_what_cant_be_told_costs_its_share_and_never_passes(tmp_path):
    unsaid = handed(tmp_path, edited((", slope: 2 deg up, side_slope: 0 deg}", "}")))
    reached = {goal.what: goal.result for goal in goals(task(), unsaid)}
    assert reached["the load is that of the scenario"] is Result.CANT_TELL
    found = marks_of(unsaid)
    assert found.passed is False
    lost = {one.rule: (one.result, one.marks) for one in found.lost}
    assert lost["enough-pull"] == (Result.CANT_TELL, 10.0)  # half of 20
    all_of_it = task_of(TASK.replace("unsaid: 50 %", "unsaid: 100 %"))
    assert {one.rule: one.marks for one in marks_of(unsaid, all_of_it).lost}["enough-pull"] == 20.0


def test_a_shorter_way_and_an_easier_load_miss_the_goal(tmp_path):
    short = handed(tmp_path, edited(("distance: 6 m", "distance: 5.9 m")))
    missed = [goal for goal in goals(task(), short) if goal.result is Result.FAILED]
    assert [goal.what for goal in missed] == ["the load goes as far as the scenario asks"]
    assert missed[0].why == "the way that is planned is shorter: 5.9 m, the scenario asks for 6 m"
    light = handed(tmp_path, edited(("5.8 t to 6.4 t", "6.39 t")))
    assert [goal.why for goal in goals(task(), light) if goal.result is Result.FAILED] == [
        "made easier: weight; the weight comes to 62.7 kN here, and to 62.8 kN in the scenario"
    ]
    heavy = handed(tmp_path, edited(("5.8 t to 6.4 t", "5.8 t to 6.5 t")))
    assert not [goal for goal in goals(task(), heavy) if goal.result is Result.FAILED]


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        (
            "    wheelbase: 4.0 m\n",
            "    wheelbase: 4.0 m\n    resistance: {steady: 10 kN, found_by: guess}\n",
            ["resistance"],
        ),
        ("    wheelbase: 4.0 m\n", "    wheelbase: 4.0 m\n    resistance: {steady: 70 kN, found_by: gauge}\n", []),
        ("mired: wheel depth,", "mired: wheel depth, zones: [{begins_at: 1 m, mired: none}],", ["mired"]),
        ("mired: wheel depth,", "mired: wheel depth, zones: [{begins_at: 1 m, slope: 1 deg up}],", ["slope"]),
        ("mired: wheel depth,", "mired: wheel depth, zones: [{begins_at: 6 m, mired: none}],", []),
        ("mired: wheel depth,", "mired: wheel depth, zones: [{begins_at: 1 m, mired: cab depth}],", []),
    ],
)
def test_a_scenario_is_not_made_easier_further_on_or_by_a_figure_of_ones_own(tmp_path, old, new, why):
    """The truck in its mire takes 6.4 t and two degrees of it: 65 kN."""
    plan = handed(tmp_path, edited((old, new), ("distance: 6 m", "distance: 7 m")))
    [goal] = [goal for goal in goals(task(), plan) if goal.what == "the load is that of the scenario"]
    assert goal.why == (f"made easier: {why[0]}" if why else "")


@pytest.mark.parametrize(
    ("join", "foreign"),
    [("{kind: loop-to-loop square knot}", []), ("{kind: splice}", []),
     ("{kind: soft shackle, breaking: 900 kN}", ["not from the kit: link"]),
     ("{kind: shackle, working_load: 300 kN}", ["not from the kit: link"])],
)  # fmt: skip
def test_a_join_that_is_gear_comes_from_the_kit_too(tmp_path, join, foreign):
    """A knot is made of the rope itself; a shackle that nobody was given is none of the kit's."""
    joined = "{from_kit: R-1, age: 10 months}\n      - link: JOIN\n      - tail: {from_kit: R-2}".replace("JOIN", join)
    plan = handed(tmp_path, edited(("{from_kit: R-1, age: 10 months}", joined)))
    [kit] = [goal for goal in goals(task(), plan) if goal.what == "the gear is that of the kit"]
    assert ([kit.why] if kit.why else []) == foreign


def test_the_verdict_says_clear_only_of_what_the_rules_found(tmp_path):
    """Neither a goal that is missed nor a finding below the halting grade is nothing."""
    short = debrief(handed(tmp_path, edited(("distance: 6 m", "distance: 5 m"))), None, task())
    assert "CLEAR: nothing was found against it, but not every goal of the task is reached." in one_page(short, 1)
    near = debrief(handed(tmp_path, edited(("[12 m, -90 m]", "[12 m, -40 m]"))), None, None)
    assert "CLEAR: nothing was found that halts the pull, but heed what is told below." in one_page(near, 1)


WHEELS = "running_gear: wheels\n    pulled: forwards\n    own_power: false"


@pytest.mark.parametrize(
    ("given", "own", "why"),
    [
        ("", WHEELS, ""),
        ("", WHEELS.replace("wheels", "tracks"), ""),
        ("", "running_gear: tracks\n    own_power: true", "made easier: help of its tracks"),
        (", running_gear: wheels", WHEELS, ""),
        (", running_gear: wheels", WHEELS.replace("wheels", "tracks"), "made easier: running gear"),
        (", running_gear: wheels", "own_power: false", "not said: running gear"),
        (", running_gear: tracks, pulled: backwards", "running_gear: tracks\n    pulled: backwards", ""),
        (
            ", running_gear: tracks, pulled: backwards",
            "running_gear: tracks\n    pulled: backwards\n    own_power: true",
            "made easier: help of its tracks",
        ),
    ],
)  # fmt: skip
def test_a_scenario_is_not_made_easier_by_tracks_of_ones_own(tmp_path, given, own, why):
    """Doctrine takes 10 % off a mire for tracks pulled backwards and 40 % for power on them, and nothing for wheels."""
    asked = task_of(TASK.replace("mired: wheel depth, slope", f"mired: wheel depth{given}, slope"))
    plan = handed(tmp_path, edited((WHEELS, own)))
    [goal] = [goal for goal in goals(asked, plan) if goal.what == "the load is that of the scenario"]
    assert goal.why == why


def test_a_plan_that_cant_be_read_has_no_marks(tmp_path):
    bad = handed(tmp_path, edited(("weight: 5.8 t to 6.4 t", "weight: 6.4")))
    found = marks_of(bad)
    assert (found.earned, found.passed) == (0.0, False)
    assert "has no unit" in one_page(debrief(bad, None, task()), 1)


def test_the_same_plan_twice_is_pointed_out_and_so_is_the_model(tmp_path):
    same = {one.handed.file.rsplit("/", 1)[-1]: one.same_as for one in room().debriefs}
    assert [name for name, others in same.items() if others] == ["student-3.yaml", "student-8.yaml"]
    copy = handed(tmp_path, edited(("block_a", "first"), ("three parts", "my own idea")))
    [one] = classroom([copy], example("model.yaml"), task()).debriefs
    assert one.same_as == (example("model.yaml").file,)


@pytest.mark.parametrize(
    ("old", "new", "same"),
    [
        ("retired: false", "retired: false", True),
        ("retired: false", "retired: pin bent", False),
        ("2026-03-02", "2025-03-02", False),
        ("2026-03-02", "2026-02-02", True),
    ],
)
def test_gear_that_is_unfit_for_use_makes_another_plan(tmp_path, old, new, same):
    """S-5 is S-3 once more, but for its papers: who hangs the rig from it has not handed in the model's plan."""
    kit = (CLASS / "kit.yaml").read_text()
    entry = kit[kit.index("  S-3:") : kit.index("  S-4:")].replace("S-3", "S-5").replace(old, new)
    (tmp_path / "kit.yaml").write_text(kit + entry)
    where = Contexts(kit=tmp_path / "kit.yaml", today=DAY)
    plan = tmp_path / "plan.yaml"
    plan.write_text(edited(("{from_kit: S-3", "{from_kit: S-5")))
    [one] = classroom([hand_in(plan, where)], hand_in(CLASS / "model.yaml", where), task()).debriefs
    assert bool(one.same_as) is same


def test_most_common_mistakes_come_first():
    found = room().mistakes
    assert "working-load" in {one.rule for one in found[:2]}  # student 3, and whoever copied
    assert [m.failed for m in found] == sorted((m.failed for m in found), reverse=True)


def test_csv_reads_back():
    rows = list(csv.reader(io.StringIO(as_csv(room()), newline="")))
    head, plans = rows[0], rows[1 : 1 + len(PLANS)]
    table = [dict(zip(head, row, strict=True)) for row in plans]
    assert [row["marks"] for row in table] == [f"{one.marked.earned:g}" for one in room().debriefs]
    assert "drum-wraps" in table[0]["reasons"]
    assert table[2]["same plan as"].endswith("student-8.yaml")
    assert rows[1 + len(PLANS)] == []
    assert rows[3 + len(PLANS)][1] == "working-load"


def test_a_students_text_is_no_formula(tmp_path):
    sly = handed(tmp_path, edited(("title: Cattle truck in a gateway, three parts", "title: '=1+1'")))
    rows = list(csv.reader(io.StringIO(as_csv(classroom([sly], None, None)))))
    assert rows[1][1] == "'=1+1"


class Seen(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.open: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs
        if tag not in ("meta", "br"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def seen(page: str) -> Seen:
    parser = Seen()
    parser.feed(page)
    assert parser.open == []
    return parser


def test_the_page_fetches_nothing_and_runs_nothing():
    for page in (class_page(room(), 3), one_page(room().debriefs[0], 1)):
        parser = seen(page)
        assert not {"script", "img", "link", "iframe", "object", "form"} & set(parser.tags)
        assert not [name for name, _ in parser.attributes if name.startswith("on") or name in ("src", "style")]
        assert all((value or "").startswith("#") for name, value in parser.attributes if name == "href")
        [policy] = [v or "" for n, v in parser.attributes if n == "content" and "default-src" in (v or "")]
        assert policy.startswith("default-src 'none'")
        [style] = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
        assert f"'sha256-{b64encode(sha256(style.encode()).digest()).decode()}'" in policy
        assert "unsafe" not in policy


def test_what_a_student_writes_is_text_on_the_page(tmp_path):
    nasty = "<script>alert(1)</script>"
    one = handed(tmp_path, edited(("three parts", nasty), ("{who: spotter", f"{{who: '{nasty}'")), f"a{nasty[:8]}.yaml")
    far = handed(tmp_path, edited(("[12 m, -90 m]", "[12 m, 1.5 m]")), f"b{nasty[:8]}.yaml")
    bad = handed(tmp_path, edited(("weight: 5.8 t to 6.4 t", f"weight: '{nasty}'")), "c.yaml")
    for level in (1, 2, 3):
        page = class_page(classroom([one, far, bad], example("model.yaml"), task()), level)
        assert "script" not in seen(page).tags
        assert "&lt;script&gt;" in page


def test_against_the_model_plan():
    one = next(one for one in room().debriefs if one.handed.file.endswith("student-2.yaml"))
    respects = {r.name: r for r in one.respects}
    assert (respects["parts"].own, respects["parts"].model, respects["parts"].standing) == ("2", "3", "differs")
    assert respects["redirects"].own == "1 block"
    assert respects["line pull that the job needs"].standing == "worse"
    assert respects["line that the rig needs"].standing == "better"  # two parts want less line
    assert respects["worst anchor load at stall"].standing == "better"
    same = next(one for one in room().debriefs if one.handed.file.endswith("student-8.yaml"))
    assert {r.standing for r in same.respects if r.means} == {"same"}  # other names, other units: nothing differs


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("weight: 5.8 t to 6.4 t", "weight: 6.4 kg"),
        ("{distance: 6 m,", "{distance: 6 ft,"),
        ("surface: deep mud, mired: wheel depth, slope: 2 deg up", "surface: deep mud, mired: wheel depth"),
        ("surface: deep mud, mired: wheel depth, slope: 2 deg up", "surface: deep mud, slope: 2 deg up"),
    ],
    ids=["wrong unit", "shorter way", "no slope", "not said whether mired"],
)
def test_no_figure_of_an_easier_job_is_better(tmp_path, old, new):
    """Less to pull makes less of every load, and is no merit of the rig."""
    respects = debrief(handed(tmp_path, edited((old, new))), example("model.yaml"), task()).respects
    assert "better" not in {r.standing for r in respects}
    assert [r.name for r in respects if r.name in ("resistance of the load", "distance that the load goes")
            and r.standing not in ("same", "better")]  # fmt: skip


def test_what_cant_be_told_halts_the_pull_too(tmp_path):
    own = handed(tmp_path, edited(("surface: deep mud, mired: wheel depth, slope: 2 deg up", "surface: deep mud")))
    [worse] = [r for r in debrief(own, example("model.yaml"), task()).respects if "halt the pull" in r.name]
    [better] = [r for r in debrief(example("model.yaml"), own, task()).respects if "halt the pull" in r.name]
    assert (worse.standing, better.standing) == ("worse", "better")


def test_what_isnt_known_is_never_better():
    one = debrief(example("ten-lines.yaml"), example("model.yaml"), None)
    respects = {r.name: r for r in one.respects}
    assert respects["fewest wraps on the drum"].standing == "worse"
    assert respects["line pull at which the first thing is past its load"].standing == "worse"


@pytest.mark.parametrize(
    "said",
    [", grip: 0.6 to 0.7", "    secured: [brakes, chocks, in gear]\n", "    track: 2.0 m\n",
     "rated: 120 kN, basis: plate on the bracket,\n     "],
    ids=["grip", "what secures it", "track", "a point's rating"],
)  # fmt: skip
def test_leaving_a_fact_out_makes_no_figure_better(tmp_path, said):
    """What isn't counted for want of a fact may be the first to give, and used most."""
    respects = debrief(handed(tmp_path, edited((said, ""))), example("model.yaml"), task()).respects
    assert not [r.name for r in respects if r.standing == "better"]
    assert {r.own for r in respects if r.name in ("line pull at which the first thing is past its load",
                                                  "highest use of anything")} == {"can't be told"}  # fmt: skip


def test_leaving_out_the_losses_makes_no_better_line_pull(tmp_path):
    """By the manuals' tenth for each sheave the job needs what the model plan needs."""
    frictionless = "kind: block, loss: 0 %, sheave: {tread: 130 mm, rated: 60 kN}, head: {rated: 120 kN},"
    own = handed(tmp_path, edited(("from_kit: B-1,", frictionless), ("from_kit: B-2,", frictionless)))
    respects = {r.name: r for r in debrief(own, example("model.yaml"), task()).respects}
    assert respects["line pull that the job needs"].standing == "same"


def test_a_folder_gives_the_table_and_leaves_out_task_kit_and_model(capsys):
    call = DebriefCall((CLASS,), brief=CLASS / "task.yaml", form="csv")
    assert run(call) is Exit.CLEAR
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert [row[0].rsplit("/", 1)[-1] for row in rows[1 : 1 + len(PLANS)]] == [path.name for path in PLANS]


def test_one_file_under_two_names_is_no_copy(capsys, tmp_path, monkeypatch):
    """Nobody is told of handing a plan in twice because the teacher named it by its folder and by its path."""
    (tmp_path / "plans").mkdir()
    (tmp_path / "plans" / "own.yaml").write_text((CLASS / "model.yaml").read_text())
    (tmp_path / "plans" / "link.yaml").symlink_to("own.yaml")
    monkeypatch.chdir(tmp_path)
    assert run(DebriefCall((Path("plans"), tmp_path / "plans" / "own.yaml"), form="csv")) is not Exit.WRONG_CALL
    rows = [row for row in csv.reader(io.StringIO(capsys.readouterr().out)) if row and row[0].endswith(".yaml")]
    assert [(Path(row[0]).stem, row[-1]) for row in rows] == [("link", "")]


def test_one_plan_on_the_command(capsys, tmp_path):
    plan = CLASS / "plans" / "student-1.yaml"
    assert run(DebriefCall((plan,), 2, brief=CLASS / "task.yaml")) is Exit.CLEAR
    assert capsys.readouterr().out.startswith("DEBRIEF of ")
    out = tmp_path / "page.html"
    assert run(DebriefCall((plan,), 3, brief=CLASS / "task.yaml", form="html", out=out)) is Exit.CLEAR
    assert seen(out.read_text()).tags.count("h1") == 1


def test_the_commands_codes(tmp_path, capsys):
    bad = tmp_path / "bad.yaml"
    bad.write_text("rig_plan: 1\n")
    assert run(DebriefCall((bad,))) is Exit.UNREADABLE
    assert "It can't be read" in capsys.readouterr().out
    assert run(DebriefCall((tmp_path / "none.yaml",))) is Exit.UNREADABLE
    assert "can't be opened" in " ".join(capsys.readouterr().out.split())
    empty = tmp_path / "empty"
    empty.mkdir()
    assert run(DebriefCall((empty,))) is Exit.WRONG_CALL
    assert run(DebriefCall((CLASS / "model.yaml",), model=bad)) is Exit.UNREADABLE


def test_everything_wrong_with_a_task_is_told_at_once(tmp_path, capsys):
    text = (
        "rig_task: 1\ntitle: T\nscenaro: x\nkit: none.yaml\nmodel: none.yaml\nmarks: {rules: {drum-wrap: 3}, gaol: 2}\n"
    )
    (tmp_path / "task.yaml").write_text(text)
    assert run(DebriefCall((CLASS / "model.yaml",), brief=tmp_path / "task.yaml")) is Exit.UNREADABLE
    told = " ".join(capsys.readouterr().err.split())
    for place in ("/scenaro", "/kit", "/model", "/marks/rules/drum-wrap", "/marks/gaol"):
        assert f"{place}: " in told


def test_a_rule_that_broke_is_said_and_codes_so(tmp_path, capsys):
    book = rulebook_folder(tmp_path, {"broken": "yield 1 / 0"}, name="broken")
    assert run(DebriefCall((CLASS / "model.yaml",), brief=CLASS / "task.yaml", rulebooks=(book,))) is Exit.BROKEN
    said = capsys.readouterr().out
    assert "broken was not applied: " in said
    assert "CAN'T TELL" in said


@pytest.mark.parametrize(
    ("old", "new", "place", "serves", "by_schema"),
    [
        ("rig_task: 1", "rig_task: 2", "/rig_task", "write `1`", True),
        ("drum-wraps: 20", "drum-wrap: 20", "/marks/rules/drum-wrap", "`drum-wraps`?", False),
        ("full: 100", "full: lots", "/marks/full", "write a number", True),
        ("full: 100", "full: -1", "/marks/full", "write a number", True),
        ("pass_mark: 60", "pass_mark: 160", "/marks/pass_mark", "can be reached", False),
        ("DANGER: 15", "DANGER: 5", "/marks/grades", "in order", False),
        ("no_finding_above: CAUTION", "no_finding_above: caution", "/must/no_finding_above", "`CAUTION`?", True),
        ("distance: 6 m", "distance: 6", "/must/distance", "add", True),
        ("day: 2026-04-15", "day: soon", "/day", "2026-03-14", True),
        ("kit: kit.yaml", "kit: none.yaml", "/kit", "from the task's folder", False),
        ("model: model.yaml", "model: ../x.yaml", "/model", "from the task's folder", False),
        ("scenario: >-", "scenaro: >-", "/scenaro", "`scenario`?", True),
    ],
)
def test_what_a_task_cant_say(tmp_path, capsys, old, new, place, serves, by_schema):
    assert old in TASK
    text = TASK.replace(old, new)
    for name in ("kit.yaml", "model.yaml"):
        (tmp_path / name).write_text((CLASS / name).read_text())
    (tmp_path / "task.yaml").write_text(text)
    assert run(DebriefCall((CLASS / "model.yaml",), brief=tmp_path / "task.yaml")) is Exit.UNREADABLE
    said = capsys.readouterr().err
    assert f" {place}: " in said
    assert serves in said
    assert Draft202012Validator(task_schema()).is_valid(read_document(text, "task.yaml").data) is not by_schema


def test_the_schema():
    assert (ROOT / "schemas/task.schema.json").read_text() == schema_text()
    Draft202012Validator.check_schema(task_schema())
    assert Draft202012Validator(task_schema()).is_valid(read_document(TASK, "task.yaml").data)
    with pytest.raises(ReadingFailed):
        task_of("rig_task: 1\n")
