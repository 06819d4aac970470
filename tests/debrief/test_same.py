"""One plan in other words is one plan; anything that it says otherwise makes it another."""

import re

import pytest

from riglint.debrief.same import content
from riglint.plan.load import load_plan
from tests.debrief.handing_in import ROOT, example

EXAMPLES = sorted((ROOT / "examples").glob("*.yaml"))
TWO = (ROOT / "examples" / "two-parts.yaml").read_text()
NAMES = (
    "farm_truck", "winch_truck", "front_point", "winch_bed", "frame_right", "block_a", "bow_1", "bow_2", "mainline",
    "haul",
)  # fmt: skip


def of(text: str) -> str:
    return content(load_plan(text, "plan.yaml").plan)


def renamed(text: str, names: tuple[str, ...]) -> str:
    for i, name in enumerate(names):
        text = re.sub(rf"\b{name}\b", f"n{i}x", text)
    return text


def test_student_8_copied_from_student_3():
    plans = [example(f"plans/student-{i}.yaml").plan for i in range(1, 9)]
    digests = [content(plan) for plan in plans if plan]
    assert digests[2] == digests[7]
    assert len(set(digests)) == len(digests) - 1


@pytest.mark.parametrize(
    "other",
    [
        renamed(TWO, NAMES),
        TWO.replace("11000 lb", "5.5 short ton").replace("15 ft,", "180 in,"),
        TWO.replace("title: Farm truck", "title: My own work,"),
        "\n\n# mine\n"
        + TWO.replace("    weight: 6000 lb to 6200 lb\n", "    weight:   6000 lb to 6200 lb  # weighed\n"),
        TWO.replace("secured: [brakes, chocks, in gear]", "secured: [chocks, in gear, brakes]"),
        TWO.replace("reports_in: imperial", "reports_in: metric"),
        TWO.replace("plate beside it", "the plate"),
        "\n\n".join(reversed(re.split(r"\n\n(?=[a-z_]+:)", TWO))),
    ],
    ids=["names", "units", "title", "layout", "order of words", "report", "basis", "order of sections"],
)
def test_spelling_is_of_no_account(other):
    assert other != TWO
    assert of(other) == of(TWO)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("12000 lbf", "12100 lbf"), ("[bow_2, frame_right]", "frame_right"), ("watches: [block_a]", "watches: []"),
        ("[bow_1, front_point]", "[front_point]"), ("condition: good", "condition: cut"), ("up,", "down,"),
        ("screw", "round"), ("in: winch_truck cab", "in: winch_truck"),
    ],
)  # fmt: skip
def test_what_is_said_counts(old, new):
    assert old in TWO
    assert of(TWO.replace(old, new, 1)) != of(TWO)


def test_which_shackle_hangs_where_counts():
    swapped = TWO.replace("[bow_2, frame_right]", "[bow_1, frame_right]").replace(
        "[bow_1, front_point]", "[bow_2, front_point]"
    )
    assert of(swapped) != of(TWO)


def test_the_order_of_the_path_counts():
    three = (ROOT / "examples" / "three-parts-short-line.yaml").read_text()
    turns = "block_a.sheave, block_b.sheave"
    assert turns in three
    assert of(three.replace(turns, "block_b.sheave, block_a.sheave")) != of(three)


@pytest.mark.parametrize(
    ("old", "new", "same"),
    [
        ("who: spotter", "who: head spotter", True), ("who: spotter", "who: helper at the winch", False),
        ("take join_1 through ring_a by hand", "by hand take join_1 on and past ring_a", True),
        ("take join_1 through ring_a by hand", "take a breath", False),
        (", basis: plate", "", False),
    ],
)  # fmt: skip
def test_free_words_count_where_a_rule_goes_by_them(old, new, same):
    """Nobody is told of handing in another's plan for one that the rules judge otherwise."""
    text = (ROOT / "examples" / "join-planned-stop.yaml").read_text()
    assert old in text
    assert (of(text.replace(old, new, 1)) == of(text)) is same


def test_the_examples_are_all_different():
    assert len({of(file.read_text()) for file in EXAMPLES}) == len(EXAMPLES)


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_every_example_under_other_names(file):
    text = file.read_text()
    plan = load_plan(text, "plan.yaml").plan
    names = tuple(sorted({*plan.bodies, *plan.points, *plan.redirects, *plan.connectors} - {"ground"}))
    plain = tuple(name for name in names if "_" in name)  # other names may be words of the plan, too
    assert of(renamed(text, plain)) == of(text)
