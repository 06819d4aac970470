"""How long one plan takes, as ratios measured in one run: `python -m tests.benchmarks.prepull`.

- cold: `riglint prepull` on an example over `python -c "import yaml, pydantic"`, whole processes by turns;
- warm: solving and checking the design's outline plan over `yaml.load` with the C loader on its text.
"""

from __future__ import annotations

import gc
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

import yaml

from riglint.__main__ import LOOSE
from riglint.plan.load import load_plan
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply, inspect
from riglint.solve.solve import solve

ROOT = Path(__file__).parents[2]
OUTLINE = ROOT / "examples" / "fruit-truck.yaml"
# What the spine began with; the other rules came after.
FIRST_RULES = (
    "drum-wraps", "working-load", "twisted-join", "join-at-redirect", "bend-under-load", "anchor-rating",
    "enough-pull", "enough-line",
)  # fmt: skip


def cold(rounds: int = 11) -> tuple[float, float]:
    """Median seconds of the imports alone and of the command, run by turns."""
    # Compiled files are kept between runs, as in any installation.
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    calls = (
        [sys.executable, "-c", "import yaml, pydantic"],
        [sys.executable, "-m", "riglint", "prepull", str(OUTLINE)],
    )
    times: tuple[list[float], list[float]] = ([], [])
    for number in range(rounds + 1):
        for call, own in zip(calls, times, strict=True):
            began = perf_counter()
            subprocess.run(call, cwd=ROOT, env=environment, capture_output=True, check=False)
            if number:  # the first round compiles
                own.append(perf_counter() - began)
    return median(times[0]), median(times[1])


def quickest(jobs: dict[str, Callable[[], object]], times: int = 30, rounds: int = 12) -> dict[str, float]:
    """Seconds of one call of each job, the best of some rounds.

    Each round does all of them, since a machine that others share has slow minutes and quick ones.
    """
    best = dict.fromkeys(jobs, float("inf"))
    for _ in range(rounds):
        for name, job in jobs.items():
            began = process_time()
            for _ in range(times):
                job()
            best[name] = min(best[name], (process_time() - began) / times)
    return best


def main() -> None:
    base, command = cold()
    print(f"cold start: {command / base:.2f} x the imports alone ({1e3 * command:.0f} ms over {1e3 * base:.0f} ms)")
    gc.set_threshold(LOOSE)
    text = OUTLINE.read_text("utf-8")
    rig, book = load_plan(text, OUTLINE.name).rig, standard_rulebook()
    solution = solve(rig)
    first = [(rule, book.limits[rule.slug]) for rule in book.rules if rule.slug in FIRST_RULES]
    jobs = {
        "yaml": lambda: yaml.load(text, yaml.CSafeLoader),
        "read": lambda: load_plan(text, OUTLINE.name),
        "solve": lambda: solve(rig),
        "first": lambda: [apply(rule, solution, limits) for rule, limits in first],
        "all": lambda: inspect(solution, book),
    }
    took = quickest(jobs)
    loaded, solved = took["yaml"], took["solve"]
    print(f"reading, checking and resolving a plan: {took['read'] / loaded:.2f} x yaml.load")
    print(f"solving: {solved / loaded:.2f} x yaml.load ({1e3 * loaded:.2f} ms)")
    print(f"solving and checking by the first {len(first)} rules: {(solved + took['first']) / loaded:.2f} x yaml.load")
    print(f"solving and checking by all {len(book.rules)} rules: {(solved + took['all']) / loaded:.2f} x yaml.load")


if __name__ == "__main__":
    main()
