"""A plan inspected by a small rulebook of its own, so that reports are tested apart from the standard rules."""

from pathlib import Path

from riglint.outcome import Grade
from riglint.plan.load import load_plan
from riglint.report.material import Inspected
from riglint.rulebook.find import rulebooks
from riglint.rulebook.inspect import inspect
from riglint.rulebook.sources import Sources
from riglint.solve.solve import solve
from tests.rulebook.rigs import rulebook_folder

EXAMPLES = Path(__file__).parents[2] / "examples"

OVER = """
    from riglint.outcome import Basis, Formula, Value
    use = Formula("use", "load / working_load", (("load", "N"), ("working_load", "N")), "1")
    stage = solution.stages[0]
    worst = max((c for c in stage.components if c.kind == "connector"), key=lambda c: stage.peak(c, "stall").load_n)
    load = stage.peak(worst, "stall").load_n
    yield at_most(
        load, load * 0.5, "N", Where(worst.kind, worst.name, worst.pointer, "stall"),
        Words("{component} carries {measured}, its {measure} is {limit}", "", remedy="Take gear for {twice}"),
        pull_n=stage.stations[0].drum.stall_n, measure="working load", grade=Grade.DANGER,
        terms=(("twice", Value(2 * load, "N")),), working=(use.step(2.0, load, load * 0.5),),
        basis=Basis("standard", "factor 5", "asme-b30-26", "26-1.2", "lifting", "from memory"),
    )"""
UNKNOWN = """
    for fact in ("/winch/drum/fastening", "winch: drum/fastening", "points: who looked at them"):
        yield at_most(None, None, "N", WHERE, WORDS, missing=(fact,))
    yield holds(None, Where("person", "spotter", "/people/0"), WORDS._replace(unknown="{name} may be anywhere"))"""


def inspected(folder: Path, plan: str = "fruit-truck", halting: Grade = Grade.WARNING, **bodies: str) -> Inspected:
    text = (EXAMPLES / f"{plan}.yaml").read_bytes()
    loaded = load_plan(text, f"{plan}.yaml")
    own = bodies or {"over": OVER.strip(), "unknown": UNKNOWN.strip()}
    book = rulebooks([rulebook_folder(folder, own)], standard=False)
    solution = solve(loaded.rig)
    from riglint.shipped import shipped

    inspection = inspect(solution, book, halting)
    return Inspected(f"{plan}.yaml", loaded.document, solution, inspection, book, Sources([shipped("rules")]))
