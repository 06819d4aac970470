"""The JSON Schema of a house file (2020-12), made from the models, and what it leaves to them.

`python -m riglint.house.schema` prints it.
"""

import json
import sys
from typing import Any

from riglint.house.file import HouseFile
from riglint.plan.schema import schema_of

SCHEMA_ID = "https://riglint.example/schemas/house-1.json"

# (what only the program checks, why a schema can't)
MODEL_ONLY: tuple[tuple[str, str], ...] = (
    ("rules and limits that are set or set aside exist, and values have the limit's own unit and, where people stand,"
     " let no more pass than any source does",
     "a schema doesn't know the rulebooks"),
    ("a last day of a waiver that is no day counts as gone by; the schema calls it an error",
     "an editor should mark it, and a run should go on"),
)  # fmt: skip


def house_schema() -> dict[str, Any]:
    """The schema as plain data; the same at every call."""
    return schema_of(HouseFile, SCHEMA_ID, "House file")


def schema_text() -> str:
    """The schema as it stands in its file."""
    return json.dumps(house_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    sys.stdout.write(schema_text())
