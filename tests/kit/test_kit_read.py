"""Each way in which a kit can be wrong: one clear problem at its own place; and the schema agrees."""

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from riglint.kit.gear import KINDS
from riglint.kit.read import open_kit, read_kit
from riglint.kit.schema import kit_schema, schema_text
from riglint.reading.document import read_document
from tests.kit.rigs import KIT, edited, problems_of

ROOT = Path(__file__).parents[2]
VALIDATOR = Draft202012Validator(kit_schema())

# (what stands in the kit, what stands there instead, the place, part of what is found, part of what would serve,
#  whether a schema can see it)
CASES = [
    ("rig_kit: 1", "rig_kit: 2", "/rig_kit", "`2` isn't known", "write `1`", True),
    ("rig_kit: 1", "rig_kit: true", "/rig_kit", "`true` isn't known", "write `1`", True),
    ("title: Lorry 2\n", "", "", "`title` is missing", "add `title:`", True),
    ("title: Lorry 2", "title: Lorry 2\ngeer: {}", "/geer", "`geer` isn't known", "`gear`", True),
    ("  S-1: {is:", "  S 1: {is:", "/gear/S 1", "`S 1` can't be a number of gear", "use letters", True),
    ("S-1: {is: connector, ", "S-1: {", "/gear/S-1", "`is` is missing", "add `is:` (what it is: `piece`", True),
    ("S-1: {is: connector", "S-1: {is: conector", "/gear/S-1/is", "`conector` is none", "`connector`?", True),
    ("kind: bow shackle", "kind: bow shackel", "/gear/S-1/kind", "`bow shackel`", "`bow shackle`?", True),
    ("kind: bow shackle", "kid: bow shackle", "/gear/S-1/kid", "`kid` isn't known", "`kind`?", True),
    ("working_load: 4.75 t", "working_load: 4.75", "/gear/S-1/working_load", "no unit", "add `g`", True),
    ("working_load: 4.75 t", "wrapped: basket", "/gear/S-1/wrapped", "how the gear is rigged", "in the plan", True),
    ("loss: 4 %", "hung_from: [a, b]", "/gear/B-1/hung_from", "how the gear is rigged", "in the plan", True),
    ("stall_pull: 50 kN", "mounted: bed", "/gear/W-1/mounted", "how the gear is rigged", "in the plan", True),
    ("rated: 30 kN", "at: [1 m, 2 m]", "/gear/P-1/at", "how the gear is rigged", "in the plan", True),
    ("stall_pull: 50 kN", "fairlead: {bearing: 9 deg}", "/gear/W-1/fairlead/bearing", "how the gear", "plan", False),
    ("stall_pull: 50 kN", "stall_pull: 30 kN", "/gear/W-1/stall_pull", "less than `rated_pull`", "most", False),
    ("serial: B1", "from_kit: S-2", "/gear/S-1/from_kit", "how the gear is rigged", "in the plan", True),
    ("2026-01-31", "31.1.2026", "/gear/P-1/inspected", "`31.1.2026` where a day", "`2026-03-14`", True),
    ("2026-01-31", "2026-02-30", "/gear/P-1/inspected", "`2026-02-30` where a day", "`2026-03-14`", False),
    ("2026-01-31", "20260131", "/gear/P-1/inspected", "`20260131` where a day", "`2026-03-14`", True),
    ("1 month", "monthly", "/gear/P-1/inspection_interval", "`monthly` where", "`6 months`", True),
    ("1 month", "0 days", "/gear/P-1/inspection_interval", "`0 days` where", "`6 months`", True),
    ("retired: cut", "retired: no", "/gear/S-3/retired", "`no` where", "write `false`", False),
    ("retired: cut", "retired: ' '", "/gear/S-3/retired", "where `true`, `false`", "write `false`", True),
    ("retired: cut", "retired: 3", "/gear/S-3/retired", "`3` where", "write `false`", True),
    ("retired: cut", "retired: null", "/gear/S-3/retired", "there is nothing here", "leave the key out", True),
    ("serial: B1", "serial: 7", "/gear/S-1/serial", "`7` where a text belongs", "in quotes", True),
]


@pytest.mark.parametrize(("old", "new", "place", "found", "serves", "by_schema"), CASES, ids=[c[1] for c in CASES])
def test_what_a_kit_cant_say(old, new, place, found, serves, by_schema):
    text = edited(KIT, (old, new))
    [problem] = problems_of(lambda: read_kit(text, "kit.yaml"))
    assert problem.place == place
    assert found in problem.what
    assert serves in problem.serves
    assert VALIDATOR.is_valid(read_document(text, "kit.yaml").data) is not by_schema


def test_everything_wrong_is_told_at_once():
    text = edited(KIT, ("retired: cut", "retired: no"), ("4.75 t", "4.75"), ("1 month", "monthly"))
    assert [p.place.split("/")[-1] for p in problems_of(lambda: read_kit(text, "k"))] == [
        "working_load", "retired", "inspection_interval",
    ]  # fmt: skip


@pytest.mark.parametrize("text", [KIT, (ROOT / "examples/company/kit.yaml").read_text()], ids=["small", "company"])
def test_a_sound_kit_is_sound_by_its_schema(text):
    assert read_kit(text, "kit.yaml").gear
    assert list(VALIDATOR.iter_errors(read_document(text, "kit.yaml").data)) == []


def test_the_schema_is_current():
    assert (ROOT / "schemas/kit.schema.json").read_text() == schema_text()
    Draft202012Validator.check_schema(kit_schema())


def test_the_schema_knows_all_kinds_and_nothing_of_how_gear_is_rigged():
    definitions = kit_schema()["$defs"]
    for kind in KINDS.values():
        properties = definitions[kind.__name__]["properties"]
        assert {"is", "serial", "inspected", "inspection_interval", "retired", "notes"} <= set(properties)
        assert not kind.rigged_by & set(properties)
    assert "UnknownGear" not in json.dumps(kit_schema())


@pytest.mark.parametrize(("word", "reason"), [("true", "no reason given"), ("false", ""), ("pin bent", "pin bent")])
def test_what_retired_may_say(word, reason):
    kit = read_kit(edited(KIT, ("retired: cut", f"retired: {word}")), "kit.yaml")
    assert kit.gear["S-3"].record.retired == reason


def test_a_kit_that_cant_be_opened(tmp_path):
    [problem] = problems_of(lambda: open_kit(tmp_path / "none.yaml"))
    assert "can't be opened" in problem.what


def test_gear_stands_where_it_is_written():
    assert read_kit(KIT, "kit.yaml").place("S-1") == "kit.yaml:7"


def test_a_key_that_stands_twice_keeps_no_other_fault_from_being_told():
    text = edited(
        KIT, ("title: Lorry 2\n", "title: Lorry 2\ntitle: Lorry 3\ngeer: {}\n"),
        ("kind: bow shackle", "kid: bow shackle"), ("2026-01-31", "2026-02-30"),
    )  # fmt: skip
    places = [problem.place for problem in problems_of(lambda: read_kit(text, "kit.yaml"))]
    assert places == ["/title", "/geer", "/gear/S-1/kid", "/gear/P-1/inspected"]
