"""The house file: where it is found, what it sets, and each way in which it can be wrong."""

from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from riglint.house.context import Contexts
from riglint.house.find import house_files
from riglint.house.schema import house_schema, schema_text
from riglint.outcome import Verdict
from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from riglint.rulebook.book import RulebookError
from tests.house.rigs import RULES, TODAY, context, house, inspection, of, waiver
from tests.kit.rigs import KIT
from tests.rulebook.rigs import rulebook_folder

ROOT = Path(__file__).parents[2]


def wrong(plan: Path):
    with pytest.raises(ReadingFailed) as failed:
        context(plan)
    return failed.value.problems


def test_it_is_found_upward_from_the_plan(tmp_path):
    plan = house(tmp_path, "")
    assert house_files(plan)[0] == tmp_path / "house.yaml"
    (plan.parent / "house.yaml").write_text("")
    assert house_files(plan)[0] == plan.parent / "house.yaml"


def test_where_the_command_runs_is_of_no_account(tmp_path, monkeypatch):
    plan = house(tmp_path / "company", "")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "house.yaml").write_text("")
    monkeypatch.chdir(elsewhere)
    assert house_files(plan)[0] == tmp_path / "company" / "house.yaml"
    assert house_files(Path("../company/jobs/2026/ditch.yaml"))[0] == tmp_path / "company" / "house.yaml"


@pytest.mark.parametrize("inside", [".", "jobs", "jobs/2026"])
def test_a_plan_named_from_within(tmp_path, monkeypatch, inside):
    plan = house(tmp_path, "")
    monkeypatch.chdir(tmp_path / inside)
    [found, *_] = house_files(plan.relative_to(tmp_path / inside))
    assert found is not None
    assert found.resolve() == tmp_path / "house.yaml"


def test_a_house_file_that_is_a_link_to_nowhere_is_not_passed_over(tmp_path):
    plan = house(tmp_path, "")
    (tmp_path / "house.yaml").unlink()
    (tmp_path / "house.yaml").symlink_to(tmp_path / "moved.yaml")
    with pytest.raises(ReadingFailed, match="can't be opened"):
        Contexts().of(plan)


def test_house_files_farther_up_are_told_and_do_not_count(tmp_path):
    """A depot's own file must not lift a company's sterner limits without a word."""
    plan = house(tmp_path / "company" / "depot", "")
    (tmp_path / "company" / "house.yaml").write_text("rig_house: 1\ntitle: Company\nlimits: {warning: {most: 1 m}}\n")
    (tmp_path / "house.yml").write_text("rig_house: 1\ntitle: Group\n")
    found = inspection(plan)
    told = [f.check.where.component for f in found.findings if f.rule == "house-files"]
    assert told == ["house file ../../house.yml", "house file ../house.yaml"]
    assert not found.changed
    assert found.verdict is Verdict.NOT_CLEAR
    nearest = tmp_path / "company" / "depot" / "house.yaml"
    nearest.write_text(nearest.read_text() + "alone: true\n")
    assert not [f for f in inspection(plan).findings if f.rule == "house-files"]


def test_either_ending_will_do_and_another_program_s_file_is_none(tmp_path):
    plan = house(tmp_path / "depot", "")
    (tmp_path / "house.yml").write_text("rooms: [kitchen]\n")
    assert house_files(plan) == [tmp_path / "depot" / "house.yaml"]
    (tmp_path / "depot" / "house.yaml").rename(tmp_path / "depot" / "house.yml")
    assert context(plan).house.file.title == "A house"


def test_a_plan_without_a_house(tmp_path):
    plan = tmp_path / "plan.yaml"
    assert house_files(plan) == []
    assert Contexts().of(plan).house is None
    assert Contexts().of(None).house is None


def test_a_house_that_the_user_names_goes_first(tmp_path):
    plan = house(tmp_path / "one", "")
    house(tmp_path / "two", "set_aside: {warning: other house}\n")
    found = Contexts(house=tmp_path / "two" / "house.yaml", standard=False).of(plan)
    assert found.house is not None
    assert found.house.file.set_aside == {"warning": "other house"}


