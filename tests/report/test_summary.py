"""The foreman's figures, against figures reached another way."""

from math import hypot

import pytest

from riglint.outcome import Result
from riglint.plan.load import load_plan
from riglint.report.foreman import foreman
from riglint.report.material import Inspected
from riglint.report.summary import summaries
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import inspect
from riglint.rulebook.sources import Sources
from riglint.shipped import shipped
from riglint.solve.first_to_give import first_to_break, flight, line_pull_n, strength
from riglint.solve.solve import solve
from tests.examples.plans import PLANS, solution, stage
from tests.report.cases import inspected


def test_one_part_breaks_at_its_own_strength_less_what_its_end_takes():
    """A pressed sleeve leaves wire rope with a steel core 95 % (TM 5-3810-305-10 table 4)."""
    first = first_to_break(stage("straight-pull"))
    assert first
    assert first.component.name == "mainline"
    assert first.pull_n == pytest.approx(0.95 * first.component.item.facts.breaking.low)


@pytest.mark.parametrize("plan", PLANS)
def test_nothing_else_breaks_at_a_lower_line_pull(plan):
    for index in range(len(solution(plan).stages)):
        one = stage(plan, index)
        first = first_to_break(one)
        for component in one.components:
            peak, holds = one.peak(component, "stall"), strength(component)
            if first and peak and holds and peak.load_n > 0:
                at_n = first.pull_n / line_pull_n(one, peak.station) * peak.load_n
                assert at_n <= holds * (1 + 1e-9)


def test_what_an_anchor_holds_flies_along_the_sum_of_its_legs():
    one = stage("fruit-truck")
    strap = one.component("connector", "strap_b")
    peak = one.peak(strap, "stall")
    flies = flight(one, strap, peak.station, peak.force)
    place = one.stations[peak.station].places["ash"]
    ends = [end for leg in one.stations[peak.station].legs if "block_b" in (leg.begins, leg.ends)
            for end in (leg.start if leg.ends == "block_b" else leg.end,)]  # fmt: skip
    ways = [tuple(b - a for a, b in zip(place, end, strict=True)) for end in ends]
    units = [tuple(x / hypot(*way) for x in way) for way in ways]
    total = [sum(axis) for axis in zip(*units, strict=True)]
    along = sum(a * b for a, b in zip(flies.direction, total, strict=True)) / hypot(*total)
    assert along == pytest.approx(1.0, abs=0.01)
    assert flies.toward in {"ring_a", "truck_left", "truck_right", "tender_nose", "winch"}


def test_rope_flies_no_one_way():
    one = stage("straight-pull")
    piece = one.component("piece", "mainline")
    assert flight(one, piece, 0, one.peak(piece, "stall").force) is None


def test_the_first_past_its_load_and_where_to_stop(tmp_path):
    case = inspected(tmp_path)
    (told,) = summaries(case.solution.stages, case.inspection)
    (over,) = (f.check for f in case.inspection.findings if f.result is Result.FAILED)
    assert told.gives.pull_n == pytest.approx(over.pull_n / 2)
    assert told.stop_n == told.gives.pull_n
    assert told.stall_n == pytest.approx(max(s.drum.stall_n for s in case.solution.stages[0].stations))


POINT = """
rig_plan: 1
title: the tow eye is the weakest
bodies: {van: {moves: {distance: 4 m, bearing: 0 deg}, weight: 3 t, resistance: {steady: 30 kN}}}
points:
  eye: {on: van, at: [0 m, 0 m], kind: tow eye, rated: 40 kN}
  nose: {on: ground, at: [20 m, 0 m], kind: winch mount, rated: 60 kN}
winch: {mounted: nose, rated_pull: 40 kN, rated_layer: 1, stall_pull: 48 kN DRUM}
lines: {haul: {pieces: [main: {rope: hmpe, diameter: 10 mm, length: 24 m, breaking: 100 kN}], path: [winch, eye]}}
"""


@pytest.mark.parametrize("drum", ["", ", drum: {diameter: 90 mm, width: 300 mm}"])
def test_a_point_is_the_first_past_its_load_whether_or_not_the_drum_is_stated(drum):
    """One part: the eye's 40 kN is reached at a line pull of 40 kN, below what the rope may carry and the stall."""
    rig = solve(load_plan(POINT.replace(" DRUM", drum), "plan.yaml").rig)
    (told,) = summaries(rig.stages, inspect(rig, standard_rulebook()))
    assert told.gives.check.where.name == "eye"
    assert told.stop_n == pytest.approx(40_000)


