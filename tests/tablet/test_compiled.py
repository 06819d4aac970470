"""The engine's Python goes to the page compiled, by the page's own Python; without node it goes as text."""

import re
from pathlib import Path
from zipfile import ZipFile

import pytest

from riglint.tablet.compiled import engine, library

_RULES = "site/riglint/standard_rulebook/"


def test_without_node_the_page_is_made_of_texts_and_it_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", "")
    files = {"site/one.py": b"x = 1\n", "site/two.so": b"", "built_in/rulebooks/own/rule.py": b"y = 2\n"}
    assert engine(files, tmp_path / "pyodide.tgz") == files
    assert "`node` isn't here" in capsys.readouterr().err
    assert library(files, tmp_path / "pyodide.tgz") == files


def test_a_node_that_fails_is_told_of_and_nothing_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    from riglint.tablet.compiled import LOCK, PYODIDE
    from tests.tablet.packed import packed

    part = packed(tmp_path / "pyodide.tgz", {f"package/{name}": b"" for name in (*PYODIDE, LOCK)})
    node = tmp_path / "node"
    node.write_text("#!/bin/sh\necho 'SyntaxError: too old' >&2\nexit 1\n")
    node.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    assert engine({"site/one.py": b"x = 1\n"}, part) == {"site/one.py": b"x = 1\n"}
    assert "could not compile the page's Python (SyntaxError: too old)" in capsys.readouterr().err
    assert sorted(file.name for file in tmp_path.iterdir()) == ["node", "pyodide.tgz"]


@pytest.mark.browser
def test_every_module_goes_compiled_and_rules_with_their_text(tablet_folder: Path) -> None:
    with ZipFile(tablet_folder / "engine" / "engine.zip") as packed:
        names = set(packed.namelist())
        marks = {packed.read(name)[:8] for name in names if name.endswith(".pyc")}
    texts = {name for name in names if name.endswith(".py")}
    assert {"site/riglint/tablet/engine.pyc", "site/pydantic/main.pyc", "site/yaml/loader.pyc"} <= names
    assert len(texts) > 50
    assert all(name.startswith(_RULES) for name in texts)
    assert {re.sub(r"(\w+)\.py$", r"__pycache__/\1.cpython-314.pyc", name) for name in texts} <= names
    with ZipFile(tablet_folder / "engine" / "python_stdlib.zip") as packed:
        assert [name for name in packed.namelist() if name.endswith(".py")] == []
        marks |= {packed.read(name)[:8] for name in packed.namelist() if name.endswith(".pyc")}
    assert len(marks) == 1  # one Python's, and held to no text: PEP 552
    assert next(iter(marks))[4:] == b"\x01\x00\x00\x00"


@pytest.mark.browser
def test_compiling_anew_gives_the_same_bytes(tmp_path: Path) -> None:
    from riglint.tablet.parts import cache_folder, gathered

    part = gathered(cache_folder())["pyodide"]
    sets = {
        f"site/m{k}.py": f"x = {{{k}, 'a', 'b'}}\ndef f(y): return y in {{'p', 'q', 'r'}}\n".encode() for k in range(9)
    }
    made = []
    for room in ("one", "two"):
        (tmp_path / room).mkdir()
        there = tmp_path / room / part.name
        there.symlink_to(part)
        made.append(engine(sets, there))
    assert made[0] == made[1]
    assert set(made[0]) == {f"{name}c" for name in sets}
