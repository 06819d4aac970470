"""Edits of a plan's text: the data comes out as told, and what was not edited stays as it was written."""

import json
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from riglint.reading.document import read_document
from riglint.remedy.flow import scalar
from riglint.tablet.edit import EditError, applied, edited, written
from tests.strategies import made_plan, plan_text
from tests.tablet.conftest import EXAMPLES

FRUIT = (EXAMPLES / "fruit-truck.yaml").read_text("utf-8")


def data(text: str) -> Any:
    return read_document(text, "x").data


def changed_lines(old: str, new: str) -> tuple[list[str], list[str]]:
    before, after = old.splitlines(), new.splitlines()
    return [x for x in before if x not in after], [x for x in after if x not in before]


@pytest.mark.parametrize(
    ("edit", "gone", "come"),
    [
        ({"op": "set", "at": "/winch/rated_pull", "value": "60 kN"}, 1, 1),
        ({"op": "set", "at": "/winch/drive", "value": "hand"}, 0, 1),
        ({"op": "set", "at": "/points/ash/rated", "value": "30 kN"}, 1, 1),
        ({"op": "set", "at": "/points/oak", "value": {"on": "ground", "at": ["1 m", "-2 m"]}}, 0, 1),
        ({"op": "add", "at": "/people/-", "value": {"who": "foreman"}}, 0, 1),
        ({"op": "add", "at": "/lines/haul/pieces/-", "value": {"join_2": {"kind": "splice"}}}, 0, 1),
        ({"op": "set", "at": "/signals", "value": {"by": "radio"}}, 0, 1),
        ({"op": "rename", "at": "/points/ash", "to": "elm"}, 1, 1),
        ({"op": "remove", "at": "/points/truck_left"}, 1, 0),
        ({"op": "remove", "at": "/people/0"}, 1, 0),
        ({"op": "remove", "at": "/bodies/tender/secured"}, 1, 0),
    ],
)
def test_only_the_lines_of_the_edit_change(edit: dict[str, Any], gone: int, come: int) -> None:
    new = edited(FRUIT, [edit])
    assert data(new) == applied(data(FRUIT), edit)
    lost, won = changed_lines(FRUIT, new)
    assert (len(lost), len(won)) == (gone, come)


@pytest.mark.parametrize(
    "text",
    [
        "", " x", "x ", "true", "null", "1", "-1", "-3.6 m", "a: b", "a #b", "- a", "[a", "{a}", "it's", '"q"', "&a",
        "*a", "!t", "%d", "@a", "`a`", "|", ">", "?", "? a", "a,b", "5 m ± 1 m", "0.5", "1e5", "no", "2026-03-14", "é✓",
        "<script>", "a\\b", "~",
    ],
)  # fmt: skip
def test_any_text_comes_back_as_itself(text: str) -> None:
    assert data(edited(FRUIT, [{"op": "set", "at": "/notes", "value": text}]))["notes"] == text
    assert data(f"[{scalar(text)}]") == [text]


def test_numbers_and_truth_values_keep_their_kind() -> None:
    for value in (1, 0.6, True, False):
        new = data(edited(FRUIT, [{"op": "set", "at": "/winch/rated_layer", "value": value}]))
        assert json.dumps(new["winch"]["rated_layer"]) == json.dumps(value)


def test_a_place_that_is_not_there_is_refused() -> None:
    with pytest.raises(EditError, match="no place"):
        edited(FRUIT, [{"op": "remove", "at": "/points/nowhere/rated"}])
    with pytest.raises(EditError, match="no place"):
        edited(FRUIT, [{"op": "rename", "at": "/points/ash", "to": "truck_left"}])


def test_a_plan_from_nothing() -> None:
    text = edited("rig_plan: 1\n", [{"op": "set", "at": "/bodies/van/moves/distance", "value": "5 m"}])
    assert data(text) == {"rig_plan": 1, "bodies": {"van": {"moves": {"distance": "5 m"}}}}


def pointers(node: Any, at: str = "") -> list[str]:
    entries = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    return [at] * bool(at) + [p for k, v in entries for p in pointers(v, f"{at}/{k}")]


@settings(max_examples=60, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    block=st.booleans(),
    picks=st.lists(st.tuples(st.integers(0, 10**6), st.sampled_from(["set", "map", "remove", "add"])), max_size=4),
)
def test_random_edits_of_made_plans(seed: int, block: bool, picks: list[tuple[int, str]]) -> None:
    plan = json.loads(json.dumps(made_plan(Random(seed))))
    text = written(plan) if block else plan_text(plan)
    assert data(text) == plan
    for number, op in picks:
        places = pointers(plan)
        at = places[number % len(places)]
        edit: dict[str, Any] = {"op": op, "at": at, "value": f"{number} m"}
        if op == "map":
            edit |= {"op": "set", "value": {"a": ["1 m", {"b": "x, y"}], "c": True}}
        if op == "add":
            holder, _, key = at.rpartition("/")
            edit["at"] = f"{holder}/-" if key.isdigit() else f"{holder}/new_{number}"
        plan = applied(plan, edit)
        if not plan:
            return
        text = edited(text, [edit])
        assert data(text) == plan
