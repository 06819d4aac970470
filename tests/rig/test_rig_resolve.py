"""A plan's names become the things they stand for, stage by stage."""

from math import cos, radians, sin

import pytest
from hypothesis import given, settings

from riglint.plan.load import load_plan
from riglint.reading.problems import ReadingFailed
from riglint.rig.model import Rig
from tests.strategies import plan_text, plans

BASE = """\
rig_plan: 1
title: Up a bank
bodies:
  van: {moves: {distance: 6 m, bearing: 90 deg, climb: 10 deg}, outline: {length: 4 m, width: 2 m, middle: [0 m, -2 m]}}
  truck: {}
points:
  eye: {on: van, at: [0 m, 0 m, 0.5 m]}
  nose: {on: truck, at: 30 m bearing 90 deg from eye, kind: winch mount}
  oak: {on: ground, at: "25 m bearing 80 deg, 1 m up"}
  elm: {on: ground, at: 2 m bearing 0 deg from oak}
winch: {mounted: nose, fairlead: {ahead: 0.5 m}}
lines:
  haul:
    pieces:
      - near: {length: 20 m to 21 m}
      - knot: {kind: splice}
      - mid: {}
      - link: {kind: shackle}
      - far: {length: 10 m}
    path: [winch, low.sheave, high.sheave, [clasp, low]]
redirects:
  low: {kind: block, hung_from: [loop, eye], sheave: {tread: 0.1 m, loss: 3 %}, loss: 9 %}
  high: {kind: block, hung_from: [fork], sheave: {tread: 0.1 m}, loss: 9 %}
connectors:
  loop: {kind: soft shackle, length: 0.2 m}
  clasp: {kind: bow shackle}
  fork: {kind: bridle, legs: [{to: oak, length: 2.1 m}, {to: elm, length: 2 m}], equalised: true}
"""


def rig_of(text: str) -> Rig:
    return load_plan(text, "plan.yaml").rig


def faults_of(text: str) -> list[tuple[str, str]]:
    with pytest.raises(ReadingFailed) as failed:
        load_plan(text, "plan.yaml")
    return [(problem.place, problem.what) for problem in failed.value.problems]


def test_places_by_tape_and_compass():
    points = rig_of(BASE).stages[0].points
    assert points["nose"].at == pytest.approx((0.0, 30.0, 0.5))
    assert points["oak"].at == pytest.approx((25 * cos(radians(80)), 25 * sin(radians(80)), 1.0))
    assert points["elm"].at == pytest.approx((points["oak"].at[0] + 2.0, points["oak"].at[1], 1.0))
    assert points["oak"].body.name == "ground"


def test_with_north_a_bearing_is_a_compass_bearing():
    """North along +y: 90 degrees is east, along +x."""
    stage = rig_of(BASE.replace("title:", "north: 90 deg\ntitle:")).stages[0]
    assert stage.points["nose"].at == pytest.approx((30.0, 0.0, 0.5), abs=1e-9)
    assert stage.direction[:2] == pytest.approx((cos(radians(10)), 0.0), abs=1e-9)


def test_the_travel_climbs():
    direction = rig_of(BASE).stages[0].direction
    assert direction == pytest.approx((0.0, cos(radians(10)), sin(radians(10))), abs=1e-12)


def test_the_winch_looks_at_the_first_thing_that_is_held():
    winch = rig_of(BASE).stages[0].winch
    assert winch.mount.name == "nose"
    assert winch.fairlead == pytest.approx((0.0, 29.5, 0.5))


def test_pieces_and_joins_lie_at_their_distance_to_the_dead_end():
    line = rig_of(BASE).stages[0].haul
    knot, link = line.joins
    assert link.from_dead_end == (10.0, 10.0)
    assert knot.from_dead_end == (10.0, float("inf")), "past a piece of unknown length the distance isn't known"
    assert (link.inner.name, link.outer.name) == ("mid", "far")
    assert line.unstated == ("mid",)
    assert [piece.name for piece in line.pieces] == ["near", "mid", "far"]


