"""The schema and the models agree: what is valid passes both, what has the wrong shape is refused by both."""

import json
from copy import deepcopy
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from riglint.plan.load import load_plan
from riglint.plan.schema import MODEL_ONLY, plan_schema, schema_text
from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from tests.plan.model_only import EDITS, Edit, edited
from tests.strategies import made_plan, plan_text, plans

OUTLINE = (Path(__file__).parent / "outline.yaml").read_text(encoding="utf-8")
SCHEMA = plan_schema()
VALIDATOR = Draft202012Validator(SCHEMA)


def accepts(data: Any) -> bool:
    return bool(VALIDATOR.is_valid(data))


def refused(text: str) -> bool:
    try:
        load_plan(text, "plan.yaml")
    except ReadingFailed:
        return True
    return False


def test_the_schema_is_a_schema():
    Draft202012Validator.check_schema(SCHEMA)


def test_the_file_is_what_the_models_make():
    """If this fails: python -m riglint.plan.schema > schemas/plan.schema.json."""
    file = Path(__file__).parents[2] / "schemas" / "plan.schema.json"
    assert file.read_text(encoding="utf-8") == schema_text()


def nodes(schema: Any) -> list[dict[str, Any]]:
    if isinstance(schema, list):
        return [node for entry in schema for node in nodes(entry)]
    if not isinstance(schema, dict):
        return []
    return [schema, *(node for value in schema.values() for node in nodes(value))]


def test_every_key_says_what_it_is():
    for node in nodes(SCHEMA):
        if node.get("type") != "object":
            continue
        for key, entry in node.get("properties", {}).items():
            assert entry.get("description"), f"{key} has no description"


def test_every_mapping_is_closed():
    for node in nodes(SCHEMA):
        if node.get("type") == "object":
            closed = node.get("additionalProperties")
            assert closed is False or "propertyNames" in node


def test_older_editors_can_read_it():
    """Draft-07 has `$defs` under another name and reads the rest alike, if these keywords are kept out."""
    newer = {"prefixItems", "dependentRequired", "dependentSchemas", "unevaluatedProperties", "minContains"}
    assert not [key for node in nodes(SCHEMA) for key in node if key in newer]


def test_the_outline_passes():
    assert accepts(read_document(OUTLINE, "outline.yaml").data)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(plans())
def test_every_valid_plan_passes_both(plan):
    text = plan_text(plan)
    assert read_document(text, "plan.yaml").data == plan
    assert [error.message for error in VALIDATOR.iter_errors(plan)] == []
    load_plan(text, "plan.yaml")


def spots(
    data: Any, schema: dict[str, Any], path: tuple[Any, ...] = ()
) -> list[tuple[tuple[Any, ...], dict[str, Any]]]:
    """Every place of a plan with the schema that holds there."""
    found = [(path, schema)]
    schema = resolved(schema, data)
    if isinstance(data, dict):
        for key, value in data.items():
            inner = schema.get("properties", {}).get(key) or schema.get("additionalProperties")
            found += spots(value, inner, (*path, key))
    if isinstance(data, list):
        for i, value in enumerate(data):
            found += spots(value, schema["items"], (*path, i))
    return found


def resolved(schema: dict[str, Any], data: Any) -> dict[str, Any]:
    if "$ref" in schema:
        return resolved(SCHEMA["$defs"][schema["$ref"].rpartition("/")[2]], data)
    for choice in schema.get("anyOf", []) + schema.get("oneOf", []):
        if VALIDATOR.evolve(schema=choice | {"$defs": SCHEMA["$defs"]}).is_valid(data):
            return resolved(choice, data)
    return schema


def changed(plan: Any, path: tuple[Any, ...], change: Any) -> Any:
    """The plan with `change` done to the container and the last step of a path."""
    plan = deepcopy(plan)
    holder = plan
    for step in path[:-1]:
        holder = holder[step]
    change(holder, path[-1])
    return plan


def at(plan: Any, path: tuple[Any, ...]) -> Any:
    for step in path:
        plan = plan[step]
    return plan


WRONG = [{"a": "b"}, ["a", ["b"]], True, 3.25, "no such thing", "3 parsecs", "12"]


def structural_faults(plan: Any, random: Random) -> list[tuple[str, Any]]:
    """Ways to spoil a plan's shape, each with its name: one of every kind that fits this plan."""
    places = spots(plan, SCHEMA)
    faults = []
    forms = [(path, resolved(schema, at(plan, path))) for path, schema in places]
    path = random.choice([(*path, key) for path, form in forms for key in form.get("required", ())])
    faults.append((f"without {path}", changed(plan, path, lambda holder, key: holder.pop(key))))
    path, _ = random.choice([f for f in forms if f[1].get("additionalProperties") is False])
    faults.append((f"a stranger in {path}", changed(plan, (*path, "stranger"), lambda h, k: h.update({k: "1 m"}))))
    path, schema = random.choice([p for p in places if p[0]])
    for wrong in random.sample(WRONG, 3):
        if not VALIDATOR.evolve(schema=schema | {"$defs": SCHEMA["$defs"]}).is_valid(wrong):
            faults.append((f"{wrong!r} at {path}", changed(plan, path, lambda h, k, w=wrong: h.__setitem__(k, w))))
    return faults


@settings(max_examples=60, deadline=None, derandomize=True)
@given(plans(), st.integers(0, 10**6))
def test_every_structural_fault_is_refused_by_both(plan, seed):
    for what, spoilt in structural_faults(plan, Random(seed)):
        assert not accepts(spoilt), what
        assert refused(plan_text(spoilt)), what


@settings(max_examples=60, deadline=None, derandomize=True)
@given(plans(), st.integers(0, 10**6))
def test_what_the_schema_refuses_the_models_refuse(plan, seed):
    """Any change of one value, so also those that stay valid: the models are never milder than the schema."""
    random = Random(seed)
    path, _ = random.choice([p for p in spots(plan, SCHEMA) if p[0]])
    other = random.choice([*WRONG, "0 m", "1 t to 2 t", "none", "tree", "winch", 1, 0, [], {}])
    spoilt = changed(plan, path, lambda holder, key: holder.__setitem__(key, other))
    assert accepts(spoilt) or refused(plan_text(spoilt))


def test_what_only_the_models_check_is_listed_and_tested():
    whats = [what for what, _ in MODEL_ONLY]
    for beginning in EDITS:
        assert sum(what.startswith(beginning) for what in whats) == 1, beginning
    for what, why in MODEL_ONLY:
        assert why
        assert sum(what.startswith(beginning) for beginning in EDITS) == 1, what


@pytest.mark.parametrize("edit", [e for edits in EDITS.values() for e in edits], ids=lambda e: f"{e[2]} {e[3]}")
def test_a_fault_that_only_the_models_see(edit: Edit):
    old, new, place, what = edit
    text = edited(OUTLINE, old, new)
    assert accepts(read_document(text, "plan.yaml").data), "the schema sees this one: it isn't model-only"
    with pytest.raises(ReadingFailed) as failed:
        load_plan(text, "plan.yaml")
    assert [(p.place, p.what) for p in failed.value.problems if what in p.what and p.place == place], str(failed.value)
    assert len(failed.value.problems) <= 2, str(failed.value)  # a clash may be told from both its sides


def test_the_strategy_makes_the_same_plan_from_the_same_seed():
    assert made_plan(Random(7)) == made_plan(Random(7))
    assert json.dumps(made_plan(Random(7))) != json.dumps(made_plan(Random(8)))
