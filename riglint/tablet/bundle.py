"""The engine as one archive: riglint itself with rules and schemas, and the packages that it stands on.

The same files give the same bytes, so that the page's name for its store of files changes only when they do.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Final
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from riglint.shipped import shipped

PACKAGE: Final = Path(__file__).resolve().parents[1]
_WHEELS: Final = ("pydantic_core", "pydantic", "typing-extensions", "annotated-types", "typing-inspection", "PyYAML")
_LEFT_OUT: Final = ("pydantic/v1/", "pydantic/mypy.py", "pydantic/_hypothesis_plugin.py")
_ENDS: Final = (".py", ".so")
_FOREIGN: Final = "-linux-gnu.so"  # the compiled half of PyYAML is for another machine
_BUILT_IN: Final = "built_in"
_DATE: Final = (1980, 1, 1, 0, 0, 0)

Files = dict[str, bytes]


def engine_files(parts: dict[str, Path], built_in: Files) -> Files:
    """Every file of the engine by its place; `built_in` holds a kit, a house file and rulebooks."""
    files = {f"site/{name}": data for wheel in _WHEELS for name, data in _of_wheel(parts[wheel])}
    files |= {f"site/riglint/{name}": data for name, data in _own()}
    for folder, place in (("rules", "standard_rulebook"), ("schemas", "schemas")):
        files |= {f"site/riglint/{place}/{n}": data for n, data in _below(shipped(folder))}
    return files | {f"{_BUILT_IN}/{name}": data for name, data in built_in.items()}


def archive(files: Files) -> bytes:
    """A zip of the files: sorted, undated, the same for the same files."""
    out = BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED, compresslevel=9) as zipped:
        for name in sorted(files):
            info = ZipInfo(name, _DATE)
            info.compress_type = ZIP_DEFLATED
            zipped.writestr(info, files[name])
    return out.getvalue()


def unpacked(packed: bytes) -> Files:
    """The files of a zip."""
    with ZipFile(BytesIO(packed)) as held:
        return {name: held.read(name) for name in held.namelist() if not name.endswith("/")}


def licences(parts: dict[str, Path]) -> Files:
    """The licence files that come in the wheels."""
    found: Files = {}
    for name in _WHEELS:
        with ZipFile(parts[name]) as wheel:
            texts = [n for n in wheel.namelist() if "/licenses/" in n and not n.endswith("/")]
            found |= {f"{name}-{text.rsplit('/', 1)[1]}.txt": wheel.read(text) for text in texts}
    return found


def _of_wheel(file: Path) -> Iterator[tuple[str, bytes]]:
    with ZipFile(file) as wheel:
        for name in wheel.namelist():
            if name.endswith(_ENDS) and not name.endswith(_FOREIGN) and not name.startswith(_LEFT_OUT):
                yield name, wheel.read(name)


def _own() -> Iterator[tuple[str, bytes]]:
    """The package as it stands, less the page itself and what the commands need."""
    for name, data in _below(PACKAGE):
        if name.endswith(".py") and not name.startswith(("commands/", "standard_rulebook/", "tablet/page/")):
            yield name, data


def _below(folder: Path) -> Iterator[tuple[str, bytes]]:
    for file in sorted(folder.rglob("*")):
        name = file.relative_to(folder).as_posix()
        if file.is_file() and "__pycache__" not in name:
            yield name, file.read_bytes()
