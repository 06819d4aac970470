"""From a question to parts, line, kit and a plan that prepull reads."""

from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from riglint.commands.exits import Exit
from riglint.estimate.ask import ask
from riglint.estimate.data import as_json
from riglint.estimate.schema import estimate_schema, schema_text
from riglint.estimate.starter import NoStartError, starter
from riglint.estimate.text import report
from riglint.outcome import Result, Verdict
from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from tests.estimate.asks import BOG, KIT, TRUCK, asked, checked

ROOT = Path(__file__).parents[2]


def numbers(found, place):
    return {fit.number: fit.result for what, fits in found.others if what.startswith(place) for fit in fits}


def test_what_of_the_kit_serves(tmp_path):
    found = asked(tmp_path, TRUCK, KIT)
    assert found.serves is not None
    assert found.serves.parts == 3
    assert found.rope == "R-1"
    assert {fit.number: fit.result for fit in found.rope_fits} == {"R-2": Result.FAILED, "R-1": Result.PASSED}
    blocks = numbers(found, "block")
    assert blocks == {
        "B-1": Result.PASSED, "B-2": Result.PASSED,
        "B-3": Result.FAILED,  # for another size of rope
        "B-4": Result.CANT_TELL,  # line or resultant isn't said
    }  # fmt: skip
    both = numbers(found, "connector with both")
    assert both["S-1"] is Result.PASSED  # 76 kN of 83 kN at stall
    assert {both[n] for n in ("S-3", "S-4", "S-5")} == {Result.FAILED}  # 46, 20, and retired


def test_each_piece_of_gear_is_chosen_once_and_the_least_that_serves(tmp_path):
    found = asked(tmp_path, TRUCK, KIT)
    chosen = [fit.number for place in found.places for fit in (place.block, place.connector, place.anchor) if fit]
    assert sorted(chosen) == ["B-1", "B-2", "S-1", "S-2", "S-3"]


def test_the_line(tmp_path):
    line = asked(tmp_path, TRUCK, KIT).line
    assert line is not None
    assert (line.out_m, line.comes_in_m) == (75.0, 18.0)
    assert line.stays_m == pytest.approx(5 * 0.9238, abs=0.01)  # five wraps of pi (280 + 14) mm
    assert line.needed_m == pytest.approx(75.0 + 4.618 + 0.5, abs=0.01)


def test_what_stays_on_a_drum_that_was_hard_to_measure_is_the_most_that_it_may_be(tmp_path):
    """Five wraps of pi (300 + 14) mm, and not of a barrel of 280 mm."""
    assert "diameter: 280 mm" in KIT
    line = asked(tmp_path, TRUCK, KIT.replace("diameter: 280 mm", "diameter: 280 mm to 300 mm")).line
    assert line is not None
    assert line.stays_m == pytest.approx(5 * 0.9865, abs=0.01)


def test_pull_is_that_of_the_layer_at_the_end_of_the_pull(tmp_path):
    found = asked(tmp_path, TRUCK, KIT)
    assert found.serves is not None
    # 110 m less 3 x 19 m are 53 m; a layer of 21 wraps takes 19.4, 21.2, 23.1 m.
    assert found.serves.gives.layer == 3
    assert found.serves.gives.pull_n == pytest.approx(32_000 * 294 / 350)


def test_the_plan_says_what_was_given_and_prepull_agrees(tmp_path):
    found = asked(tmp_path, TRUCK, KIT)
    plan = tmp_path / "plan.yaml"
    plan.write_text(starter(found, tmp_path))
    solution, inspection = checked(plan)
    assert inspection.verdict is Verdict.CANT_TELL  # anchors and people were never said
    assert solution.stages[0].parts == 3
    outcomes = {o.rule: o.result for o in inspection.outcomes}
    assert outcomes["enough-pull"] is Result.PASSED
    assert outcomes["enough-line"] is Result.PASSED
    assert outcomes["drum-wraps"] is Result.PASSED
    assert outcomes["anchor-rating"] is Result.CANT_TELL
    assert not [f for f in inspection.findings if f.result is Result.FAILED and f.grade.rank <= 1]


