"""`riglint draw`: the file that it writes and the codes that it ends with."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from typer.testing import CliRunner

from riglint.commands.app import app
from tests.picture.plans import FOLDER

PLAN = str(FOLDER / "re-rig.yaml")


def run(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(app, ["draw", *words])
    return result.exit_code, result.output


def test_the_picture_is_written_to_the_file(tmp_path: Path) -> None:
    out = tmp_path / "rig.svg"
    assert run(PLAN, "-o", str(out), "--station", "end") == (0, "")
    assert ET.parse(out).getroot().attrib["role"] == "img"
    assert "stage out of the mud" in out.read_text(encoding="utf-8")


def test_without_a_file_it_goes_to_standard_output() -> None:
    code, output = run(PLAN, "--stage", "along the track")
    assert code == 0
    assert output.startswith("<svg")
    assert "stage along the track" in output


@pytest.mark.parametrize("words", [("--stage", "3"), ("--stage", "0"), ("--station", "99 m"), ("--station", "nowhere")])
def test_a_stage_or_place_that_is_not_there_is_a_wrong_call(words: tuple[str, str]) -> None:
    code, output = run(PLAN, *words)
    assert code == 2
    assert words[1] in output


def test_a_plan_that_cannot_be_read_is_said_so(tmp_path: Path) -> None:
    assert run(str(tmp_path / "none.yaml"))[0] == 3
    bad = tmp_path / "bad.yaml"
    bad.write_text("rig_plan: 1\ntitle: x\nbogus: 1\n", encoding="utf-8")
    code, output = run(str(bad))
    assert code == 3
    assert "bogus" in output
