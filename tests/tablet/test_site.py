"""What is made: the same for the same parts, nothing that points outside, and every file in the list."""

import json
import re
from base64 import b64encode
from hashlib import sha256
from pathlib import Path

import pytest

from riglint.tablet.icons import icon
from riglint.tablet.site import CSP, PAGE, bare_imports, page_texts

MAKES = re.compile(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|\.style\b")
OUTSIDE = re.compile(r"https?://(?!www\.w3\.org/|parts\.invalid/)")


def test_the_page_names_no_place_outside() -> None:
    for file in PAGE.iterdir():
        assert not OUTSIDE.search(file.read_text("utf-8")), file.name


def test_nothing_in_the_page_makes_markup_or_code_of_text() -> None:
    for name, text in page_texts().items():
        assert not MAKES.search(text), name


def test_the_policy_is_strict() -> None:
    assert CSP.startswith("default-src 'none'")
    assert "unsafe-inline" not in CSP
    assert "'unsafe-eval'" not in CSP


def test_imports_are_told_by_name_in_the_one_file() -> None:
    assert bare_imports('import { a } from "./dom.js";') == 'import { a } from "riglint/dom.js";'
    assert all('"./' not in bare_imports(text) for name, text in page_texts().items() if name.endswith(".js"))


def test_icons_are_pictures() -> None:
    assert icon(24).startswith(b"\x89PNG")
    assert icon(24) == icon(24)


@pytest.mark.browser
def test_the_list_is_exact_and_its_name_follows_the_content(tablet_folder: Path) -> None:
    build = json.loads((tablet_folder / "build.json").read_text())
    there = {p.relative_to(tablet_folder).as_posix() for p in tablet_folder.rglob("*") if p.is_file()}
    assert set(build["files"]) == there - {"sw.js", "licences.txt"}
    worker = (tablet_folder / "sw.js").read_text()
    assert f'const STORE = "{build["store"]}"' in worker
    for name in build["files"]:
        digest = b64encode(sha256((tablet_folder / name).read_bytes()).digest()).decode()
        assert f'"{name}": "sha256-{digest}"' in worker


@pytest.mark.browser
def test_the_same_parts_make_the_same_bytes(tablet_folder: Path, tablet_file: Path, tmp_path: Path) -> None:
    from riglint.tablet.command import Wanted, run
    from tests.tablet.conftest import EXAMPLES

    assert run(Wanted(out=tmp_path / "again", examples=EXAMPLES)) == 0
    assert run(Wanted(out=tmp_path / "again.html", one_file=True, examples=EXAMPLES)) == 0
    for file in tablet_folder.rglob("*"):
        if file.is_file():
            assert (tmp_path / "again" / file.relative_to(tablet_folder)).read_bytes() == file.read_bytes(), file.name
    assert (tmp_path / "again.html").read_bytes() == tablet_file.read_bytes()


@pytest.mark.browser
def test_licences_go_with_the_parts(tablet_folder: Path) -> None:
    from riglint.tablet.parts import locked

    text = (tablet_folder / "licences.txt").read_text("utf-8")
    assert all(f"{part.name} {part.version}: {part.licence}" in text for part in locked())