@pytest.mark.parametrize("weight", ["1 t", "2.5 t", "4 t", "6 t", "8 t to 9 t"])
@pytest.mark.parametrize("kit", [KIT, ""])
def test_every_plan_loads_and_asks_for_no_more_than_the_ladder_says(tmp_path, weight, kit):
    winch = "" if kit else "winch: {rated_pull: 32 kN, rated_layer: 1}\n"
    found = asked(tmp_path, TRUCK.replace("5.6 t to 6.0 t", weight) + winch, kit)
    assert found.serves is not None
    plan = tmp_path / "plan.yaml"
    plan.write_text(starter(found, tmp_path))
    solution, _ = checked(plan)
    stage = solution.stages[0]
    assert stage.parts == found.serves.parts
    assert stage.refused is None
    needed = max(station.line_pull_doctrine_n or 0.0 for station in stage.stations)
    assert needed <= found.serves.line_n * 1.001


def test_a_kit_out_of_the_plans_reach_is_written_out(tmp_path):
    found = asked(tmp_path, TRUCK, KIT)
    elsewhere = tmp_path / "jobs" / "plan.yaml"
    elsewhere.parent.mkdir()
    elsewhere.write_text(starter(found, elsewhere.parent))
    assert "from_kit" not in elsewhere.read_text()
    near = tmp_path / "plan.yaml"
    near.write_text(starter(found, tmp_path))
    assert "from_kit: S-1" in near.read_text()
    far, own = checked(elsewhere)[0].stages[0], checked(near)[0].stages[0]
    assert far.peaks == own.peaks


def test_nothing_is_rated_that_nobody_rated(tmp_path):
    text = starter(asked(tmp_path, BOG), tmp_path)
    data = read_document(text, "plan.yaml").data
    assert data["winch"] == {"mounted": "winch_mount", "rated_pull": "20000 lbf", "rated_layer": 1}
    assert data["lines"]["haul"]["pieces"] == [{"mainline": {}}]
    assert all(set(point) == {"on", "at"} for point in data["points"].values())
    assert all(set(block) == {"kind", "sheave", "hung_from"} for block in data["redirects"].values())


def test_a_point_of_the_kit_is_an_anchor(tmp_path):
    points = (
        "  P-1: {is: point, kind: ground anchor, rated: 90 kN}\n  P-2: {is: point, kind: ground anchor, rated: 9 kN}\n"
    )
    found = asked(tmp_path, TRUCK, KIT + points)
    assert numbers(found, "anchor") == {"P-1": Result.PASSED, "P-2": Result.FAILED}
    plan = tmp_path / "plan.yaml"
    plan.write_text(starter(found, tmp_path))
    point = checked(plan)[0].stages[0].stage.points["anchor_1"]
    assert point.facts.rated == (90_000.0, 90_000.0)


def test_a_ring_without_a_bore_carries_no_running_rope(tmp_path):
    found = asked(tmp_path, TRUCK, KIT + "  B-9: {is: redirect, kind: ring, groove: {rated: 90 kN, rated_for: line}}\n")
    assert numbers(found, "block")["B-9"] is Result.FAILED


def test_gear_out_of_use_is_refused(tmp_path):
    with pytest.raises(ReadingFailed, match="taken out of use: cut"):
        asked(tmp_path, TRUCK + "rope: {from_kit: R-1}\n", KIT.replace("length: 110 m", "retired: cut, length: 110 m"))


@pytest.mark.parametrize(
    ("old", "new", "done"),
    [
        ("length: 110 m, breaking: 124 kN", "length: 110 m, breaking: 124 kN, condition: good", True),
        ("length: 110 m, breaking: 124 kN", "length: 110 m, breaking: 70 kN", False),  # 38 kN at stall, twice
        ("length: 110 m, breaking: 124 kN", "length: 110 m, breaking: 124 kN, condition: [corroded, kinked]", False),
    ],
)
def test_a_rope_that_wont_do_is_no_answer(tmp_path, old, new, done):
    """What stands in the kit as damaged, or breaks at less than twice the stall, ends in a refusal, not in a plan."""
    found = asked(tmp_path, TRUCK, KIT.replace(old, new))
    assert found.rope == "R-1"
    assert (found.is_done, "BUT THE ROPE WON'T DO" in report(found)) == (done, not done)


