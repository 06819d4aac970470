"""What the README shows is what the program prints, and its plan is a plan."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

from riglint.plan.load import load_plan

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text("utf-8")
TOURS = re.findall(r"<!-- (tour|part): (.+?) -->\n```\n(.*?)```", README, re.DOTALL)


@cache
def printed(words: str) -> str:
    call = [sys.executable, "-m", "riglint", *shlex.split(words)]
    return subprocess.run(call, cwd=ROOT, capture_output=True, text=True, check=False).stdout


@pytest.mark.parametrize(("how", "words", "shown"), TOURS)
def test_the_tour_shows_real_output(how: str, words: str, shown: str) -> None:
    """Each block stands in the output of its command, from the first line on unless it is a part."""
    text = shown.rstrip("\n")
    assert text.strip()
    assert printed(words).startswith(text) if how == "tour" else f"\n{text}\n" in printed(words)


def test_the_plan_of_the_tour_loads() -> None:
    [text] = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)
    assert load_plan(text, "README.md").plan.title


def test_every_command_named_is_there() -> None:
    call = [sys.executable, "-m", "riglint", "--help"]
    known = subprocess.run(call, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    for command in set(re.findall(r"`riglint ([a-z]+)", README)):
        assert re.search(rf"^\W*{command} ", known, re.MULTILINE), command
