"""Every remedy does what it says: on every example, and on plans made by chance."""

import re
from math import exp, pi

import pytest

from riglint.outcome import Value
from riglint.remedy.remedies import MOST_TRIALS
from riglint.remedy.ways.every import WAYS
from tests.remedy.cases import BOOK, EXAMPLES, changed, does_what_it_says, example, worked_out
from tests.remedy.chance import case_of, held

NAMES = sorted(file.stem for file in EXAMPLES.glob("*.yaml"))
WITH_KIT = [*(f"class/plans/{file.stem}" for file in sorted((EXAMPLES / "class" / "plans").glob("*.yaml"))),
            *(f"company/plans/{file.stem}" for file in sorted((EXAMPLES / "company" / "plans").glob("*.yaml"))),
            "class/model"]  # fmt: skip
FEW, MANY, AT_ONCE = 8, 1000, 31


@pytest.mark.parametrize("name", [*NAMES, *WITH_KIT])
def test_on_every_example(name):
    case = example(name)
    for remedy in case.remedies():
        does_what_it_says(case, remedy)


@pytest.mark.parametrize("seed", range(FEW))
def test_on_plans_made_by_chance(seed):
    assert not held(seed)[1]


@pytest.mark.slow
@pytest.mark.parametrize("first", range(FEW, MANY, AT_ONCE))
def test_on_many_plans_made_by_chance(first):
    for seed in range(first, first + AT_ONCE):
        assert not held(seed)[1], f"seed {seed}"


def ways(case, rule):
    return [remedy.way for remedy in case.of(rule)]


def test_figures_before_and_after_are_of_one_kind():
    """Wraps and what they leave to the fastening are two checks of one rule on one drum: newtons aren't wraps."""
    case = example("class/plans/student-1")
    [of_wraps, of_fastening] = [r for r in case.of("drum-wraps") if r.way == "move vehicle"]
    after = {figure.what: figure.after for figure in of_fastening.figures}
    wraps = next(figure.after for figure in of_wraps.figures if figure.what == "measured")
    assert wraps > 25
    # The whole 46 kN of the stall by the capstan law over those wraps, with HMPE's friction of 0.05 (from memory).
    assert after["measured"] == pytest.approx(46_000 * exp(-2 * pi * 0.05 * wraps), rel=0.15)
    assert after["use"] == pytest.approx(after["measured"] / 6000)
    assert "limit" not in after  # it holds what it held


def test_a_join_that_runs_into_a_ring_gets_a_stop_that_names_both():
    case = example("join-meets-ring")
    stop = case.of("join-at-redirect")[0]
    assert stop.way == "stop"
    [entry] = changed(case, stop).document.data["stops"]
    assert {"join_1", "ring_a"} <= set(entry["do"].split())
    assert entry["load_held_by"]
    assert float(entry["after"].removesuffix(" m")) < 4.7


def test_it_can_be_moved_clear_of_the_ring_too():
    case = example("join-meets-ring")
    remedy = next(r for r in case.of("join-at-redirect") if r.way == "other piece")
    after = changed(case, remedy)
    assert not [e for stage in after.solution.stages for e in stage.events if e.kind == "join at seat"]


def test_a_twisted_join_is_set_right_first():
    assert ways(example("twisted-join"), "twisted-join")[:2] == ["set join right", "splice"]


def test_a_strap_is_doubled_and_half_as_long():
    case = example("three-corners")
    double = case.of("working-load")[0]
    assert double.way == "double"
    strap = changed(case, double).document.data["connectors"]["strap_3"]
    assert (strap["wrapped"], strap["length"]) == ("doubled", "0.4 m")


def test_no_rating_is_made_up():
    """A rating in a patch stands in the plan already, or comes with gear of the kit."""
    for name in NAMES:
        case = example(name)
        written = case.document.text
        for remedy in case.remedies():
            for operation in remedy.patch:
                if operation["op"] != "test":
                    for value in _ratings(operation):
                        assert value in written