TALL = """
rig_plan: 1
title: what stands narrow and tall goes over before anything else passes its load
bodies:
  van: {moves: {distance: 4 m, bearing: 0 deg}, weight: 3 t, resistance: {steady: 12 kN}, track: 1.7 m, wheelbase: 3 m,
        ground: {surface: gravel, slope: 0 deg, side_slope: 0 deg}, centre_of_gravity: {height: 1.2 m},
        outline: {length: 5 m, width: 2 m, middle: [-2.5 m, 0 m, 0 m], heading: 0 deg}}
points:
  roof: {on: van, at: [0 m, 0 m, 1.5 m], kind: structure, rated: 60 kN}
  nose: {on: ground, at: [20 m, 0 m, 1.5 m], kind: winch mount, rated: 60 kN}
winch: {mounted: nose, rated_pull: 40 kN, rated_layer: 1, stall_pull: 48 kN}
lines: {haul: {pieces: [main: {rope: hmpe, diameter: 10 mm, length: 24 m, breaking: 100 kN}], path: [winch, roof]}}
"""


def test_a_body_that_tips_first_is_the_first_past_and_where_to_stop():
    """Moments about the front axle: 3 t x 9.80665 m/s2 x 1.5 m / 1.5 = 29.4 kN m, over 1.5 m of height 19.6 kN."""
    rig = solve(load_plan(TALL, "plan.yaml").rig)
    (told,) = summaries(rig.stages, inspect(rig, standard_rulebook()))
    assert (told.gives.check.where.name, told.gives.check.measure) == ("van", "tipping")
    assert told.stop_n == pytest.approx(3000 * 9.80665 * 1.5 / 1.5 / 1.5)


BRIDLE = """
rig_plan: 1
title: a bridle whose legs may not share
bodies: {van: {moves: {distance: 4 m, bearing: 0 deg}, weight: 3 t, resistance: {steady: 12 kN}}}
points:
  left: {on: van, at: [0 m, 0.3 m], kind: recovery point, rated: 30 kN}
  right: {on: van, at: [0 m, -0.3 m], kind: recovery point, rated: 30 kN}
  nose: {on: ground, at: [20 m, 0 m], kind: winch mount, rated: 60 kN}
winch: {mounted: nose, rated_pull: 40 kN, rated_layer: 1, stall_pull: 48 kN}
lines: {haul: {pieces: [main: {rope: hmpe, diameter: 10 mm, length: 24 m, breaking: 100 kN}], path: [winch, bridle]}}
connectors:
  bridle:
    kind: bridle
    equalised: false
    legs: [{to: left, length: 2 m, working_load: 60 kN}, {to: right, length: 2 m, working_load: 60 kN}]
"""


def test_a_point_that_may_have_to_hold_all_of_a_bridle_s_pull_tells_where_to_stop():
    """Legs 17 degrees apart that don't equalise: one point of 30 kN may get the whole line pull."""
    rig = solve(load_plan(BRIDLE, "plan.yaml").rig)
    (told,) = summaries(rig.stages, inspect(rig, standard_rulebook()))
    assert told.stop_n == pytest.approx(30_000)


@pytest.mark.parametrize(("of", "told"), [("rated_layer: 1", True), ("rated_layer: 3", False)])
def test_an_upper_layer_s_stall_is_no_stall_where_the_drum_is_not_stated(of, told):
    """On the first layer the winch pulls more than on the third; how much more is the drum's matter."""
    weak = POINT.replace(" DRUM", "").replace("rated: 40 kN", "rated: 50 kN").replace("rated_layer: 1", of)
    loaded, book = load_plan(weak, "plan.yaml"), standard_rulebook()
    rig = solve(loaded.rig)
    inspection = inspect(rig, book)
    (summary,) = summaries(rig.stages, inspection)
    case = Inspected("plan.yaml", loaded.document, rig, inspection, book, Sources([shipped("rules")]))
    text = " ".join(" ".join(foreman(summary, case, of_several=False)).split())
    assert ("as far as the plan tells" in text) is not told
    assert ("more than the winch can pull" in text) is told


def test_where_nothing_is_rated_no_line_pull_is_named(tmp_path):
    case = inspected(tmp_path, trial="yield at_most(5, limits['most'], 'm', WHERE, WORDS)")
    (told,) = summaries(case.solution.stages, case.inspection)
    assert (told.gives, told.stop_n, told.uses) == (None, None, ())


def test_the_worst_anchor_is_the_worst_point_off_the_load(tmp_path):
    case = inspected(tmp_path)
    (told,) = summaries(case.solution.stages, case.inspection)
    one = case.solution.stages[0]
    off = [c for c in one.components if c.kind == "point" and not c.item.body.moves]
    for anchor in told.anchors:
        peaks = [one.peak(c, anchor.case) for c in off]
        assert anchor.load_n == max(peak.load_n for peak in peaks if peak)
