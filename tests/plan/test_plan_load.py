"""Each way in which a plan can be wrong: one clear problem at its own place.

A case is an edit of the small plan below. `¤` marks where the problem must be said to stand.
"""

import subprocess
import sys
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from riglint.plan.load import load_plan
from riglint.plan.schema import plan_schema
from riglint.reading.document import read_document
from riglint.reading.problems import Problem, ReadingFailed

SMALL = """\
rig_plan: 1
title: Straight pull
bodies:
  van: {moves: {distance: 5 m, bearing: 0 deg}, weight: 2 t}
points:
  eye: {on: van, at: [0 m, 0 m]}
  oak: {on: ground, at: [20 m, 0 m], kind: tree}
winch: {mounted: oak}
lines:
  rope: {pieces: [{wire: {rope: wire, length: 30 m}}], path: [winch, eye]}
"""
OUTLINE = (Path(__file__).parent / "outline.yaml").read_text(encoding="utf-8")

# (what stands in the plan, what stands there instead, the place, part of what was found, part of what would serve)
CASES = [
    # YAML and the values that other readers of it would have turned into something else
    ("mounted: oak", "mounted: oak, ¤mounted: eye", "/winch/mounted", "stands twice", "keep one"),
    ("[0 m, 0 m]}\n  oak", "¤&here [0 m, 0 m]}\n  oak", "/points/eye/at", "an anchor stands here", "leave it out"),
    ("title: Straight pull", "title: ¤!text Straight pull", "/title", "a tag stands here", "leave it out"),
    ("kind: tree}", "alive: ¤yes}", "/points/oak/alive", "`yes` where `true` or `false`", "`true` or `false`"),
    ("kind: tree}", "alive: ¤1}", "/points/oak/alive", "`1` where `true` or `false`", "`true` or `false`"),
    ("distance: 5 m", "distance: ¤1:30", "/bodies/van/moves/distance", "`1:30` isn't", ""),
    ("distance: 5 m", "distance: ¤012 m", "/bodies/van/moves/distance", "zero in front", "leave it out"),
    ("distance: 5 m", "distance: ¤.nan", "/bodies/van/moves/distance", "isn't a finite number", "finite"),
    ("distance: 5 m", "distance: ¤.inf m", "/bodies/van/moves/distance", "isn't a finite number", "finite"),
    ("title: Straight pull", "title: ¤2026", "/title", "`2026` where a text belongs", "in quotes"),
    ("title: Straight pull", "title: ¤true", "/title", "`true` where a text belongs", "in quotes"),
    ("title: Straight pull", "title: ¤' '", "/title", "says nothing", "write a text"),
    ("rig_plan: 1", "rig_plan: ¤2", "/rig_plan", "`2` isn't known here", "write `1`"),
    ("rig_plan: 1", "rig_plan: ¤true", "/rig_plan", "`true` isn't known here", "write `1`"),
    # Nothing behind a key
    ("kind: tree}", "kind: ¤null}", "/points/oak/kind", "there is nothing here", "leave the key out"),
    ("kind: tree}", "kind: tree, basis: judged, tried¤}", "/points/oak/tried", "there is nothing here", "needs quotes"),
    ("mounted: oak", "mounted: ¤null", "/winch/mounted", "there is nothing here", "write a value"),
    ("[winch, eye]", "[winch, ¤null]", "/lines/rope/path/1", "there is nothing here", "write a value"),
    # Keys
    (", bearing: 0 deg}", "}", "/bodies/van/moves", "`bearing` is missing", "add `bearing:`"),
    ("winch: {mounted: oak}\n", "", "", "`winch` is missing", "add `winch:`"),
    ("weight: 2 t", "¤weigth: 2 t", "/bodies/van/weigth", "`weigth` isn't known", "did you mean `weight`?"),
    ("distance: 5 m", "¤distanse: 5 m", "/bodies/van/moves/distanse", "`distanse` isn't known", "`distance`?"),
    ("weight: 2 t", "¤colour: red", "/bodies/van/colour", "`colour` isn't known", "use `moves`, `weight`"),
    ("length: 30 m", "¤twist: none", "/lines/rope/pieces/0/wire/twist", "`twist` isn't known", "use `rope`"),
    ("  oak: {", "  ¤2oak: {", "/points/2oak", "can't be a name", "begin with a letter"),
    ("winch: {", "¤winches: {", "/winches", "`winches` isn't known", "the load's whole resistance on that one"),
    ("winch: {", "¤winch_2: {mounted: eye}\nwinch: {", "/winch_2", "`winch_2` isn't known", "one plan has one `winch`"),
    ("winch: {", "¤winhc: {", "/winhc", "`winhc` isn't known", "did you mean `winch`?"),
    ("winch: {mounted: oak}", "winch: ¤[{mounted: oak}]", "/winch", "a list where", "one plan has one `winch`"),
    # Shapes
    ("winch: {mounted: oak}", "winch: ¤oak", "/winch", "`oak` where a mapping belongs", "with `mounted`"),
    ("path: [winch, eye]", "path: ¤winch", "/lines/rope/path", "`winch` where a list belongs", "[winch]"),
    ("path: [winch, eye]", "path: ¤[winch]", "/lines/rope/path", "a list of 1", "at least 2"),
    ("[winch, eye]", "[winch, ¤{to: eye}]", "/lines/rope/path/1", "a mapping where a text belongs", "one text"),
    ("on: van,", "on: ¤[van],", "/points/eye/on", "a list where a text belongs", "one text"),
    ("points:\n  eye", "people: ¤3\npoints:\n  eye", "/people", "`3` where a list belongs", "[3]"),
    ("[{wire: {", "[¤{rope_2: {}, wire: {", "/lines/rope/pieces/0", "a mapping of 2", "at most 1"),
    # Words
    ("kind: tree", "kind: ¤treee", "/points/oak/kind", "`treee` is none of the words", "did you mean `tree`?"),
    ("kind: tree", "kind: ¤lamp post", "/points/oak/kind", "`lamp post` is none of the words", "write `tow eye`"),
    ("rope: wire,", "rope: ¤hmpee,", "/lines/rope/pieces/0/wire/rope", "`hmpee` is none", "`hmpe`?"),
    ("rope: wire,", "condition: ¤wet,", "/lines/rope/pieces/0/wire/condition", "`wet` is none", "`good`"),
    ("rope: wire,", "condition: [good, ¤fuzy],", "/lines/rope/pieces/0/wire/condition/1", "`fuzy`", "`fuzzy`?"),
    # Quantities
    ("distance: 5 m", "distance: ¤5", "/bodies/van/moves/distance", "`5` has no unit", "add `mm`, `cm`, `m`"),
    ("distance: 5 m", "distance: ¤5 kN", "/bodies/van/moves/distance", "a unit of force", "`mm`, `cm`, `m`"),
    ("distance: 5 m", "distance: ¤-5 m", "/bodies/van/moves/distance", "out of range", "more than 0 m"),
    ("distance: 5 m", "distance: ¤0 m", "/bodies/van/moves/distance", "out of range", "more than 0 m"),
    ("distance: 5 m", "distance: ¤6 m to 5 m", "/bodies/van/moves/distance", "higher to the lower", "lower"),
    ("distance: 5 m", "distance: ¤[5 m]", "/bodies/van/moves/distance", "a list where a quantity", "one quantity"),
    ("weight: 2 t", "weight: ¤2 ton", "/bodies/van/weight", "`ton` has three meanings", "short ton"),
    ("weight: 2 t", "weight: ¤true", "/bodies/van/weight", "`true` where a quantity belongs", "one quantity"),
    ("bearing: 0 deg", "bearing: ¤0 deg to 5 deg", "/bodies/van/moves/bearing", "is a range", "one angle"),
    ("bearing: 0 deg", "bearing: ¤400 deg", "/bodies/van/moves/bearing", "out of range", "at most 360 deg"),
    ("weight: 2 t", "ground: {slope: ¤4 deg}", "/bodies/van/ground/slope", "which way", "`up` or `down`"),
    ("weight: 2 t", "ground: {slope: ¤4 up}", "/bodies/van/ground/slope", "no unit", "`deg`"),
    ("weight: 2 t", "ground: {slope: ¤70 deg up}", "/bodies/van/ground/slope", "out of range", "at most 60 deg"),
    (
        "kind: tree", "kind: picket holdfast, pickets: {arrangement: ¤3+2}", "/points/oak/pickets/arrangement",
        "isn't an arrangement", "`3-2-1`",
    ),
    ("title: Straight pull", "title: ¤" + "x" * 2001, "/title", "a text of 2001 characters", "at most 2000"),
    ("weight: 2 t", "ground: {grip: ¤60 %}", "/bodies/van/ground/grip", "", "leave the unit out"),
    ("mounted: oak", "mounted: oak, rated_layer: ¤0", "/winch/rated_layer", "`0` where a whole number from 1", "one"),
    ("mounted: oak", "mounted: oak, rated_layer: ¤1.5", "/winch/rated_layer", "`1.5` where a whole", "write one"),
    ("at: [20 m, 0 m]", "at: ¤[20 m]", "/points/oak/at", "a place of 1 number", "two lengths, or three"),
    ("at: [20 m, 0 m]", "at: ¤[20 m, 0]", "/points/oak/at", "`0` has no unit", "add `mm`"),
    ("at: [20 m, 0 m]", "at: ¤20 m north of eye", "/points/oak/at", "isn't a place", "a distance and a bearing"),
    ("at: [20 m, 0 m]", "at: ¤20 km bearing 0 deg", "/points/oak/at", "out of reach", "within 10 km"),
    # Values that can't stand together
    (
        "weight: 2 t", "resistance: {steady: 9 kN, breakaway: ¤8 kN}", "/bodies/van/resistance/breakaway",
        "it is less than `steady`", "to get the load moving",
    ),
    (
        "points:\n  eye", "people: [{who: me, at: [1 m, 1 m], in: ¤van}]\npoints:\n  eye", "/people/0/in",
        "both", "keep one",
    ),
    # Names
    ("mounted: oak", "mounted: ¤oka", "/winch/mounted", "`oka` names no point", "did you mean `oak`?"),
    ("[winch, eye]", "[winch, ¤eey]", "/lines/rope/path/1", "`eey` names no point or redirect", "`eye`?"),
    ("on: van", "on: ¤vann", "/points/eye/on", "`vann` names no body", "`van`?"),
    ("at: [20 m, 0 m]", "at: ¤9 m bearing 0 deg from elm", "/points/oak/at", "`elm` names no point", "use `eye`"),
]  # fmt: skip