@pytest.mark.parametrize(("seen", "result"), [("cut", Result.FAILED), ("corroded", Result.CANT_TELL)])
def test_damaged_gear_is_not_offered(tmp_path, seen, result):
    found = asked(tmp_path, TRUCK, KIT.replace("working_load: 46 kN}", f"working_load: 46 kN, condition: {seen}}}"))
    assert numbers(found, "connector with one")["S-3"] is result
    assert numbers(found, "connector with one")["S-1"] is Result.PASSED


@pytest.mark.parametrize(("breaking", "result"), [("70 kN", Result.FAILED), ("90 kN", Result.CANT_TELL)])
def test_a_rope_that_would_do_but_for_its_ends_cant_be_told(tmp_path, breaking, result):
    """The stall's 38 kN is below half of 90 kN, and above what the worst of ends leaves of it; above half of 70 kN."""
    found = asked(
        tmp_path, TRUCK, KIT.replace("length: 110 m, breaking: 124 kN", f"length: 110 m, breaking: {breaking}")
    )
    [fit] = [fit for fit in found.rope_fits if fit.number == "R-1"]
    assert fit.result is result
    assert ("ends" in fit.why) == ("BUT WHETHER THE ROPE WILL DO CAN'T BE TOLD" in report(found))
    assert ("ends" in fit.why) == (result is Result.CANT_TELL)
    assert not found.is_done


def test_gear_whose_inspection_ran_out_comes_after_gear_that_is_looked_over(tmp_path):
    """S-1 and S-2 are alike; six months from the tenth of February end on the tenth of August."""
    looked_over = "working_load: 83 kN, inspected: 2026-02-10, inspection_interval: 6 months}\n  S-2:"
    kit = KIT.replace("working_load: 83 kN}\n  S-2:", looked_over)
    before, after = (asked(tmp_path, TRUCK, kit, day=date(2026, 8, day)) for day in (10, 11))
    assert "inspection" not in report(before)
    assert "S-1: serves, 76 kN of 83 kN, 92 %; its inspection ran out after 2026-08-10" in report(after)
    first = [[p.connector.number for p in found.places if p.connector and p.is_block] for found in (before, after)]
    assert first == [["S-1", "S-2"], ["S-2", "S-1"]]


def test_gear_that_nobody_rated_is_no_answer(tmp_path):
    """With both good shackles unrated what holds the blocks can't be told; the ladder stands as it was."""
    found = asked(tmp_path, TRUCK, KIT.replace(", working_load: 83 kN", ""))
    assert found.serves
    assert found.sure
    assert not found.is_done
    assert "BUT WHETHER THE KIT DOES CAN'T BE TOLD: see below what isn't known of its gear for block 1" in report(found)


def test_a_title_with_marks_of_yaml_comes_back(tmp_path):
    title = 'Lorry: "deep" # {not} a comment, on 3 t'
    found = asked(tmp_path, BOG + f"title: '{title}'\n")
    assert read_document(starter(found, tmp_path), "plan.yaml").data["title"] == title


@pytest.mark.parametrize("gone", ["distance", "reach"])
def test_no_plan_without_places(tmp_path, gone):
    text = "".join(line for line in BOG.splitlines(keepends=True) if not line.startswith(gone))
    found = asked(tmp_path, text)
    assert gone in found.missing
    with pytest.raises(NoStartError, match=gone):
        starter(found, tmp_path)


@pytest.mark.parametrize("gone", ["weight", "ground", "winch"])
def test_what_is_missing_is_never_a_pass(tmp_path, gone):
    text = "".join(line for line in BOG.splitlines(keepends=True) if not line.startswith(gone))
    found = asked(tmp_path, text)
    assert found.serves is None
    assert not found.sure
    assert report(found).startswith("CAN'T TELL")
    assert any(fact.startswith(gone) for fact in found.missing)
    with pytest.raises(NoStartError):
        starter(found, tmp_path)


def test_a_slope_that_isnt_stated_may_take_more_parts(tmp_path):
    known, unknown = asked(tmp_path, TRUCK, KIT), asked(tmp_path, TRUCK.replace(", slope: 4 deg up", ""), KIT)
    assert known.sure
    assert report(known).startswith("3 PARTS")
    assert unknown.serves
    assert not unknown.sure
    assert report(unknown).startswith("AT LEAST ")