def test_limits_are_set_and_told(tmp_path):
    plan = house(tmp_path, "limits: {measure: {most: 12 m}}\n", rules=("measure",))
    found = inspection(plan)
    assert found.verdict is Verdict.CLEAR
    [changed] = found.changed
    assert (changed.rule, changed.limit, changed.value.si, changed.milder) == ("measure", "most", 12.0, True)
    assert changed.set_by == "house.yaml"


def test_a_stricter_limit_is_told_too(tmp_path):
    plan = house(tmp_path, "limits: {measure: {most: 9 m}}\n", rules=("measure",))
    assert [c.milder for c in inspection(plan).changed] == [False]


def test_a_limit_of_a_broken_rule_hides_nothing(tmp_path):
    plan = house(tmp_path, "limits: {broken: {most: 9 m}}\n", rules=("warning",))
    (tmp_path / "rules" / "broken.py").write_text("import nothing_of_that_name")
    found = inspection(plan)
    assert [o.rule for o in found.untested] == ["broken"]
    assert len(of(found, "warning")) == 1


@pytest.mark.parametrize(
    ("limit", "serves"),
    [
        ("people-clear: {floor: 0.9}", "write 1 or more"),
        ("people-clear: {strict: 0}", "write 1 or more"),
        ("people-clear: {clearance: 5 ft}", "write 1.8288 m or more"),
        ("stand-off: {floor: 0.5}", "write 1 or more"),
        ("operator-place: {distance: 1 m}", "write 1.8288 m or more"),
    ],
)
def test_nobody_may_stand_nearer_than_any_source_has_it(tmp_path, limit, serves):
    """One line length by FM 4-30.31, 6 ft by NAVEDTRA 14160: else a house could set a DANGER to nothing."""
    plan = house(tmp_path, f"limits: {{{limit}}}\n")
    with pytest.raises(ReadingFailed) as failed:
        Contexts().of(plan)
    [problem] = failed.value.problems
    assert "lets more pass than any source does" in problem.what
    assert problem.serves == serves


def test_a_house_may_choose_between_what_sources_say_and_be_sterner(tmp_path):
    plan = house(tmp_path, "limits: {people-clear: {strict: 1, clearance: 6 ft, floor: 3}}\n")
    limits = Contexts().of(plan).rulebook.limits["people-clear"]
    assert [limits[name] for name in ("strict", "floor")] == [1.0, 3.0]
    assert limits["clearance"] == pytest.approx(1.8288)


# (what the house file says, the place, part of what is found, part of what would serve)
WRONG = [
    ("limit: {}", "/limit", "`limit` isn't known", "`limits`?"),
    ("limits: {mesure: {most: 9 m}}", "/limits/mesure", "no rule of the rulebooks", "`measure`?"),
    ("limits: {zzz: {most: 9 m}}", "/limits/zzz", "no rule of the rulebooks", "`riglint rulebook`"),
    ("limits: {measure: {mots: 9 m}}", "/limits/measure/mots", "no limit of measure", "`most`?"),
    ("limits: {warning: {zzz: 9 m}}", "/limits/warning/zzz", "no limit of warning", "use `most`"),
    ("limits: {measure: {most: 9 kN}}", "/limits/measure/most", "a unit of force", "`mm`"),
    ("limits: {measure: {most: 9}}", "/limits/measure/most", "no unit", "`mm`"),
    ("limits: {measure: {most: -9 m}}", "/limits/measure/most", "", ""),
    ("limits: {measure: {most: 1 m to 2 m}}", "/limits/measure/most", "is a range", "one value"),
    ("limits: {measure: {most: true}}", "/limits/measure/most", "", ""),
    ("limits: {measure: {most: null}}", "/limits/measure/most", "there is nothing here", "leave the key out"),
    ("limits: {measure: 9 m}", "/limits/measure", "where a mapping belongs", ""),
    ("set_aside: {mesure: why}", "/set_aside/mesure", "no rule of the rulebooks", "`measure`?"),
    ("set_aside: {measure: ' '}", "/set_aside/measure", "says nothing", ""),
    ("set_aside: [measure]", "/set_aside", "where a mapping belongs", ""),
    ("kit: [a]", "/kit", "a list where a text", ""),
]


