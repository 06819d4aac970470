"""Whatever stands in a file, `prepull` ends with 0, 1 or 3: never with a traceback, never with 4, never not at all."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from riglint.commands.prepull import Call, prepull
from tests.plan.mutants import mutant
from tests.strategies import made_plan, plan_text

QUICK, THOROUGH = 60, 5000


def ends_well(seed: int, folder: Path, capsys: pytest.CaptureFixture[str]) -> int:
    """The exit code of one spoilt plan; every third is a whole one, so that rules and reports are reached."""
    file = folder / "plan.yaml"
    file.write_bytes(plan_text(made_plan(Random(seed))).encode() if seed % 3 == 0 else mutant(seed))
    code = int(prepull(Call((str(file),))))
    told = capsys.readouterr()
    assert code in (0, 1, 3), (seed, told.out[:2000])
    assert "Traceback" not in told.out + told.err
    assert told.out
    return code


def run(seeds: range, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    codes = {ends_well(seed, folder, capsys) for seed in seeds}
    assert {1, 3} <= codes, "neither spoilt nor whole plans alone test enough"


def test_a_few_spoilt_plans(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(range(QUICK), tmp_path, capsys)


@pytest.mark.slow
def test_five_thousand_spoilt_plans(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    run(range(THOROUGH), tmp_path, capsys)