def test_stall_is_not_guessed(tmp_path):
    found = asked(tmp_path, TRUCK, KIT.replace("rated_layer: 1, ", ""))
    assert found.stall_n is None
    assert not {Result.PASSED} & set(numbers(found, "connector with one").values())
    assert "can't be told" in report(found)


def test_worse_input_never_takes_fewer_parts(tmp_path):
    parts = []
    for weight in ("1 t", "2 t", "4 t", "8 t", "12 t"):
        found = asked(tmp_path, TRUCK, KIT, weight=weight)
        parts.append(found.serves.parts if found.serves else 99)
    assert parts == sorted(parts)
    assert parts[0] < parts[-1]


def test_options_go_before_the_file(tmp_path):
    assert asked(tmp_path, BOG, weight="5000 lb").load_n == pytest.approx(10_000 * 4.4482216)
    found = asked(tmp_path, BOG, ground__mired="wheel depth")
    assert found.load_n == pytest.approx(25_000 * 4.4482216)
    assert found.resistance.missing == ()  # the file's slope still stands


@pytest.mark.parametrize(
    ("text", "options", "place", "serves"),
    [
        (BOG.replace("fender depth", "fender depht"), {}, "/ground/mired", "fender depth"),
        (BOG, {"weight": "6"}, "/weight", "add"),
        (BOG, {"distance": "300 ft"}, "/distance", "short of the winch"),
        ("wieght: 6 t\n", {}, "/wieght", "`weight`?"),
        (BOG.replace("rated_pull: 20000 lbf", "from_kit: W-1"), {}, "/winch/from_kit", "name the kit"),
        (BOG + "kit: ../kit.yaml\n", {}, "/kit", "write the kit's file"),
    ],
)
def test_what_cant_be_asked(tmp_path, text, options, place, serves):
    with pytest.raises(ReadingFailed) as failed:
        asked(tmp_path, text, **options)
    [problem] = failed.value.problems
    assert problem.place == place
    assert serves in problem.serves


@pytest.mark.parametrize(
    ("text", "options", "places"),
    [
        ("wieght: 3 t\nkit: none.yaml\nrope: {from_kit: R-1, lenght: 3 m}", {}, ["/wieght", "/kit", "/rope/lenght"]),
        ("kit: kit.yaml\nrope: {from_kit: R-9}\nwinch: {from_kit: W-9, rated_pul: 3 kN}", {},
         ["/rope/from_kit", "/winch/from_kit", "/winch/rated_pul"]),
        ("reach: 9 m\nreach: 8 m\nwieght: 3 t", {}, ["/reach", "/wieght"]),
        ("reach: 9 m\nreach: 8 m\nwieght: 3 t", {"distance": "3 metrs"}, ["/reach", "/wieght", "/distance"]),
    ],
)  # fmt: skip
def test_everything_wrong_is_told_at_once(tmp_path, text, options, places):
    (tmp_path / "kit.yaml").write_text(KIT)
    (tmp_path / "question.yaml").write_text(text)
    with pytest.raises(ReadingFailed) as failed:
        ask(tmp_path / "question.yaml", options)
    assert sorted(problem.place for problem in failed.value.problems) == sorted(places)


def test_the_command(tmp_path, capsys):
    from riglint.commands.estimate import EstimateCall, run

    (tmp_path / "kit.yaml").write_text(KIT)
    (tmp_path / "question.yaml").write_text(TRUCK)
    out = tmp_path / "plan.yaml"
    call = EstimateCall(tmp_path / "question.yaml", {}, tmp_path / "kit.yaml", out)
    assert run(call) is Exit.CLEAR
    assert capsys.readouterr().out.startswith("3 PARTS")
    checked(out)
    assert (
        run(call._replace(options={"winch/from_kit": "W-1", "winch/rated_pull": "1 kN"}, out=None)) is Exit.UNREADABLE
    )  # the kit says 32
    assert run(call._replace(options={"weight": "400 t"}, form="json")) is Exit.HALTED
    told = capsys.readouterr()
    assert '"parts":null' in told.out
    assert "no plan is written" in told.err


