"""Folders of plans, reviewed in this process by a small rulebook or in one of its own by the standard one."""

import json
import os
import subprocess
import sys
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from random import Random
from typing import Any

from riglint.review.gather import read_slice
from riglint.review.run import Order, review
from tests.strategies import made_plan, plan_text

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples"
DAY = date(2026, 6, 1)
COMMAND = "from riglint.commands.review_call import review; import typer; typer.run(review)"


def folder_of_plans(folder: Path, count: int = 6) -> Path:
    """So many plans by chance in two folders."""
    for number in range(count):
        below = folder / ("north yard" if number % 2 else "söuth")
        below.mkdir(parents=True, exist_ok=True)
        (below / f"rig_{number}.yaml").write_text(plan_text(made_plan(Random(number))), "utf-8")
    return folder


def report(paths: Iterable[Path | str], form: str = "json", part: str = "", **asked: Any) -> str:
    """A review's report, from this process unless `processes` says otherwise."""
    asked = {"today": DAY} | asked
    order = Order(tuple(map(str, paths)), form=form, slice=read_slice(part) if part else None, **asked)
    with review(order) as done:
        return "".join(done.pieces)


def code(paths: Iterable[Path | str], **asked: Any) -> int:
    """What a review ends with."""
    with review(Order(tuple(map(str, paths)), today=DAY, **asked)) as done:
        return done.code


def plans_of(text: str) -> dict[str, dict[str, Any]]:
    """The records of a report in JSON, by the plan's file name."""
    return {Path(plan["file"]).name: plan for plan in json.loads(text)["plans"]}


def command(*words: str, cwd: Path = ROOT, **env: str) -> subprocess.CompletedProcess[bytes]:
    """The command as a user meets it."""
    path = {"PYTHONPATH": str(ROOT)}
    return subprocess.run(
        [sys.executable, "-c", COMMAND, *words], cwd=cwd, capture_output=True, check=False, env=os.environ | path | env
    )
