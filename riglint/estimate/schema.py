"""The JSON Schema of an estimate's question (2020-12), made from the models, and what it leaves to them.

`python -m riglint.estimate.schema` prints it.
"""

import json
import sys
from typing import Any

from riglint.estimate.question import Question, WinchAsked
from riglint.plan.schema import schema_of

SCHEMA_ID = "https://riglint.example/schemas/estimate-1.json"

# (what only the program checks, why a schema can't)
MODEL_ONLY: tuple[tuple[str, str], ...] = (
    ("the way that the load goes isn't longer than the reach", "it compares keys"),
    ("the kit is there, and has the gear that is named", "a schema can't look a file up"),
)


def estimate_schema() -> dict[str, Any]:
    """The schema as plain data; the same at every call."""
    made = schema_of(Question, SCHEMA_ID, "Question for an estimate")
    made["$defs"][WinchAsked.__name__]["properties"].pop("mounted", None)
    return made


def schema_text() -> str:
    """The schema as it stands in its file."""
    return json.dumps(estimate_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    sys.stdout.write(schema_text())
