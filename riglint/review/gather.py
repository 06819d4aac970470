"""Which files a review looks at, and what they are called in its reports: never by a machine's own paths."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple
from urllib.parse import quote

_ENDINGS: Final = (".yaml", ".yml")
_PLAN: Final = re.compile(rb"""^\s*["']?rig_plan["']?\s*:|^\s*\{.*\brig_plan\b""", re.MULTILINE)
_OTHER: Final = re.compile(rb"""^["']?(rig_\w+|name|title)["']?\s*:""", re.MULTILINE)
_PARTS: Final = re.compile(rb"""^["']?(bodies|points|winch|lines|redirects|connectors)["']?\s*:""", re.MULTILINE)


class Found(NamedTuple):
    """A file to look at: its name in reports, as a relative URI and as text, and where it is."""

    uri: str
    name: str
    path: str


class Slice(NamedTuple):
    """The `part`-th of `parts` equal parts of a review; both count from 1."""

    part: int
    parts: int

    def of(self, found: list[Found]) -> list[Found]:
        """Every `parts`-th file, so that no part has all of a heavy folder."""
        return found[self.part - 1 :: self.parts]

    def __str__(self) -> str:
        return f"{self.part}/{self.parts}"


def read_slice(text: str) -> Slice:
    """A slice as it is written, `2/5`. Raises ValueError."""
    written = re.fullmatch(r"([1-9]\d{0,4})/([1-9]\d{0,4})", text, re.ASCII)
    if written is None or int(written[1]) > int(written[2]):
        raise ValueError(f"a slice is written like 2/5, the second of five parts, not {text!r}")
    return Slice(int(written[1]), int(written[2]))


class Gathered(NamedTuple):
    """The files of a review, in the order of their URIs, and the folder that their names count from."""

    base: str
    found: list[Found]


def gather(paths: Iterable[str]) -> Gathered:
    """Every YAML file at or below the paths; a path that isn't there comes along, too.

    A folder and a list of its files give the same. Folders that begin with a dot are left out. Names count from
    where the command runs if everything is below it, else from the folder that everything is in.
    """
    given = [os.path.abspath(path) for path in paths]
    here = os.getcwd()
    base = here if all(_is_below(path, here) for path in given) else _common(given)
    files = {file for path in given for file in _files(path)}
    return Gathered(base, sorted(_found(file, base) for file in files))


def is_plan(text: bytes) -> bool:
    """Whether a YAML file is a rig plan, or was meant to be one and lacks its first line.

    Kits, house files, rulebooks and other programs' files are none.
    """
    text = text.replace(b"\0", b"")  # UTF-16 and UTF-32 have ASCII between zeros
    if _PLAN.search(text):
        return True
    return not _OTHER.search(text) and len({match[1] for match in _PARTS.finditer(text)}) > 1


def folders_of(found: Iterable[Found]) -> list[Found]:
    """One file of each folder, for what is looked up by folder."""
    first: dict[str, Found] = {}
    for one in found:
        first.setdefault(os.path.dirname(one.path), one)
    return list(first.values())


def _files(path: str) -> Iterator[str]:
    if not os.path.isdir(path):
        yield path
        return
    for folder, below, names in os.walk(path):
        below[:] = [name for name in below if not name.startswith(".")]
        yield from (os.path.join(folder, name) for name in names if name.endswith(_ENDINGS))


def _found(file: str, base: str) -> Found:
    name = Path(os.path.relpath(file, base)).as_posix()
    return Found(quote(os.fsencode(name)), name, file)


def _is_below(path: str, folder: str) -> bool:
    return Path(path).is_relative_to(folder)


def _common(given: list[str]) -> str:
    """The folder that all paths stand in."""
    folders = [path if os.path.isdir(path) else os.path.dirname(path) for path in given]
    try:
        return os.path.commonpath(folders)
    except ValueError:  # on two drives
        return os.path.abspath(os.sep)
