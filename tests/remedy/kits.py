"""A plan with a kit, and the engine that lends from it."""

from riglint.kit.read import read_kit
from riglint.plan.load import load_plan
from riglint.remedy.workshop import Engine
from riglint.rulebook.inspect import inspect
from tests.remedy.cases import BOOK, EXAMPLES, worked_out


def with_kit(plan: str, kit: str):
    """An example, with gear of a kit to choose from."""
    read = read_kit("rig_kit: 1\ntitle: yard\ngear:\n" + kit, "kit.yaml")

    def kit_for(named):
        return read

    engine = Engine(
        BOOK,
        lambda text, file: load_plan(text, file, kit_for),
        lambda solution, halting: inspect(solution, BOOK, halting),
        kit_for,
    )
    text = (EXAMPLES / f"{plan}.yaml").read_text()
    return worked_out(text.replace("reports_in:", "kit: kit.yaml\nreports_in:", 1), engine)