def problems(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ReadingFailed) as failed:
        load_plan(text, "small.yaml")
    return failed.value.problems


def edited(text: str, old: str, new: str) -> tuple[str, tuple[int, int]]:
    """The plan with the edit, and the line and column of its mark."""
    assert text.count(old) == 1, f"{old!r} must stand once in the plan"
    marked = text.replace(old, new)
    before, _, after = marked.partition("¤")
    return before + after, (before.count("\n") + 1, len(before) - before.rfind("\n"))


def test_the_small_plan_is_valid():
    loaded = load_plan(SMALL, "small.yaml")
    assert loaded.rig.stages[0].load.name == "van"
    assert loaded.plan.title == "Straight pull"
    assert loaded.document.file == "small.yaml"


@pytest.mark.parametrize(("old", "new", "place", "what", "serves"), CASES, ids=lambda v: str(v).strip()[:40])
def test_one_fault_is_one_problem_at_its_place(old, new, place, what, serves):
    text, position = edited(SMALL, old, new)
    [problem] = problems(text)
    assert problem.place == place
    assert what in problem.what
    assert serves in problem.serves
    if "¤" in new:
        assert (problem.line, problem.column) == position
    assert problem.file == "small.yaml"


def test_a_missing_key_stands_where_its_mapping_begins():
    text, _ = edited(SMALL, ", bearing: 0 deg}", "}")
    [problem] = problems(text)
    assert (problem.line, problem.column) == (4, 16)