def test_json_is_json(tmp_path):
    import json

    data = json.loads(as_json(asked(tmp_path, TRUCK, KIT)))
    assert data["parts"] == 3
    assert [rung["parts"] for rung in data["ladder"]] == [2, 3]


def test_the_schema():
    assert (ROOT / "schemas/estimate.schema.json").read_text() == schema_text()
    Draft202012Validator.check_schema(estimate_schema())
    validator = Draft202012Validator(estimate_schema())
    assert validator.is_valid(read_document(BOG, "q").data)
    assert not validator.is_valid({"winch": {"mounted": "bed"}})
    assert not validator.is_valid({"weight": "6"})


BY_HAND = [
    # wheel depth 1 x 6 t = 58.8 kN; 58.8 / 40 rounds up to 2; (58.8 + 5.9) / 2 = 32.4 < 40
    ({"weight": "6 t", "ground__mired": "wheel depth", "winch__rated_pull": "40 kN"}, 58_840, 2, 32_362),
    # fender depth 2 x 25,000 lb; 2.5 rounds up to 3, 60,000 / 3 is 20,000 and not less; 65,000 / 4 = 16,250 lbf
    ({"weight": "25000 lb", "ground__mired": "fender depth", "winch__rated_pull": "20000 lbf"}, 222_411, 4, 72_284),
    # cab depth 3 x 2 t = 58.8 kN; 1.96 rounds up to 2, 64.7 / 2 = 32.4 is more than 30; 70.6 / 3 = 23.5
    ({"weight": "2 t", "ground__mired": "cab depth", "winch__rated_pull": "30 kN"}, 58_840, 3, 23_536),
    # gravel 10 % of 29.4 kN, and sin 10 deg of it: 2.94 + 5.11
    ({"weight": "3 t", "ground__mired": "none", "ground__surface": "gravel", "ground__slope": "10 deg up",
      "winch__rated_pull": "30 kN"}, 8_051, 1, 8_051),
    # as measured: 90 / 40 rounds up to 3; 90 x 1.2 / 3 = 36
    ({"weight": "9 t", "resistance": "90 kN", "winch__rated_pull": "40 kN"}, 90_000, 3, 36_000),
    # on its side: half of 10 t; 49.03 / 26 rounds up to 2; 53.9 / 2 = 26.97 is more than 26; 58.8 / 3 = 19.6
    ({"weight": "10 t", "overturned": True, "ground__surface": "gravel", "winch__rated_pull": "26 kN"}, 49_033, 3,
     19_613),
]  # fmt: skip


@pytest.mark.parametrize(("options", "resistance_n", "parts", "line_n"), BY_HAND)
def test_six_jobs_by_hand(tmp_path, options, resistance_n, parts, line_n):
    """By the ladder of lesson 63H34F01 with the multiples of FM 9-43-2 (from memory), worked on paper."""
    found = asked(tmp_path, **({"ground__slope": "0 deg", "distance": "6 m", "reach": "25 m"} | options))
    assert found.load_n == pytest.approx(resistance_n, rel=2e-4)
    assert found.serves is not None
    assert found.serves.parts == parts
    assert found.serves.line_n == pytest.approx(line_n, rel=2e-4)


def test_a_rope_that_is_too_short_and_a_kit_that_lacks_blocks_are_said_first(tmp_path):
    bogged = TRUCK.replace("wheel depth", "fender depth")
    found = asked(tmp_path, bogged, KIT)
    assert found.sure
    assert not found.is_done
    first = report(found).splitlines()[:4]
    assert first[1].startswith("BUT THE ROPE IS TOO SHORT: it takes ")
    assert first[2].startswith("BUT THE KIT DOESN'T REACH: ")
    assert asked(tmp_path, TRUCK, KIT).is_done


def test_what_doctrine_would_have_is_said_where_the_surface_gives_less(tmp_path):
    rolling = {"weight": "3 t", "ground__mired": "none", "ground__surface": "gravel", "ground__slope": "10 deg up"}
    found = asked(tmp_path, **rolling, winch__rated_pull="29 kN", winch__rated_layer=1)
    assert found.doctrine is not None
    assert found.doctrine.resistance_n == pytest.approx(3000 * 9.80665)
    assert found.doctrine.rung.parts == 2
    assert asked(tmp_path, TRUCK, KIT).doctrine is None
