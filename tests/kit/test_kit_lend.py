"""Gear of a kit in a plan: what the kit lends, what the plan may say, and what can't be."""

from datetime import date

import pytest

from riglint.kit.dates import Interval, last_day
from riglint.plan.load import load_plan
from riglint.solve.solve import solve
from tests.kit.rigs import KIT, PLAN, edited, problems_of, written_out

ALL_SAID = """\
rig_plan: 1
title: Gear of a kit
bodies:
  van: {moves: {distance: 5 m, bearing: 0 deg}, resistance: {steady: 9 kN}}
points:
  eye: {on: van, at: [0 m, 0 m]}
  anchor: {on: ground, at: [30 m, 0 m], kind: ground anchor, rated: 30 kN}
winch:
  mounted: anchor
  rated_pull: 40 kN
  rated_layer: 1
  stall_pull: 50 kN
  drum: {diameter: 90 mm, width: 200 mm, flange: 190 mm}
lines:
  haul:
    pieces:
      - main: {rope: hmpe, diameter: 11 mm, length: 40 m, breaking: 115 kN, basis: certificate}
      - join: {kind: soft shackle, breaking: 150 kN, basis: maker's sheet}
      - more: {rope: hmpe, diameter: 11 mm, length: 19 m, breaking: 115 kN, condition: [glazed, fuzzy, cut]}
    path: [winch, block.sheave, [bow, anchor]]
redirects:
  block:
    {kind: block, loss: 4 %, hung_from: [strap, eye],
     sheave: {tread: 110 mm, groove_for: 10 mm to 12 mm, rated: 60 kN, rated_for: line}}
connectors:
  bow: {kind: bow shackle, length: 0.1 m, working_load: 4.75 t, diameter: 22 mm, wrapped: single}
  strap: {kind: strap, working_load: 60 kN, wrapped: basket}
"""


def facts(text: str) -> dict:
    plan = text.plan.model_dump(exclude_none=True)

    def without(data):
        if isinstance(data, dict):
            return {key: without(value) for key, value in data.items() if key != "from_kit"}
        return [without(value) for value in data] if isinstance(data, list | tuple) else data

    return without(plan)


def test_a_plan_with_a_kit_is_the_plan_written_out():
    assert facts(written_out(PLAN)) == facts(load_plan(ALL_SAID, "plan.yaml"))


def test_everything_after_is_as_if_written_out():
    with_kit, without = solve(written_out(PLAN).rig), solve(load_plan(ALL_SAID, "plan.yaml").rig)
    assert with_kit.stages[0].peaks == without.stages[0].peaks


def test_what_the_kit_lends_stands_where_the_gear_is_named():
    document = written_out(PLAN).document
    lines = PLAN.splitlines()
    for pointer in ("/connectors/bow/working_load", "/redirects/block/sheave/tread", "/winch/rated_pull"):
        at = document.key_position(pointer)
        assert lines[at.line - 1][at.column - 1 :].startswith("from_kit: ")
    own = document.key_position("/redirects/block/sheave/groove_for")
    assert lines[own.line - 1][own.column - 1 :].startswith("groove_for")
    missing = document.key_position("/connectors/bow/off_line")
    assert lines[missing.line - 1][missing.column - 1 :].startswith("bow:")


def test_the_length_of_gear_that_is_wrapped_is_the_plans_to_say():
    assert written_out(PLAN).plan.connectors["strap"].length is None
    single = edited(PLAN, ("S-3, wrapped: basket", "S-3, wrapped: single"))
    assert written_out(single).plan.connectors["strap"].length == (3.0, 3.0)


def test_one_figure_in_two_units_is_no_contradiction():
    plan = edited(PLAN, ("S-1, wrapped", "S-1, working_load: 46581.5875 N, diameter: 2.2 cm, wrapped"))
    assert written_out(plan).plan.connectors["bow"].working_load.low == pytest.approx(46581.5875)


def test_damage_on_record_stays():
    plan = edited(PLAN, ("condition: glazed", "condition: good"))
    assert written_out(plan).plan.lines["haul"].pieces[2]["more"].condition == ("fuzzy", "cut")