@pytest.mark.parametrize(("text", "place", "found", "serves"), WRONG, ids=[w[0] for w in WRONG])
def test_what_a_house_file_cant_say(tmp_path, text, place, found, serves):
    [problem] = wrong(house(tmp_path, text, rules=("measure", "warning")))
    assert problem.file == str(tmp_path / "house.yaml")
    assert problem.place == place
    assert found in problem.what
    assert serves in problem.serves


@pytest.mark.parametrize("key", ["rule", "plan", "component", "reason", "allowed_by", "until"])
def test_a_waiver_says_everything(tmp_path, key):
    text = waiver().replace(f"{key}:", f"{key}s:")
    [problem] = wrong(house(tmp_path, text))
    assert problem.place == f"/waivers/0/{key}s"
    assert f"`{key}`?" in problem.serves


def test_everything_wrong_is_told_at_once(tmp_path):
    text = "limits: {mesure: {most: 9 m}, warning: {most: 9, least: 3 m}}\nset_aside: {wrning: why}"
    found = [problem.place for problem in wrong(house(tmp_path, text, rules=("measure", "warning")))]
    assert found == ["/limits/mesure", "/limits/warning/most", "/limits/warning/least", "/set_aside/wrning"]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("limts: {}\nset_aside: {wrning: why}", ["/limts", "/set_aside/wrning"]),
        ("limits: {mesure: {}, warning: {most: 9}}\ntitel: x", ["/limits/mesure", "/limits/warning/most", "/titel"]),
        ("limits: {mesure: {most: }, warning: {least: 3 m}}",
         ["/limits/mesure", "/limits/mesure/most", "/limits/warning/least"]),
        ("waivers: [{rule: a}]\nset_aside: {wrning: why}", [*["/waivers/0"] * 5, "/set_aside/wrning"]),
        ("title: twice\nlimts: {}\nset_aside: {wrning: why}", ["/title", "/limts", "/set_aside/wrning"]),
        ("rig_hose: 1\nset_aside: {wrning: why}", ["/rig_hose", "/set_aside/wrning"]),
    ],
)  # fmt: skip
def test_a_key_that_is_wrong_keeps_no_name_from_being_told(tmp_path, text, places):
    assert [problem.place for problem in wrong(house(tmp_path, text, rules=("measure", "warning")))] == places


def test_a_house_file_without_a_sound_part_is_still_told_of(tmp_path):
    plan = house(tmp_path, "")
    (tmp_path / "house.yaml").write_text("[set_aside, limits]\n")
    [problem] = wrong(plan)
    assert (problem.place, problem.what) == ("", "a list where a mapping belongs")


def test_every_folder_that_holds_no_rulebook_is_told_and_its_rules_are_not_called_none(tmp_path):
    plan = house(tmp_path, "")
    text = "rig_house: 1\ntitle: A house\nrulebooks: [none, rules, neither]\nset_aside: {of_none: why}\n"
    (tmp_path / "house.yaml").write_text(text + "limits: {warning: {zzz: 9 m}}\n")
    assert [p.place for p in wrong(plan)] == ["/rulebooks/0", "/rulebooks/2", "/limits/warning/zzz"]


def test_where_rulebooks_cant_be_read_their_rules_are_not_called_none(tmp_path):
    plan = house(tmp_path, "")
    for line in ("rulebook: [rules]", "rulebooks: rules"):
        (tmp_path / "house.yaml").write_text(f"rig_house: 1\ntitle: A house\n{line}\nset_aside: {{warning: why}}\n")
        [problem] = wrong(plan)
        assert problem.line == 3


def test_a_folder_that_holds_no_rulebook_is_the_house_files_fault(tmp_path):
    plan = house(tmp_path, "")
    (tmp_path / "house.yaml").write_text("rig_house: 1\ntitle: A house\nrulebooks: [rules, none]\n")
    [problem] = wrong(plan)
    assert (problem.place, problem.line) == ("/rulebooks/1", 3)


