"""`riglint tablet`: the folder, the one file, or a server for trying it."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from shutil import rmtree
from tempfile import TemporaryDirectory
from typing import Any, Final, NamedTuple

from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from riglint.tablet.bundle import Files
from riglint.tablet.engine import BUILT_IN, RULEBOOKS
from riglint.tablet.one_file import one_file
from riglint.tablet.parts import MissingPartsError, cache_folder, gathered
from riglint.tablet.serve import serve
from riglint.tablet.site import site

CLEAR: Final = 0
WRONG_CALL: Final = 2
_MARK: Final = "build.json"


class Wanted(NamedTuple):
    """What the user asked for."""

    out: Path | None = None
    one_file: bool = False
    serving: bool = False
    host: str = "127.0.0.1"
    port: int = 8710
    kit: Path | None = None
    house: Path | None = None
    rulebooks: tuple[Path, ...] = ()
    examples: Path | None = None
    cache: Path | None = None


class WrongCallError(Exception):
    """What was asked for can't be made; the message says why."""


def run(wanted: Wanted) -> int:
    """Make what was asked for and give the code to end with."""
    try:
        _run(wanted)
    except (WrongCallError, MissingPartsError, ReadingFailed) as error:
        sys.stderr.write("".join(f"riglint: {line}\n" for line in str(error).splitlines()))
        return WRONG_CALL
    except KeyboardInterrupt:
        return CLEAR
    return CLEAR


def _run(wanted: Wanted) -> None:
    if wanted.out is None and not wanted.serving:
        raise WrongCallError("name what to make with -o, or give --serve")
    built_in, examples = _built_in(wanted), _examples(wanted.examples)
    parts = gathered(cache_folder(wanted.cache))
    if wanted.one_file:
        if wanted.serving or wanted.out is None:
            raise WrongCallError("--one-file is made with -o FILE.html, and needs no server")
        _write(wanted.out, one_file(parts, built_in, examples).encode())
        return
    files = site(parts, built_in, examples)
    if wanted.out is not None:
        write_folder(wanted.out, files)
        if wanted.serving:
            serve(wanted.out, wanted.host, wanted.port)
        return
    with TemporaryDirectory() as room:
        write_folder(Path(room) / "tablet", files)
        serve(Path(room) / "tablet", wanted.host, wanted.port)


def write_folder(folder: Path, files: Files) -> None:
    """The folder's files, those of an older tablet there taken away. Raises WrongCallError."""
    if folder.exists() and (not folder.is_dir() or (any(folder.iterdir()) and not (folder / _MARK).exists())):
        raise WrongCallError(f"{folder} holds something else: name a new or an empty folder")
    try:
        if folder.exists():
            rmtree(folder)
        for name, data in files.items():
            _write(folder / name, data)
    except OSError as error:
        raise WrongCallError(f"{folder} can't be written: {error.strerror}") from None


def _write(file: Path, data: bytes) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(data)
    except OSError as error:
        raise WrongCallError(f"{file} can't be written: {error.strerror}") from None


def _built_in(wanted: Wanted) -> Files:
    """Kit, house file and rulebooks, each read once as on the command line, so that a bad one is told now."""
    from riglint.house.context import Contexts  # noqa: PLC0415 -- only to check what is built in
    from riglint.kit.read import read_kit  # noqa: PLC0415
    from riglint.rulebook.book import RulebookError  # noqa: PLC0415

    try:
        Contexts(wanted.rulebooks, wanted.house, wanted.kit).of(None)
    except RulebookError as error:
        raise WrongCallError(str(error)) from None
    files, kits = _house(wanted.house) if wanted.house else ({}, [])
    if wanted.kit:
        files[wanted.kit.name] = wanted.kit.read_bytes()
        kits = list(dict.fromkeys([wanted.kit.name, *kits]))
    for kit in kits:
        read_kit(files[kit], kit)
    for folder in wanted.rulebooks:
        files |= {f"{RULEBOOKS}/{folder.resolve().name}/{n}": d for n, d in _below(folder)}
    named = {
        "house": wanted.house.name if wanted.house else None,
        "kits": kits,
        "rulebooks": [folder.resolve().name for folder in wanted.rulebooks],
    }
    return files | {BUILT_IN: json.dumps(named).encode()}


def _house(file: Path) -> tuple[Files, list[str]]:
    """A house file with the kit and the rulebooks that it names, at the same places from it; and the kit's name."""
    files: Files = {file.name: file.read_bytes()}
    data: Any = read_document(files[file.name], str(file)).data
    for name in data.get("rulebooks", ()):
        files |= {f"{_inside(name)}/{n}": d for n, d in _below(file.parent / name)}
    kits = [_inside(data["kit"])] if data.get("kit") else []
    return files | {kit: (file.parent / kit).read_bytes() for kit in kits}, kits


def _inside(name: str) -> str:
    if name.startswith("/") or ".." in Path(name).parts:
        raise WrongCallError(f"the house file names {name!r}, which lies outside its folder and can't be built in")
    return Path(name).as_posix()


def _below(folder: Path) -> list[tuple[str, bytes]]:
    files = [f for f in sorted(folder.rglob("*")) if f.is_file() and "__pycache__" not in f.parts]
    return [(f.relative_to(folder).as_posix(), f.read_bytes()) for f in files]


def _examples(folder: Path | None) -> list[dict[str, str]]:
    """Plans to look at, from a folder. Raises ReadingFailed."""
    found = []
    for file in sorted(folder.glob("*.yaml")) if folder else ():
        text = file.read_text("utf-8")
        title = read_document(text, str(file)).data.get("title", file.stem)
        found.append({"name": file.name, "title": title, "text": text})
    return found
