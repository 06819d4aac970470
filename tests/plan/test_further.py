"""Faults of names and circles are told beside those of shape, and never one that only comes of those."""

from copy import deepcopy
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from riglint.plan.load import load_plan
from riglint.reading.problems import Problem, ReadingFailed
from tests.strategies import made_plan, plan_text

OUTLINE = (Path(__file__).parent / "outline.yaml").read_text(encoding="utf-8")
MISSHAPEN = (3, True, None, [[]])


def problems(text: str) -> tuple[Problem, ...]:
    try:
        load_plan(text, "plan.yaml")
    except ReadingFailed as failed:
        return failed.problems
    return ()


def edited(*edits: tuple[str, str]) -> str:
    text = OUTLINE
    for old, new in edits:
        assert old in text
        text = text.replace(old, new, 1)
    return text


NO_NAME = ("ring_a.bore, block_b", "ring_z.bore, block_b")
NO_BODY = ("truck_left:  {on: fruit_truck", "truck_left:  {on: fruit_trock")
NO_CAB = ("in: tender cab", "in: tendar cab")
CIRCLE = ("hung_from: [soft_a, truck_left]", "hung_from: [soft_a, ring_a]")
NAMED = {
    "a redirect": (NO_NAME, "/lines/haul/path/1"),
    "a body": (NO_BODY, "/points/truck_left/on"),
    "a body with a cab": (NO_CAB, "/people/0/in"),
    "a circle": (CIRCLE, "/redirects/ring_a/hung_from"),
}
SHAPE = {
    "a bad quantity": (("weight: 7.5 t", "weight: heavy"), "/bodies/tender/weight"),
    "an unknown key": (("brake_hold", "brake_hld"), "/winch/brake_hld"),
    "a missing title": (("title: ", "titel: "), "/titel"),
    "no form": (("rig_plan: 1", "rig_plan: one"), "/rig_plan"),
    "no mount": (("mounted: tender_nose", "mountd: tender_nose"), "/winch/mountd"),
    "a point without its body": (("ash:         {on: ground, ", "ash:         {"), "/points/ash"),
    "a list too many in a list": (("[brakes, chocks]", "[brakes, [chocks]]"), "/bodies/tender/secured/1"),
    "a person who is nobody": (("who: spotter", "whom: spotter"), "/people/1/whom"),
    "a bad length in a list": (("24 m, breaking", "24, breaking"), "/lines/haul/pieces/2/extension_1/length"),
}


@pytest.mark.parametrize(("name", "named_at"), NAMED.values(), ids=NAMED)
@pytest.mark.parametrize(("shape", "shape_at"), SHAPE.values(), ids=SHAPE)
def test_a_name_that_stands_for_nothing_is_told_beside_a_fault_of_shape(name, named_at, shape, shape_at) -> None:
    alone, both = problems(edited(name)), problems(edited(name, shape))
    assert [p.place for p in alone] == [named_at]
    assert sorted(p.place for p in both) == sorted([named_at, shape_at])
    assert [p[3:] for p in both if p.place == named_at] == [p[3:] for p in alone]


def test_what_is_put_aside_is_still_a_name() -> None:
    """`block_b` has a fault of its own, but it is there: the path that names it is not at fault."""
    assert [p.place for p in problems(edited(("block_b: {kind: block", "block_b: {kind: bloc")))] == [
        "/redirects/block_b/kind"
    ]


@pytest.mark.parametrize("text", ["*ang that", "3 that", "[a] that"])
def test_what_is_no_mapping_is_told_by_its_writing_alone(text: str) -> None:
    assert problems(text)


def test_where_there_is_nothing_to_look_names_up_in_none_is_called_unknown() -> None:
    assert {p.place for p in problems(edited(("\nconnectors:", "\nconectors:"), NO_NAME))} >= {
        "/conectors", "/lines/haul/path/1",
    }  # fmt: skip
    places = [p.place for p in problems(edited(("\nredirects:\n", "\nredirects: none\nnotes:\n"), NO_NAME))]
    assert "/redirects" in places
    assert not any(place.startswith("/lines") for place in places)


def test_where_the_lines_are_gone_no_line_is_called_unknown() -> None:
    stage = "\nstages: [{name: one, moves: {distance: 6 m, bearing: 0 deg}, lines: {hall: {path: [winch, ash]}}}]\n"
    told = {p.place for p in problems(edited(("\nlines:\n", "\nlins:\n"), NO_CAB) + stage)}
    assert told >= {"/lins", "/people/0/in"}
    assert not any(place.startswith("/stages") for place in told)


def places_in(data: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place of a plan's data but its top."""
    steps = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [place for step, value in steps for place in [(*at, step), *places_in(value, (*at, step))]]


@given(st.integers(0, 100_000), st.integers(0, 1 << 32))
def test_faults_of_shape_alone_never_make_a_name_unknown(plan: int, chance: int) -> None:
    """In a plan whose names are right, misshapen values at any places leave them right."""
    random, data = Random(chance), deepcopy(made_plan(Random(plan)))
    assume(not problems(plan_text(data)))
    for _ in range(random.randint(1, 4)):
        *above, last = random.choice(places_in(data))
        holder = data
        for step in above:
            holder = holder[step]
        holder[last] = deepcopy(random.choice(MISSHAPEN))
    told = [p for p in problems(plan_text(data)) if "names no" in p.what or "circle" in p.what]
    assert not told
