"""The JSON Schema of a task (2020-12), made from the models, and what it leaves to them.

`python -m riglint.debrief.schema` prints it.
"""

import json
import sys
from typing import Any

from riglint.debrief.task import Task
from riglint.plan.schema import schema_of

SCHEMA_ID = "https://riglint.example/schemas/task-1.json"

# (what only the program checks, why a schema can't)
MODEL_ONLY: tuple[tuple[str, str], ...] = (
    ("rules that have marks exist", "a schema doesn't know the rulebooks"),
    ("a pass mark isn't above the full marks, a graver grade doesn't cost less", "it compares keys"),
    ("the kit and the model plan are there, below the task's folder", "a schema can't look a file up"),
)


def task_schema() -> dict[str, Any]:
    """The schema as plain data; the same at every call."""
    return schema_of(Task, SCHEMA_ID, "Task for a class")


def schema_text() -> str:
    """The schema as it stands in its file."""
    return json.dumps(task_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    sys.stdout.write(schema_text())