def _ratings(node, key=""):
    if isinstance(node, dict):
        if str(node.get("path", "")).rpartition("/")[2] in _RATINGS:
            yield str(node["value"])
        for name, inner in node.items():
            yield from _ratings(inner, name)
    elif isinstance(node, list):
        for inner in node:
            yield from _ratings(inner)
    elif key in _RATINGS:
        yield str(node)


_RATINGS = {"rated", "working_load", "breaking", "held_by", "brake_hold", "rated_pull", "stall_pull", "keeps", "loss"}


def test_a_need_is_what_it_takes_and_little_more():
    case = example("five-parts")
    needs = [r for r in case.of("anchor-rating") if r.way == "stronger gear"]
    assert needs
    for need in needs:
        assert need.patch == ()
        finding = case.inspection.findings[need.finding]
        [asked] = [term.si for _, term in need.terms if isinstance(term, Value)]
        assert finding.check.measured <= asked < 1.11 * finding.check.measured
        text = case.document.text.replace("rated: 250 kN", f"rated: {asked} N")
        left = worked_out(text).inspection.findings
        assert not [f for f in left if (f.rule, f.check.where.case) == (finding.rule, finding.check.where.case)]


def test_a_point_that_is_over_sheds_a_redirect_to_a_spare_one():
    text = (EXAMPLES / "five-parts.yaml").read_text()
    spare = "\n  rock_pin_2: {on: ground, at: [31 m, -1 m], kind: ground anchor, rated: 900 kN, basis: pull test}\n"
    head, points, rest = text.partition("\npoints:")
    case = worked_out(head + points + spare.rstrip() + rest)
    assert "other point" in ways(case, "anchor-rating")


def test_two_legs_of_a_bridle_never_go_to_one_point():
    """Of three legs that are over, one could go to where another is: that would share nothing."""
    moved = [
        operation for remedy in case_of(561).remedies() for operation in remedy.patch
        if operation["op"] == "replace" and "/legs/" in operation["path"]
    ]  # fmt: skip
    data = case_of(561).document.data
    for operation in moved:
        _, _, name, _, number, _ = operation["path"].split("/")
        legs = data["connectors"][name]["legs"]
        assert operation["value"] not in [leg["to"] for i, leg in enumerate(legs) if i != int(number)]


def test_equal_plans_have_equal_remedies_in_the_same_order():
    one, other = example("three-corners").afresh(), example("three-corners").afresh()
    assert one == other
    order = [way.name for way in WAYS]
    for finding in {r.finding for r in one}:
        mine = [r for r in one if r.finding == finding and not r.brings]
        assert [r.way for r in mine] == sorted((r.way for r in mine), key=order.index)


def test_what_is_offered_and_tried_is_bounded():
    case = example("ten-parts")
    few = case.remedies(most=1)
    assert len({r.finding for r in few}) == len(few)
    assert sum(way.most for way in WAYS if "person" in way.kinds) <= MOST_TRIALS


def test_what_cant_be_told_and_what_is_clear_have_none():
    assert example("ten-lines").remedies() == ()
    assert example("straight-pull").remedies() == ()


def test_the_book_is_whole():
    assert not BOOK.broken


def test_nobody_is_sent_from_a_danger_to_where_he_is_still_too_near():
    """From inside the turn right out to where no rule has anything against it, though 8 m would do for the first."""
    text = (EXAMPLES / "two-parts.yaml").read_text()
    spotter = re.search(r"who: spotter, at: \[[^]]*\]", text)
    assert spotter
    case = worked_out(text.replace(spotter[0], "who: spotter, at: [20 ft, 0 ft]"))
    moved = [r for r in case.remedies() if r.way == "move person"]
    assert moved
    assert not [new.rule for r in moved for new in r.brings]
    for remedy in moved:
        does_what_it_says(case, remedy)