def test_a_seats_own_loss_goes_before_its_redirects():
    low, high = rig_of(BASE).stages[0].haul.turns
    assert low.loss == (0.03, 0.03)
    assert high.loss == (0.09, 0.09)
    assert low.rolls


def test_chains_end_at_a_point_a_redirect_or_a_bridle():
    stage = rig_of(BASE).stages[0]
    low, high, dead_end = stage.redirects["low"].hanger, stage.redirects["high"].hanger, stage.haul.dead_end
    assert low.point.name == "eye"
    assert low.length_m == pytest.approx(0.2)
    assert [arm.point.name for arm in high.arms] == ["oak", "elm"]
    assert [arm.length_m for arm in high.arms] == [2.1, 2.0]
    assert high.equalised
    assert dead_end.redirect == "low"
    assert not dead_end.connectors[0].length_stated


def test_an_outline_has_its_middle_where_the_plan_says():
    bodies = rig_of(BASE).stages[0].bodies
    assert bodies["van"].middle == (0.0, -2.0, 0.0)
    assert bodies["truck"].middle is None


STAGES = """\
stages:
  - {name: first, moves: {distance: 2 m, bearing: 0 deg, climb: 0 deg}}
  - name: second
    moves: {distance: 4 m, bearing: 90 deg, climb: 0 deg}
    works: paying out
    points:
      stump: {on: ground, at: 3 m bearing 0 deg from eye}
      oak: {on: ground, at: [9 m, 20 m]}
    lines: {haul: {path: [winch, low.sheave, stump]}}
    people: [{who: spotter, at: 1 m bearing 0 deg from eye, watches: [knot]}]
    stops: [{after: 1 m, do: look at knot and low}]
    load_held_by: chocks
"""


def test_a_stage_begins_where_the_last_one_ended():
    first, second = rig_of(BASE + STAGES).stages
    assert first.begins_m == 0.0
    assert second.begins_m == 2.0
    assert first.points["eye"].at == (0.0, 0.0, 0.5)
    assert second.points["eye"].at == pytest.approx((2.0, 0.0, 0.5))
    assert second.bodies["van"].middle == pytest.approx((2.0, -2.0, 0.0))
    assert second.points["nose"].at == first.points["nose"].at


def test_a_stages_own_entries_stand_in_for_the_plans():
    first, second = rig_of(BASE + STAGES).stages
    assert second.points["oak"].at == (9.0, 20.0, 0.0)
    assert second.points["oak"].pointer == "/stages/1/points/oak"
    assert second.points["stump"].at == pytest.approx((5.0, 0.0, 0.5)), "from where the load then stands"
    assert "stump" not in first.points
    assert second.haul.dead_end.point.name == "stump"
    assert second.haul.pointer == "/stages/1/lines/haul"
    assert second.haul.pieces[0].pointer == "/lines/haul/pieces/0/near"
    assert (first.works, second.works) == ("hauling", "paying out")
    assert second.people[0].at == pytest.approx((3.0, 0.0, 0.5))
    assert second.stops[0].names == {"knot", "low"}
    assert (first.people_stated, second.people_stated) == (False, True)


def test_faults_in_a_stage_stand_in_that_stage():
    text = BASE + STAGES.replace("low.sheave, stump", "low.bore, stumps").replace("[knot]", "[knott]")
    assert [place for place, _ in faults_of(text)] == ["/stages/1/lines/haul/path/1", "/stages/1/lines/haul/path/2"]
    assert faults_of(BASE + STAGES.replace("{haul: {", "{hall: {"))[0][0] == "/stages/1/lines/hall"
    assert faults_of(BASE + STAGES.replace("      oak: {", "      low: {"))[0][0] == "/stages/1/points/low"


