"""Every fact that a plan may leave out is read by something: there is a plan of which it changes what is said.

What a user writes and nothing reads is a promise that nobody keeps. Each key of the schema is taken away where a case,
an example or `rarely_stated.yaml` has it, until some rule says another thing or there is no rig any more; keys that no
rule reads stand below with who does.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from riglint.plan.schema import plan_schema
from riglint.reading.document import read_document
from riglint.rulebook.rule import Rule
from tests.rules.says import said
from tests.rules.test_worse import BOOK, judged, seeds, solved

SCHEMA = plan_schema()
RARE = Path(__file__).parent / "rarely_stated.yaml"
Key = tuple[str, str]  # a piece of the schema and its key
Place = tuple[str | int, ...]

FOR_THE_RECORD = {
    "notes": "people only",
    "from_kit": "the kit, which fills in the rest before a plan is one; tests/kit",
    "kit": "the kit",
    "reports_in": "reports: it changes units, and nothing that is found",
    "Damper weight": "people only, since no figure is published for dampers",
    "Outline height": "the picture, and what is told of a weight over the body's top",
    "Pickets material": "people only: of two manuals' figures the weaker counts for either",
    "Piece age": "people only",
    "Redirect material": "people only",
    "Redirect weight": "people only",
    "Winch drive": "the checklist",
    "Winch gearing_loss": "people only",
    "Winch line_speed": "people only",
}


def resolved(schema: dict[str, Any], data: Any) -> tuple[str, dict[str, Any]]:
    """The piece of schema that holds for a value, with its name where it has one."""
    name = ""
    while True:
        if "$ref" in schema:
            name = schema["$ref"].rpartition("/")[2]
            schema = SCHEMA["$defs"][name]
            continue
        choices = [resolved(choice, data) for choice in (*schema.get("anyOf", ()), *schema.get("oneOf", ()))]
        fitting = [c for c in choices if isinstance(data, dict) and set(data) <= set(c[1].get("properties", ()))]
        if not fitting:
            return name, schema
        return next((c for c in fitting if ("kind" in data) == ("kind" in c[1].get("required", ()))), fitting[0])


def keys_in(data: Any, schema: dict[str, Any], path: Place = ()) -> Iterator[tuple[Key, Place]]:
    """Every key of a plan that it may leave out, with its place."""
    name, schema = resolved(schema, data)
    if isinstance(data, dict):
        for key, value in data.items():
            own = schema.get("properties", {}).get(key)
            if own is not None and key not in schema.get("required", ()):
                yield (name, key), (*path, key)
            yield from keys_in(value, own or schema.get("additionalProperties") or {}, (*path, key))
    if isinstance(data, list):
        for i, value in enumerate(data):
            yield from keys_in(value, schema.get("items") or {}, (*path, i))


@cache
def plans() -> tuple[Any, ...]:
    return (*(data for _, data in seeds()), read_document(RARE.read_bytes(), RARE.name).data)


@cache
def written() -> dict[Key, list[tuple[int, Place]]]:
    """Where the cases and examples have each key: the number of the plan and the place in it."""
    found = defaultdict(list)
    for number, plan in enumerate(plans()):
        for key, path in keys_in(plan, SCHEMA):
            found[key].append((number, path))
    return found


def optional() -> list[Key]:
    """Every key of the schema that a plan may leave out."""
    pieces = [("", SCHEMA), *SCHEMA["$defs"].items()]
    return [
        (name, key) for name, piece in pieces for key in piece.get("properties", ())
        if key not in piece.get("required", ())
    ]  # fmt: skip


@cache
def told(number: int) -> list[list[str]]:
    return _told(plans()[number])


def _told(plan: Any) -> list[list[str]]:
    """What each rule says; nothing at all of what is no rig."""
    solution = solved(plan)
    rules: tuple[Rule, ...] = BOOK.rules
    return [] if solution is None else [said(judged(rule, solution)) for rule in rules]


def without(plan: Any, path: Place) -> Any:
    plan = deepcopy(plan)
    holder = plan
    for step in path[:-1]:
        holder = holder[step]
    del holder[path[-1]]
    return plan


@pytest.mark.parametrize(("name", "key"), optional(), ids=lambda part: part or "plan")
def test_a_fact_changes_what_is_said_or_is_said_to_be_for_the_record(name: str, key: str) -> None:
    read = any(_told(without(plans()[n], path)) != told(n) for n, path in written()[name, key])
    record = {key, f"{name} {key}"} & set(FOR_THE_RECORD)
    assert read or record, "no rule says another thing without it: read it, or say who does"
    assert not (read and f"{name} {key}" in FOR_THE_RECORD), "a rule reads it by now: take it off the list"


def test_the_list_names_keys_of_the_schema() -> None:
    names = {f"{name} {key}" for name, key in optional()} | {key for _, key in optional()}
    assert set(FOR_THE_RECORD) <= names
