"""`riglint sheet` as it is called."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from riglint.commands.app import app
from tests.sheet.sheets import EXAMPLES, STRINGS


def called(*words: str, given: str | None = None) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, ["sheet", *words], input=given)
    return result.exit_code, result.stdout, result.stderr


@pytest.mark.parametrize(("name", "code"), [("two-parts", 0), ("fruit-truck", 1), ("ten-lines", 1)])
def test_the_sheet_is_written_and_the_code_is_the_verdict_s(tmp_path: Path, name: str, code: int) -> None:
    out = tmp_path / "sheet.html"
    assert called(str(EXAMPLES / f"{name}.yaml"), "-o", str(out))[0] == code
    assert out.read_text("utf-8").startswith("<!doctype html>")


def test_standard_input_has_a_name_and_standard_output_takes_the_page() -> None:
    code, page, _ = called("-", "--name", "north-bank.yaml", given=(EXAMPLES / "two-parts.yaml").read_text("utf-8"))
    assert code == 0
    assert "north-bank.yaml" in page


@pytest.mark.parametrize("words", STRINGS)
def test_a_plan_that_cannot_be_read_writes_no_sheet(tmp_path: Path, words: str) -> None:
    import json

    out = tmp_path / "sheet.html"
    text = (EXAMPLES / "two-parts.yaml").read_text("utf-8") + f"\n{json.dumps(words)}: 1\n"
    code, page, said = called("-", "-o", str(out), given=text)
    assert (code, page) == (3, "")
    assert "riglint: " in said
    assert not out.exists()


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    code, _, said = called(str(tmp_path / "none.yaml"))
    assert code == 3
    assert "none.yaml" in said
