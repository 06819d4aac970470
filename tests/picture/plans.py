"""Plans to draw: the shipped ones, and made ones, each solved and inspected by the standard rulebook."""

from functools import cache
from pathlib import Path
from random import Random

from riglint.outcome import Inspection
from riglint.plan.load import load_plan
from riglint.rulebook.book import Rulebook
from riglint.rulebook.find import rulebooks
from riglint.rulebook.inspect import inspect
from riglint.solve.solution import Solution
from riglint.solve.solve import solve
from tests.strategies import made_plan, plan_text

FOLDER = Path(__file__).parents[2] / "examples"
EXAMPLES = sorted(path.stem for path in FOLDER.glob("*.yaml"))
MADE = range(60)


@cache
def book() -> Rulebook:
    return rulebooks(())


def checked(text: str) -> tuple[Solution, Inspection]:
    solution = solve(load_plan(text.encode(), "plan.yaml").rig)
    return solution, inspect(solution, book())


@cache
def example(name: str) -> tuple[Solution, Inspection]:
    return checked((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))


@cache
def made(seed: int) -> tuple[Solution, Inspection]:
    return checked(plan_text(made_plan(Random(seed))))
