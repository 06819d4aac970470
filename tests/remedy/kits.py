"""A plan with a kit, and the engine that lends from it."""

from riglint.kit.read import read_kit
from riglint.plan.load import load_plan
from riglint.remedy.workshop import Engine
from riglint.rulebook.inspect import inspect
from tests.remedy.cases import BOOK, EXAMPLES, worked_out


def lends(gear: str) -> Engine:
    """An engine with a kit of this gear."""
    read = read_kit("rig_kit: 1\ntitle: yard\ngear:\n" + gear, "kit.yaml")

    def kit_for(named):
        return read

    return Engine(
        BOOK,
        lambda text, file: load_plan(text, file, kit_for),
        lambda solution, halting: inspect(solution, BOOK, halting),
        kit_for,
    )


def with_kit(plan: str, kit: str):
    """An example, with gear of a kit to choose from."""
    text = (EXAMPLES / f"{plan}.yaml").read_text()
    return worked_out(text.replace("reports_in:", "kit: kit.yaml\nreports_in:", 1), lends(kit))


def made_kit(random) -> str:
    """Some gear of every kind, of strengths by chance."""
    entries = []
    for i in range(1, 4):
        for kind in ("bow shackle", "strap", "soft shackle"):
            facts = (
                f"kind: {kind}, length: {random.uniform(0.1, 1.5):.2f} m, working_load: {random.randrange(80, 400)} kN"
            )
            entries.append(f"C-{kind[:2].upper()}{i}: {{is: connector, {facts}, basis: mark}}")
        size = random.randrange(100, 400)
        seat = (
            f"{{tread: {size} mm, groove_for: 8 mm to 20 mm, rated: {random.randrange(100, 600)} kN, rated_for: line}}"
        )
        entries.append(f"K-{i}: {{is: redirect, kind: block, loss: 4 %, sheave: {seat}}}")
        rope = f"rope: hmpe, diameter: {random.randrange(9, 20)} mm, length: {random.randrange(5, 30)} m"
        entries.append(f"R-{i}: {{is: piece, {rope}, breaking: {random.randrange(100, 400)} kN, ends: spliced eye}}")
    return "".join(f"  {entry}\n" for entry in entries)