def test_bytes_and_text_read_alike():
    assert load_plan(SMALL.encode(), "small.yaml").rig == load_plan(SMALL, "small.yaml").rig


def test_all_faults_of_a_plan_come_at_once_in_the_order_of_the_text():
    text = SMALL
    for old, new in (
        ("title: Straight pull", "titel: Straight pull"), ("bearing: 0 deg", "bearing: 0"), ("2 t", "2 ton"),
        ("kind: tree", "kind: treee"), ("path: [winch, eye]", "path: [winch]"),
    ):  # fmt: skip
        text = text.replace(old, new)
    found = problems(text)
    assert [p.place for p in found] == [
        "/titel", "/bodies/van/moves/bearing", "/bodies/van/weight", "/points/oak/kind", "/lines/rope/path",
    ]  # fmt: skip
    assert list(found) == sorted(found)


def test_all_unknown_names_come_at_once():
    text = SMALL.replace("mounted: oak", "mounted: elm").replace("[winch, eye]", "[winch, eyes.bore, ring]")
    assert [p.place for p in problems(text)] == ["/winch/mounted", "/lines/rope/path/1", "/lines/rope/path/2"]


@pytest.mark.parametrize("text", ["", "# nothing", "3", "[]", "a list", "- rig_plan: 1"])
def test_what_is_no_plan_is_one_problem(text):
    assert len(problems(text)) == 1


def test_a_flood_of_faults_is_cut_short():
    entries = "\n".join(f"  p{i}: {{on: van, at: [0 m, 0 m], knd: tree}}" for i in range(290))
    found = problems(SMALL.replace("points:\n", f"points:\n{entries}\n"))
    assert 1 < len(found) <= 100


