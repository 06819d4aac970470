"""The engine's Python compiled beforehand: a browser that has to compile it takes twice as long to start.

Only the page's own Python can compile for itself, so it is run by node, which comes with the npm that gets it.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path
from shutil import which
from tarfile import open as open_tar
from tempfile import TemporaryDirectory
from typing import Final
from zipfile import BadZipFile

from riglint.tablet.bundle import Files, archive, unpacked

PYODIDE: Final = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip")
LOCK: Final = "pyodide-lock.json"
_SCRIPT: Final = Path(__file__).with_name("compile.mjs")
_PATIENCE_S: Final = 300
_KEPT: Final = 8  # compiled archives: of the latest forms of the program
_LIBRARY: Final = "/lib/python314.zip/"
_ENGINE: Final = "/riglint/"
_RULES: Final = "site/riglint/standard_rulebook/"  # their text is wanted too: it is what a rulebook is known by
_TAG: Final = "cpython-314"


def engine(files: Files, pyodide: Path) -> Files:
    """The engine's files, its modules compiled; as they are where there is nothing to compile them with."""
    sources = {n: d for n, d in files.items() if n.startswith("site/") and n.endswith(".py")}
    made = _compiled(_ENGINE, sources, pyodide)
    shown = {name: data for name, data in files.items() if name not in made or name.startswith(_RULES)}
    return shown | {_place(name): data for name, data in made.items()}


def library(files: Files, pyodide: Path) -> Files:
    """The files of Python's own library, compiled likewise."""
    sources = {name: data for name, data in files.items() if name.endswith(".py")}
    made = _compiled(_LIBRARY, sources, pyodide)
    return {n: d for n, d in files.items() if n not in made} | {f"{n}c": d for n, d in made.items()}


def _place(name: str) -> str:
    """Where Python looks for a compiled file: instead of its text, or, where that stays, in a folder beside it."""
    if not name.startswith(_RULES):
        return f"{name}c"
    folder, _, file = name.rpartition("/")
    return f"{folder}/__pycache__/{file.removesuffix('.py')}.{_TAG}.pyc"


def _compiled(root: str, sources: Files, pyodide: Path) -> Files:
    """Each source compiled for its place below `root`, from the cache beside the part where it is there."""
    packed = archive({f"{root}{name}": data for name, data in sources.items()})
    name = sha256(pyodide.name.encode() + _SCRIPT.read_bytes() + packed).hexdigest()[:20]
    kept = pyodide.parent / f"compiled-{name}.zip"
    try:
        return _files(kept.read_bytes(), root)
    except (OSError, BadZipFile):
        pass
    with TemporaryDirectory(dir=kept.parent) as room:
        made = Path(room) / "out.zip"
        reason = _run(packed, made, pyodide)
        if reason:
            sys.stderr.write(f"riglint: {reason}; the page is made all the same, but starts half as fast\n")
            return {}
        files = _files(made.read_bytes(), root)
        made.replace(kept)  # whole or not at all
    for old in sorted(kept.parent.glob("compiled-*.zip"), key=lambda f: f.stat().st_mtime)[:-_KEPT]:
        old.unlink(missing_ok=True)
    return files


def members(pyodide: Path, names: Iterable[str]) -> Files:
    """Files of the part by name. Raises KeyError for one that isn't in it."""
    with open_tar(pyodide) as held:
        return {name: held.extractfile(f"package/{name}").read() for name in names}  # type: ignore[union-attr]


def _files(packed: bytes, root: str) -> Files:
    return {name.removeprefix(root): data for name, data in unpacked(packed).items()}


def _run(packed: bytes, made: Path, pyodide: Path) -> str:
    """Run the page's Python; gives the reason where it fails."""
    node = which("node")
    if node is None:
        return "`node` isn't here to compile the page's Python"
    source = made.with_name("in.zip")
    source.write_bytes(packed)
    for name, data in members(pyodide, (*PYODIDE, LOCK)).items():
        made.with_name(name).write_bytes(data)
    words = [node, str(_SCRIPT), str(made.parent), str(source), str(made)]
    try:
        done = subprocess.run(words, capture_output=True, text=True, timeout=_PATIENCE_S, check=False)  # noqa: S603 -- our own words, no shell
    except (OSError, subprocess.TimeoutExpired) as error:
        return f"`node` failed to compile the page's Python: {type(error).__name__}"
    if made.is_file():
        return ""
    said = [line for line in done.stderr.splitlines() if "Error" in line]
    return "`node` could not compile the page's Python" + (f" ({said[-1].strip()})" if said else "")
