"""The key that a record is kept under: a digest of everything that its content hangs on.

The program's own code, the rulebooks' files, the house file, the kit, the plan, the halting grade, and the day
where anything may look at it. Whatever else a rule reads would be a fault of that rule.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

import yaml

from riglint.house.context import Context
from riglint.kit.find import KitRefused
from riglint.outcome import Grade
from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from riglint.shipped import shipped

_READ: Final = (".py", ".yaml", ".yml", ".json")


def digest(parts: Iterable[bytes]) -> str:
    """Of the parts with their lengths, so that no two lists run together."""
    whole = sha256()
    for part in parts:
        whole.update(b"%d:" % len(part))
        whole.update(part)
    return whole.hexdigest()


def program_digest() -> str:
    """Of the program's own files, and of what they run on."""
    package = Path(__file__).resolve().parents[1]
    versions = (sys.version, yaml.__version__, *_pydantic())
    return digest([*(v.encode() for v in versions), *_files(package)])


class Keys:
    """Keys of the plans of one run; what many plans share is digested once."""

    def __init__(self, program: str, halting: Grade, *, remedies: bool = False) -> None:
        self._start = [program.encode(), halting.value.encode(), b"with remedies" if remedies else b""]
        self._remedies = remedies
        self._folders: dict[Path, bytes] = {}
        self._shared: dict[tuple[int, int], tuple[bytes, Context]] = {}

    def key(self, text: bytes, context: Context) -> str:
        """The key of a plan's record."""
        parts = [self._of(context)]
        if self._remedies or b"kit" in text:  # remedies take gear of a kit, too
            parts += _kit(text, context)
        if context.house:
            names = [context.house.name_of(context.plan), *context.passed_over]
            parts += [name.encode("utf-8", "surrogatepass") for name in names]
        if len(parts) > 1 or self._may_look_at_the_day(context):
            parts.append(str(context.today).encode())
        return digest([*parts, text])

    def _of(self, context: Context) -> bytes:
        """Of what all plans with this house file and these rulebooks share. Contexts live as long as the run."""
        about = id(context.house), id(context.rulebook)
        if about not in self._shared:
            house = context.house.document.text.encode() if context.house else b""
            folders = [self._folder(origin.folder) for origin in context.rulebook.origins]
            self._shared[about] = digest([*self._start, house, *folders]).encode(), context
        return self._shared[about][0]

    def _folder(self, folder: Path) -> bytes:
        if folder not in self._folders:
            self._folders[folder] = digest(_files(folder)).encode()
        return self._folders[folder]

    def _may_look_at_the_day(self, context: Context) -> bool:
        """The standard rules look at the day only for gear of a kit; of others it can't be known."""
        return any(origin.folder != shipped("rules") for origin in context.rulebook.origins)


def _kit(text: bytes, context: Context) -> list[bytes]:
    """What the plan's kit says, or why it has none. A plan in which no kit is named is worked out without one."""
    try:
        data: Any = read_document(text, "").data
        named = data.get("kit") if isinstance(data, dict) else None
        kit = context.kit_for(named if isinstance(named, str) else None)
    except (ReadingFailed, KitRefused) as failed:
        return [str(failed).encode("utf-8", "surrogatepass")]
    return [kit.document.file.encode("utf-8", "surrogatepass"), kit.document.text.encode()] if kit else [b"none"]


def _files(folder: Path) -> list[bytes]:
    """Names and contents of a folder's files that may be run or read."""
    files = sorted(
        file for file in folder.rglob("*") if file.suffix in _READ and not _hidden(file.relative_to(folder).parts)
    )
    return [part for file in files for part in (file.relative_to(folder).as_posix().encode(), _bytes(file))]


def _hidden(parts: tuple[str, ...]) -> bool:
    return any(part.startswith((".", "__pycache__")) for part in parts)


def _bytes(file: Path) -> bytes:
    return file.read_bytes() if file.is_file() else b""


def _pydantic() -> tuple[str, str]:
    import pydantic  # noqa: PLC0415 -- only its version; the models have it loaded by now
    import pydantic_core  # noqa: PLC0415

    return pydantic.VERSION, pydantic_core.__version__
