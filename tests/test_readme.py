"""What the README shows is what the program prints, and its plan is a plan."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from riglint.plan.load import load_plan

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
TOURS = re.findall(r"<!-- tour: (.+?) -->\n```\n(.*?)```", README, re.DOTALL)


@pytest.mark.parametrize(("words", "shown"), TOURS)
def test_the_tour_shows_real_output(words: str, shown: str) -> None:
    """Each block stands in the output of its command, from the first line on."""
    call = [sys.executable, "-m", "riglint", *words.split()]
    printed = subprocess.run(call, cwd=ROOT, capture_output=True, text=True, check=False).stdout
    assert shown.strip()
    assert printed.startswith(shown.rstrip("\n"))


def test_the_plan_of_the_tour_loads() -> None:
    [text] = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
    assert load_plan(text, "README.md").plan.title


def test_every_command_named_is_there() -> None:
    call = [sys.executable, "-m", "riglint", "--help"]
    known = subprocess.run(call, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    for command in set(re.findall(r"`riglint ([a-z]+)", README)):
        assert re.search(rf"^\W*{command} ", known, re.MULTILINE), command