def test_a_kit_file_is_not_changed_by_what_is_rigged():
    kit_facts = written_out(PLAN).rig.kit["/lines/haul/pieces/1/join"]
    assert (kit_facts.gear, kit_facts.what, kit_facts.kind, kit_facts.name) == ("S-2", "connector", "join", "join")


# (what stands in the plan, what stands there instead, the place, parts of what is said)
WRONG = [
    ("from_kit: S-1,", "from_kit: S-11,", "/connectors/bow/from_kit", ["`S-11`", "did you mean `S-1`?"]),
    ("from_kit: S-1,", "from_kit: nonsense,", "/connectors/bow/from_kit", ["`nonsense`", "use `W-1`"]),
    ("from_kit: S-1,", "from_kit: B-1,", "/connectors/bow/from_kit", ["redirect", "kit.yaml:10", "connector"]),
    ("from_kit: S-2}", "from_kit: S-3}", "/lines/haul/pieces/1/join/from_kit", ["`S-3`", "a connector"]),
    ("from_kit: R-1}", "from_kit: B-1}", "/lines/haul/pieces/0/main/from_kit", ["`B-1`", "a redirect"]),
    ("S-1, wrapped", "S-1, working_load: 6 t, wrapped", "/connectors/bow/working_load",
     ["`6 t`", "`4.75 t`", "S-1", "kit.yaml:7"]),
    ("S-1, wrapped", "S-1, working_load: 4.7 t, wrapped", "/connectors/bow/working_load", ["`4.7 t`", "`4.75 t`"]),
    ("S-1, wrapped", "S-1, working_load: 4.75 t to 5 t, wrapped", "/connectors/bow/working_load",
     ["`4.75 t to 5 t`", "`4.75 t`"]),
    ("S-1, wrapped", "S-1, diameter: 25 mm, wrapped", "/connectors/bow/diameter", ["`25 mm`", "`22 mm`"]),
    ("{from_kit: R-1}", "{from_kit: R-1, breaking: 130 kN}", "/lines/haul/pieces/0/main/breaking",
     ["`130 kN`", "`115 kN`", "R-1"]),
    ("{from_kit: R-1}", "{from_kit: R-1, rope: wire}", "/lines/haul/pieces/0/main/rope", ["`wire`", "`hmpe`"]),
    ("{groove_for: 10 mm to 12 mm}", "{rated: 90 kN}", "/redirects/block/sheave/rated", ["`90 kN`", "`60 kN`"]),
    ("{flange: 190 mm}", "{diameter: 100 mm}", "/winch/drum/diameter", ["`100 mm`", "`90 mm`"]),
    ("length: 19 m", "length: 21 m", "/lines/haul/pieces/2/more/length", ["`21 m`", "longer", "`20 m`"]),
    ("{flange: 190 mm}", "{flange: 80 mm}", "/winch/drum/flange", ["no larger than the barrel"]),
    ("from_kit: S-3, wr", "from_kit: S-3, breaking: 10 kN, wr", "/connectors/strap/working_load", ["more than"]),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "place", "said"), WRONG, ids=lambda v: v if isinstance(v, str) else "")
def test_what_cant_be(old, new, place, said):
    [problem] = problems_of(lambda: written_out(edited(PLAN, (old, new))))
    assert (problem.file, problem.place) == ("plan.yaml", place)
    assert all(part in problem.text() for part in said)


def test_everything_wrong_is_told_at_once():
    plan = edited(
        PLAN, ("from_kit: S-3,", "from_kit: S-33,"), ("from_kit: B-1,", "from_kit: B-9,"),
        ("distance: 5 m", "distance: 5"), ("S-1, wrapped", "S-1, diameter: 25 mm, wrapped"),
    )  # fmt: skip
    assert [p.place for p in problems_of(lambda: written_out(plan))] == [
        "/bodies/van/moves/distance",
        "/redirects/block/from_kit",
        "/connectors/bow/diameter",
        "/connectors/strap/from_kit",
    ]