def test_a_fault_that_holds_in_each_stage_is_told_once():
    text = (BASE + STAGES).replace("hung_from: [loop, eye]", "hung_from: [loop, eyes]")
    assert [place for place, _ in faults_of(text)] == ["/redirects/low/hung_from/1"]


def test_circles_of_hangers_end_in_a_fault_in_every_stage():
    text = (BASE + STAGES).replace("[loop, eye]", "[loop, high]").replace("hung_from: [fork]", "hung_from: [low]")
    assert ("/redirects/low/hung_from", "redirects hang in a circle: `low` from `high` from `low`") in faults_of(text)


def test_circles_of_places():
    text = BASE.replace("at: [0 m, 0 m, 0.5 m]", "at: 1 m bearing 0 deg from nose")
    assert [place for place, _ in faults_of(text)] == ["/points/eye/at"]


WAYS = """\
rig_plan: 1
title: A bank
WORKS
bodies: {van: {moves: {distance: 6 m, bearing: 0 deg}, ground: {slope: 10 deg up}}}
points: {eye: {on: van, at: [0 m, 0 m]}, nose: {on: ground, at: [30 m, 0 m]}}
winch: {mounted: nose}
lines: {haul: {pieces: [{a: {length: 60 m}}], path: [winch, eye]}}
"""
HALVES = """\
stages:
  - {name: up, moves: {distance: 3 m, bearing: 0 deg}}
  - {name: on, moves: {distance: 3 m, bearing: 0 deg}}
"""


def way(works: str = "hauling", slope: str = "10 deg up", travel: str = "", stages: str = "") -> str:
    text = WAYS.replace("WORKS", f"works: {works}").replace("10 deg up", slope)
    return text.replace("bearing: 0 deg}", f"bearing: 0 deg{travel}}}") + stages


SLOPE = "/bodies/van/ground/slope"
ZONE = "0 deg, zones: [{begins_at: 3 m, slope: 10 deg up}]"
DOWN = "10 deg up, zones: [{begins_at: 2 m, slope: 10 deg down}]"


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (way("paying out"), [SLOPE]),
        (way("paying out", slope="10 deg down"), []),
        (way("paying out", slope="0 deg"), []),
        (way("paying out", slope=DOWN), []),  # over a hump first
        (way("paying out", slope=ZONE), ["/bodies/van/ground/zones/0/slope"]),
        (way(stages=HALVES.replace("name: on,", "name: on, works: paying out,")), [SLOPE]),
        (way(slope=DOWN.replace("2 m", "3 m"), stages=HALVES.replace("name: on,", "name: on, works: paying out,")), []),
        (way(travel=", climb: 11 deg"), []),
        (way(travel=", climb: 11.1 deg"), ["/bodies/van/moves/climb"]),
        (way(travel=", climb: -10 deg"), ["/bodies/van/moves/climb"]),
        (way(travel=", climb: 5 deg", slope="0 deg to 10 deg up"), []),
        (way(travel=", climb: 0 deg"), []),  # taped along the slope
        (way(travel=", climb: 10 deg", stages=HALVES), ["/stages/0/moves", "/stages/1/moves"]),
        (
            way(travel=", climb: 10 deg", stages=HALVES.replace("0 deg}", "0 deg, climb: 3 deg}")),
            ["/stages/0/moves/climb", "/stages/1/moves/climb"],
        ),
        (way(stages=HALVES.replace("bearing: 0 deg", "bearing: 20 deg")), ["/bodies/van/moves/bearing"]),
        (way(stages=HALVES.replace("bearing: 0 deg", "bearing: 360 deg")), []),
        (way(stages=HALVES.replace("0 deg}}\n  - {name: on", "20 deg}}\n  - {name: on")), []),  # round a corner
        (way(stages=HALVES.replace("3 m", "2 m to 4 m", 1)), ["/stages/0/moves/distance"]),  # where would `on` begin?
        (way(stages=HALVES.replace("on, moves: {distance: 3 m", "on, moves: {distance: 2 m to 3 m")), []),
    ],
)
def test_the_loads_way_agrees_with_its_ground_and_stages(text, places):
    try:
        rig_of(text)
        found = []
    except ReadingFailed:
        found = [place for place, _ in faults_of(text)]
    assert found == places


