"""The class of the examples, and plans handed in from a text."""

from datetime import date
from functools import cache
from pathlib import Path

from riglint.debrief.handed import Handed, hand_in
from riglint.debrief.task import Task
from riglint.house.context import Contexts
from riglint.plan.sound import read_sound

ROOT = Path(__file__).parents[2]
CLASS = ROOT / "examples" / "class"
PLANS = sorted((CLASS / "plans").glob("*.yaml"))
DAY = date(2026, 4, 15)


@cache
def task() -> Task:
    return task_of((CLASS / "task.yaml").read_text())


def task_of(text: str) -> Task:
    return read_sound(Task, text, "task.yaml").whole()


@cache
def example(name: str) -> Handed:
    """A plan of the class, or with a path any other example."""
    return hand_in(CLASS / name if name.startswith(("model", "plans/")) else ROOT / "examples" / name, contexts())


@cache
def contexts() -> Contexts:
    return Contexts(kit=CLASS / "kit.yaml", today=DAY)


def handed(folder: Path, text: str, name: str = "plan.yaml") -> Handed:
    file = folder / name
    file.write_text(text)
    return hand_in(file, contexts())


def edited(*changes: tuple[str, str], of: str = "model.yaml") -> str:
    """A plan of the class with texts replaced, each of which must be there."""
    text = (CLASS / of).read_text()
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text