def test_without_a_kit_gear_of_a_kit_is_a_problem():
    found = problems_of(lambda: load_plan(PLAN, "plan.yaml"))
    assert {p.what.split("`")[1] for p in found} == {"P-1", "W-1", "R-1", "S-2", "R-2", "B-1", "S-1", "S-3"}
    assert all("there is no kit" in p.what for p in found)


def test_one_piece_of_gear_in_two_places():
    plan = edited(PLAN, ("from_kit: R-2, condition: glazed", "from_kit: R-1"))
    [problem] = problems_of(lambda: written_out(plan))
    assert problem.place == "/lines/haul/pieces/2/more/from_kit"
    assert "`main` is R-1, too: one piece of gear in two places" in problem.what


def test_one_serial_in_two_places():
    plan = edited(PLAN, ("S-3, wrapped: basket", "S-4, length: 1 m"))
    kit = KIT + "  S-4: {is: connector, kind: strap, working_load: 60 kN, serial: B1}\n"
    [problem] = problems_of(lambda: written_out(plan, kit))
    assert problem.place == "/connectors/strap/from_kit"
    assert "S-4 has the serial of S-1, which is `bow`" in problem.what


def test_serials_of_different_kinds_may_be_equal():
    kit = edited(KIT, ("certificate, serial: A7", "certificate, serial: B1"))
    serials = [record.serial for record in written_out(PLAN, kit).rig.kit.values()]
    assert serials.count("B1") == 2


STAGES = """\
stages:
  - {name: first, moves: {distance: 2 m, bearing: 0 deg}}
  - name: second
    moves: {distance: 3 m, bearing: 0 deg}
    connectors: {other: {from_kit: S-1, wrapped: single}}
    lines: {haul: {path: [winch, block.sheave, [other, anchor]]}}
"""


def test_gear_may_move_on_in_the_next_stage():
    rig = written_out(PLAN + STAGES).rig
    assert rig.kit["/connectors/bow"].gear == rig.kit["/stages/1/connectors/other"].gear == "S-1"


def test_what_the_kit_has_on_record_is_in_the_rig():
    rig = written_out(PLAN, today=date(2026, 2, 1)).rig
    assert rig.today == date(2026, 2, 1)
    assert rig.kit["/points/anchor"].good_until == date(2026, 2, 28)
    assert rig.kit["/connectors/strap"].retired == "cut"
    assert {p: k.rated for p, k in rig.kit.items() if k.rated != "kit"} == {}


@pytest.mark.parametrize(
    ("seats", "rated"),
    [
        ("sheave: {rated: 60 kN}, head: {rated: 120 kN}", "kit"),
        ("sheave: {rated: 60 kN}, head: {tread: 30 mm}", "nowhere"),
        ("sheave: {tread: 110 mm}", "nowhere"),
    ],
)
def test_a_redirect_is_rated_for_each_of_its_seats(seats, rated):
    kit = edited(KIT, ("sheave: {tread: 110 mm, rated: 60 kN, rated_for: line}", seats))
    assert written_out(PLAN, kit).rig.kit["/redirects/block"].rated == rated


def test_no_kit_no_record():
    rig = load_plan(ALL_SAID, "plan.yaml").rig
    assert (rig.kit, rig.today) == ({}, None)


@pytest.mark.parametrize(
    ("begin", "interval", "last"),
    [
        (date(2026, 3, 14), Interval(6, 0), date(2026, 9, 14)),
        (date(2025, 8, 31), Interval(6, 0), date(2026, 2, 28)),
        (date(2023, 8, 31), Interval(6, 0), date(2024, 2, 29)),
        (date(2024, 2, 29), Interval(12, 0), date(2025, 2, 28)),
        (date(2026, 12, 31), Interval(1, 0), date(2027, 1, 31)),
        (date(2026, 12, 1), Interval(0, 31), date(2027, 1, 1)),
        (date(9999, 12, 1), Interval(1, 0), None),
        (date(9999, 12, 31), Interval(0, 1), None),
        (date(2026, 1, 1), Interval(9999 * 12, 0), None),
    ],
)
def test_the_last_day_of_an_interval(begin, interval, last):
    assert last_day(begin, interval) == last