COMPOUND = """\
rig_plan: 1
title: One tackle on another
bodies: {van: {moves: {distance: 2 m, bearing: 0 deg}}}
points:
  eye: {on: van, at: [0 m, 0 m]}
  nose: {on: ground, at: [30 m, 0 m]}
  oak: {on: ground, at: [30 m, 3 m]}
winch: {mounted: nose}
redirects: {afloat: {kind: block, sheave: {}}, other: {kind: block, sheave: {}}}
lines:
  haul: {pieces: [{a: {length: 60 m}}], path: [winch, afloat.sheave, oak]}
  second: {pieces: [{b: {length: 5 m}}], path: [afloat, eye]}
"""


def test_a_redirect_may_float_between_lines():
    stage = rig_of(COMPOUND).stages[0]
    assert stage.redirects["afloat"].hanger is None
    [second] = stage.others
    assert second.first.redirect == "afloat"
    assert [line.name for line in stage.lines] == ["haul", "second"]


def test_a_line_that_places_what_it_is_made_fast_to_has_one_length():
    [(place, what)] = faults_of(COMPOUND.replace("b: {length: 5 m}", "b: {length: 5 m to 6 m}"))
    assert place == "/lines/second/pieces/0/b/length"
    assert "a range" in what
    assert rig_of(COMPOUND.replace("a: {length: 60 m}", "a: {length: 60 m to 61 m}")).stages[0].haul.length.high == 61.0


@pytest.mark.parametrize(
    ("haul", "second"),
    [
        ("[winch, afloat.sheave, oak]", "[oak, eye]"),  # nothing holds it
        ("[winch, afloat.sheave, afloat]", "[oak, eye]"),  # a noose round itself
        ("[winch, afloat.sheave, oak]", "[other, afloat.sheave, eye]"),  # two afloat, and one hangs by one line alone
    ],
)
def test_a_floating_redirect_needs_a_hold(haul, second):
    text = COMPOUND.replace("[winch, afloat.sheave, oak]", haul).replace("[afloat, eye]", second)
    found = faults_of(text)
    assert any("hangs from nothing" in what for _, what in found), found


def test_a_line_that_does_not_begin_at_the_winch_needs_another_that_does():
    assert ("/lines", "no line begins at the winch") in faults_of(COMPOUND.replace("[winch,", "[oak,"))


def test_all_faults_of_a_rig_come_at_once():
    text = BASE.replace("on: truck", "on: lorry").replace("mounted: nose", "mounted: tail")
    text = text.replace("from eye", "from ear").replace("to: elm", "to: elk").replace("[clasp, low]", "[clasp, lo]")
    places = [place for place, _ in faults_of(text)]
    assert places == [
        "/points/nose/on", "/points/nose/at", "/winch/mounted", "/lines/haul/path/3/1", "/connectors/fork/legs/1/to",
    ]  # fmt: skip


@settings(max_examples=40, deadline=None, derandomize=True)
@given(plans())
def test_every_thing_of_a_random_rig_knows_its_place_in_the_text(plan):
    loaded = load_plan(plan_text(plan), "plan.yaml")
    for stage in loaded.rig.stages:
        parts = [*stage.points.values(), *stage.connectors.values(), *stage.redirects.values(), *stage.lines]
        parts += [part for line in stage.lines for part in (*line.pieces, *line.joins)]
        for part in parts:
            region = loaded.document.key_position(part.pointer)
            assert loaded.document.text[region.start : region.end].strip('"') == part.pointer.rpartition("/")[2]
