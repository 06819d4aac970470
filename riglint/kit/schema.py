"""The JSON Schema of a kit (2020-12), made from the models, and what it leaves to them.

`python -m riglint.kit.schema` prints it.
"""

import json
import sys
from typing import Any

from riglint.kit.gear import KINDS, KitFile, UnknownGear
from riglint.plan.schema import schema_of

SCHEMA_ID = "https://riglint.example/schemas/kit-1.json"

# (what only the models check, why a schema can't); what holds for a plan's own entries holds here too
MODEL_ONLY: tuple[tuple[str, str], ...] = (
    ("a day is one of the calendar", "a pattern doesn't know how long months are"),
    ("a reason for retirement isn't `yes` or `no`", "kept with the message that says what to write"),
    ("a fairlead's bearing is the plan's to say", "the fairlead is the plan's own, in the schema too"),
)  # fmt: skip


def kit_schema() -> dict[str, Any]:
    """The schema as plain data; the same at every call."""
    made = schema_of(KitFile, SCHEMA_ID, "Kit")
    for kind in KINDS.values():
        gear = made["$defs"][kind.__name__]
        for key in kind.rigged_by:
            gear["properties"].pop(key, None)
        gear["required"] = [key for key in gear["required"] if key not in kind.rigged_by]
    del made["$defs"][UnknownGear.__name__]
    choices = made["properties"]["gear"]["additionalProperties"]["oneOf"]
    choices[:] = [choice for choice in choices if not choice["$ref"].endswith(UnknownGear.__name__)]
    return _without_unused(made)


def _without_unused(schema: dict[str, Any]) -> dict[str, Any]:
    """Without what only the keys that were taken out referred to."""
    text = json.dumps(schema)
    used = {name: part for name, part in schema["$defs"].items() if f'"#/$defs/{name}"' in text}
    if len(used) == len(schema["$defs"]):
        return schema
    return _without_unused(schema | {"$defs": used})


def schema_text() -> str:
    """The schema as it stands in its file."""
    return json.dumps(kit_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    sys.stdout.write(schema_text())