def test_a_folder_that_the_user_names_is_the_users_to_mend(tmp_path):
    plan = house(tmp_path, "")
    contexts = Contexts([tmp_path / "none"], standard=False)
    for at in (plan, None):
        with pytest.raises(RulebookError):
            contexts.of(at)


def test_a_rulebook_that_both_name_is_loaded_once(tmp_path):
    plan = house(tmp_path, "")
    book = Contexts([tmp_path / "jobs" / ".." / "rules"], standard=False).of(plan).rulebook
    assert [rule.slug for rule in book.rules] == ["good", "warning"]


def test_a_rulebook_may_be_named_from_here(tmp_path, monkeypatch):
    house(tmp_path, "")
    monkeypatch.chdir(tmp_path / "jobs")
    for named in ("../rules", "./../rules"):
        book = Contexts([Path(named)], standard=False).of(None).rulebook
        assert (len(book.rules), book.broken) == (2, ())


def test_two_rulebooks_with_one_rule_are_refused(tmp_path):
    plan = house(tmp_path, "")
    rulebook_folder(tmp_path / "more", {"warning": RULES["warning"]}, name="more")
    text = (tmp_path / "house.yaml").read_text().replace("[rules]", "[rules, more]")
    (tmp_path / "house.yaml").write_text(text)
    [problem] = wrong(plan)
    assert problem.place == "/rulebooks/1"
    assert "stands in two rulebooks" in problem.what


def test_a_plan_never_has_code_run(tmp_path):
    """Neither a key of a plan nor a rulebook beside it does: only the user and the house file name one."""
    marker = tmp_path / "ran"
    folder = rulebook_folder(tmp_path / "rulebook", {"warning": RULES["warning"]})
    (folder / "evil.py").write_text(f"open({str(marker)!r}, 'w').close()")
    plan = tmp_path / "plan.yaml"
    for key in ("rulebook", "rulebooks", "house"):
        plan.write_text(f"rig_plan: 1\ntitle: x\n{key}: [rulebook]\n")
        with pytest.raises(ReadingFailed):
            Contexts().of(plan).load(plan.read_bytes(), "plan.yaml")
    assert not marker.exists()


@pytest.mark.parametrize(
    ("house_says", "plan_says", "chosen", "gear"),
    [
        ("kit: house-kit.yaml\n", "", None, "house"),
        ("kit: house-kit.yaml\n", "kit: own-kit.yaml\n", None, "plan"),
        ("kit: own-kit.yaml\n", "kit: house-kit.yaml\n", None, "house"),
        ("kit: house-kit.yaml\n", "kit: own-kit.yaml\n", "chosen-kit.yaml", "user"),
    ],
)
def test_which_kit(tmp_path, house_says, plan_says, chosen, gear):
    plan = house(tmp_path, house_says)
    owners = {"house": tmp_path / "house-kit.yaml", "plan": plan.parent / "own-kit.yaml",
              "user": tmp_path / "chosen-kit.yaml"}  # fmt: skip
    for owner, file in owners.items():
        file.write_text(KIT.replace("serial: B1", f"serial: {owner}"))
    text = plan.read_text().replace("bow: {kind: bow shackle}", "bow: {from_kit: S-1}") + plan_says
    found = Contexts(kit=tmp_path / chosen if chosen else None, today=TODAY, standard=False).of(plan)
    rig = found.load(text, "plan.yaml").rig
    assert rig.kit["/connectors/bow"].serial == gear
    assert rig.today == TODAY


def test_a_plan_that_uses_no_kit_needs_none(tmp_path):
    plan = house(tmp_path, "kit: none.yaml\n")
    assert context(plan).load(plan.read_bytes(), "plan.yaml").rig.kit == {}


def test_the_schema_is_current_and_takes_the_example():
    assert (ROOT / "schemas/house.schema.json").read_text() == schema_text()
    Draft202012Validator.check_schema(house_schema())
    text = (ROOT / "examples/company/house.yaml").read_text()
    assert list(Draft202012Validator(house_schema()).iter_errors(read_document(text, "h").data)) == []