def test_the_outline_loads_with_the_figures_it_was_made_for():
    stage = load_plan(OUTLINE, "outline.yaml").rig.stages[0]
    [join] = stage.haul.joins
    assert join.from_dead_end == (24.0, 24.0)
    assert stage.haul.length == (52.0, 52.0)
    assert stage.travel == (6.0, 6.0)
    assert [turn.redirect for turn in stage.haul.turns] == ["ring_a", "block_b"]
    assert stage.redirects["ring_a"].hanger.length_m == pytest.approx(0.25)
    assert stage.redirects["block_b"].hanger.length_m == pytest.approx(1.58)
    assert stage.stops[0].names == {"join_1", "ring_a"}
    assert stage.people[0].cab
    assert stage.points["ash"].at == pytest.approx((17.5893, -0.6142, 0.0), abs=1e-4)


COLD = """
import sys
from riglint.plan.load import load_plan
load_plan(sys.argv[1], "small.yaml")
print([name for name in ("importlib.metadata", "pydantic.plugin._loader", "jsonschema", "rich") if name in sys.modules])
"""


def test_a_first_plan_is_loaded_without_what_it_does_not_need():
    """A search for plug-ins alone would take 20 ms; what stood in for it is gone again."""
    ran = subprocess.run([sys.executable, "-c", COLD, SMALL], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"


def test_faults_of_the_writing_hide_no_others() -> None:
    """A key that stands twice and an anchor don't keep a misspelt key, a unit and a name from being told."""
    text = SMALL.replace("title: Straight pull", "title: Straight pull\ntitle: Again").replace(
        "{on: ground", "&a {on: ground"
    )
    places = ["/title", "/points/oak"]
    spoilt = text.replace("weight: 2 t", "weigth: 2 t").replace("30 m", "30 miles")
    assert [p.place for p in problems(spoilt)] == [
        places[0],
        "/bodies/van/weigth",
        places[1],
        "/lines/rope/pieces/0/wire/length",
    ]
    assert [p.place for p in problems(text.replace("[winch, eye]", "[winch, eyelet]"))] == [
        *places,
        "/lines/rope/path/1",
    ]
    assert [p.place for p in problems(text)] == places


def test_what_comes_of_a_fault_of_the_writing_is_not_told_beside_it() -> None:
    """`*eye` is no value: that none is there needn't be said as well."""
    assert [p.place for p in problems(SMALL.replace("[winch, eye]", "[winch, *eye]"))] == ["/lines/rope/path/1"]


def test_a_plan_with_stages_and_nothing_that_moves_is_refused() -> None:
    stage = "stages: [{name: one, moves: {distance: 5 m, bearing: 0 deg}}]\n"
    still = SMALL.replace("moves: {distance: 5 m, bearing: 0 deg}, ", "")
    [problem] = problems(still + stage)
    assert (problem.place, problem.what) == ("/bodies", "no body has `moves`")


def test_each_name_is_offered_once() -> None:
    [problem] = problems(SMALL.replace("at: [20 m, 0 m]", "at: 20 m bearing 3 deg from ford"))
    assert problem.serves == "use `eye` or `oak`"


def test_half_a_surrogate_pair_does_not_keep_other_faults_from_being_told() -> None:
    text = SMALL.replace("title: Straight pull", 'title: "\\ud800"').replace("weight: 2 t", 'weight: "2 \\ud800"')
    text = text.replace("distance: 5 m", "distance: 5").replace("  eye:", '  "ey\\ud800":')
    assert [p.place for p in problems(text)][:3] == ["/title", "/bodies/van/moves/distance", "/bodies/van/weight"]


@pytest.mark.parametrize(
    "fact",
    ["opening: 20 mm", "groove_for: 10 mm", "loss: 4 %", "passes: [splice]", "passes_width: 20 mm", "open_side: true"],
)
def test_what_only_running_rope_asks_of_a_seat_is_refused_at_a_head(fact: str) -> None:
    """A head takes the hanger; of a key that nothing reads there, one would think that it counts."""
    block = "redirects: {block: {kind: block, hung_from: [oak], head: {HEAD}}}\n"
    load_plan(
        SMALL + block.replace("HEAD", "tread: 20 mm, rated: 40 kN, rated_for: resultant, basis: mark"), "plan.yaml"
    )
    with pytest.raises(ReadingFailed) as failed:
        load_plan(SMALL + block.replace("HEAD", fact), "plan.yaml")
    [problem] = failed.value.problems
    assert problem.place == f"/redirects/block/head/{fact.partition(':')[0]}"
    assert problem.what == f"the key `{fact.partition(':')[0]}` isn't known here"
    data = read_document(SMALL + block.replace("HEAD", fact), "plan.yaml").data
    assert not Draft202012Validator(plan_schema()).is_valid(data)
