"""The same bytes on every machine, though mathematical libraries differ in the last place."""

import json
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@cache
def reports(seed: int) -> dict[str, str]:
    words = [sys.executable, "-m", "tests.report.last_bit", str(seed)]
    told: dict[str, str] = json.loads(subprocess.run(words, cwd=ROOT, capture_output=True, check=True).stdout)
    return told


@pytest.mark.parametrize("seed", [1, 2, *(pytest.param(k, marks=pytest.mark.slow) for k in range(3, 11))])
def test_reports_do_not_hang_on_the_last_bit(seed: int) -> None:
    as_it_is, moved = reports(0), reports(seed)
    assert len(as_it_is) > 40
    assert [name for name, report in as_it_is.items() if moved[name] != report] == []
