"""The shipped plans, each loaded and worked out once."""

from functools import cache
from pathlib import Path

from riglint.plan.load import load_plan
from riglint.solve.solution import Case, Kind, Solution, StageSolution, Station
from riglint.solve.solve import solve

FOLDER = Path(__file__).parents[2] / "examples"
PLANS = sorted(path.stem for path in FOLDER.glob("*.yaml"))


def text(name: str) -> str:
    return (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")


def solve_text(plan: str) -> Solution:
    return solve(load_plan(plan, "plan.yaml").rig)


@cache
def solution(name: str) -> Solution:
    return solve_text(text(name))


def stage(name: str, index: int = 0) -> StageSolution:
    return solution(name).stages[index]


def start(name: str, index: int = 0) -> Station:
    return stage(name, index).stations[0]


def end(name: str, index: int = 0) -> Station:
    return stage(name, index).stations[-1]


def peak_n(name: str, kind: Kind, part: str, case: Case = "stall", index: int = 0) -> float:
    """The worst load of a component over the travel."""
    found = stage(name, index)
    component = found.component(kind, part)
    assert component is not None, f"{name} has no {kind} {part}"
    peak = found.peak(component, case)
    assert peak is not None, f"{part} has no load in the case {case}"
    return peak.load_n
