"""The JSON Schema of a plan (2020-12), made from the models, and what it leaves to them.

It keeps to what editors with draft-07 read too, but for `$defs`. `python -m riglint.plan.schema` prints it.
"""

import json
import sys
from typing import Any

from pydantic import BaseModel

from riglint.plan.plan import Plan
from riglint.plan.quantities import NAMED

SCHEMA_ID = "https://riglint.example/schemas/plan-1.json"

# (what only the models and the rig check, why a schema can't)
MODEL_ONLY: tuple[tuple[str, str], ...] = (
    ("a range goes from the lower to the higher value", "a pattern can't compare two numbers"),
    ("a quantity lies within its bounds: sizes and ratings above zero, a loss below 100 %, a slope at most 60 deg",
     "the number stands inside a text with its unit"),
    ("bearings, travels' climbs and places are exact, not ranges, and so are lengths that place gear: of connectors,"
     " of bridles' legs, of the fairlead ahead of its mount", "ranges share their pattern"),
    ("a mixed fraction such as `1 3/4` has a part below one", "a pattern can't compare two numbers"),
    ("a working load or rating isn't above the breaking strength beside it", "it compares two keys"),
    ("a winch's stall pull isn't below its rated pull", "it compares two keys"),
    ("a drum's flange is larger than its barrel", "it compares two keys"),
    ("a load's room isn't less than its distance, its breakaway not less than its steady resistance",
     "it compares two keys"),
    ("a body's weight acts within its track and wheelbase and under its top, and these lie within its outline",
     "it compares keys"),
    ("ground zones are in order and begin within the travel; stops come within it", "it compares entries"),
    ("a person is at a place or in a body, not both", "kept with the other rules on keys that go together"),
    ("a ring has no sheave or head, a block no groove or bore; a ring has no count of sheaves",
     "kept with the other rules on keys that go together"),
    ("`pickets` and `deadman` belong to points of their kind, `legs` and `equalised` to bridles, `zones` to the load,"
     " `outriggers` to what stays",
     "kept with the other rules on keys that go together"),
    ("every name that is referred to exists: bodies, points, connectors, redirects and their seats, lines, joins",
     "a schema can't look a name up"),
    ("nothing goes in a circle: places from one another, redirects hung from one another",
     "a schema can't follow names"),
    ("a name stands for one thing only, and a connector is made fast in one place", "a schema can't look a name up"),
    ("exactly one body moves, and exactly one line begins at the winch", "a schema can't count by content"),
    ("pieces and joins take turns, beginning and ending with a piece", "a schema can't tell odd from even entries"),
    ("a join is no narrower than the rope that it joins", "it compares entries"),
    ("a redirect takes no more passages than it has sheaves, a line makes at most 12 turns", "it counts names"),
    ("a redirect that hangs from nothing is held by another line's end", "a schema can't follow names"),
    ("the load and something that stays are both made fast", "a schema can't follow names"),
    ("each stage says how far it moves the load, and the stages add up to the load's own distance and way; with"
     " stages, stops belong to them, and climbs where the load's way has one", "it compares entries"),
    ("a winch pays out no load uphill, and a way climbs as its ground slopes", "it compares entries"),
    ("a damper lies between two neighbours on its line", "a schema can't follow names"),
)  # fmt: skip


def plan_schema() -> dict[str, Any]:
    """The schema as plain data; the same at every call."""
    return schema_of(Plan, SCHEMA_ID, "Rig plan")


def schema_of(root: type[BaseModel], schema_id: str, title: str) -> dict[str, Any]:
    """The schema of a whole file, by its model, as plain data."""
    shared: dict[str, Any] = {}
    made = _share(_tidy(root.model_json_schema()), shared)
    made["$defs"] = {**made.get("$defs", {}), **dict(sorted(shared.items()))}
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema", "$id": schema_id, "title": title}
    return head | {key: value for key, value in made.items() if key not in head}


def schema_text() -> str:
    """The schema as it stands in its file."""
    return json.dumps(plan_schema(), indent=2, ensure_ascii=False) + "\n"


def _tidy(node: Any) -> Any:
    """A schema without pydantic's own titles, nulls and keys that older editors don't know."""
    if isinstance(node, list):
        return [_tidy(entry) for entry in node]
    if not isinstance(node, dict):
        return node
    named = {key: {name: _tidy(sub) for name, sub in node[key].items()} for key in _BY_NAME if key in node}
    tidy = {key: _tidy(value) for key, value in node.items() if key not in _BY_NAME and not _is_noise(key, value)}
    return _list_of_equals(_names(_not_null(tidy | named)))


_BY_NAME = ("properties", "$defs")


def _is_noise(key: str, value: Any) -> bool:
    return (key == "title" and isinstance(value, str)) or key == "discriminator" or (key == "default" and not value)


def _not_null(node: dict[str, Any]) -> dict[str, Any]:
    """Nothing behind a key is refused, so `null` is no choice."""
    choices = [choice for choice in node.get("anyOf", ()) if choice != {"type": "null"}]
    if "anyOf" not in node or len(choices) == len(node["anyOf"]):
        return node
    rest = {key: value for key, value in node.items() if key != "anyOf"}
    return (choices[0] if len(choices) == 1 else {"anyOf": choices}) | rest


def _names(node: dict[str, Any]) -> dict[str, Any]:
    """Entries by name: the form of the name apart from what stands under it."""
    if "patternProperties" not in node:
        return node
    [(form, entry)] = node["patternProperties"].items()
    rest = {key: value for key, value in node.items() if key != "patternProperties"}
    return rest | {"propertyNames": {"pattern": form}, "additionalProperties": entry}


def _share(node: Any, shared: dict[str, Any]) -> Any:
    """Write each named piece of schema once, under `$defs`, and refer to it; a use keeps its own description."""
    if isinstance(node, list):
        return [_share(entry, shared) for entry in node]
    if not isinstance(node, dict):
        return node
    inner = {key: _share(value, shared) for key, value in node.items()}
    if NAMED not in inner:
        return inner
    name, about = inner.pop(NAMED)
    use = {"$ref": f"#/$defs/{name}"} | {key: inner.pop(key) for key in ("description",) if key in inner}
    shared[name] = {"description": about} | inner
    return use


def _list_of_equals(node: dict[str, Any]) -> dict[str, Any]:
    if "prefixItems" not in node:
        return node
    rest = {key: value for key, value in node.items() if key != "prefixItems"}
    return rest | {"items": node["prefixItems"][0]}


if __name__ == "__main__":
    sys.stdout.write(schema_text())
