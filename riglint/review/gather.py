"""Which files a review looks at, and what they are called in its reports: never by a machine's own paths."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final, NamedTuple
from urllib.parse import quote

_ENDINGS: Final = (".yaml", ".yml")
_MARK: Final = re.compile(rb"\A(?:\xef\xbb\xbf|\xff\xfe|\xfe\xff)")
"""What editors put before the first line to tell UTF-8, UTF-16 and UTF-32."""
_PLAN: Final = re.compile(rb"""^(?:[^#\n]*[{,])?[ \t]*["']?rig_plan["']?[ \t]*:""", re.MULTILINE)
_OTHER: Final = re.compile(rb"""^["']?(rig_(kit|house|task|estimate)|name)["']?\s*:""", re.MULTILINE)
_TITLE: Final = re.compile(rb"""^["']?title["']?\s*:""", re.MULTILINE)
_PARTS: Final = re.compile(rb"""^["']?(bodies|points|winch|lines|redirects|connectors)["']?\s*:""", re.MULTILINE)


class Slice(NamedTuple):
    """The `part`-th of `parts` equal parts of a review; both count from 1."""

    part: int
    parts: int

    def of(self, names: list[str]) -> list[str]:
        """Every `parts`-th file, so that no part has all of a heavy folder."""
        return names[self.part - 1 :: self.parts]

    def __str__(self) -> str:
        return f"{self.part}/{self.parts}"


def read_slice(text: str) -> Slice:
    """A slice as it is written, `2/5`. Raises ValueError."""
    written = re.fullmatch(r"([1-9]\d{0,4})/([1-9]\d{0,4})", text, re.ASCII)
    if written is None or int(written[1]) > int(written[2]):
        raise ValueError(f"a slice is written like 2/5, the second of five parts, not {text!r}")
    return Slice(int(written[1]), int(written[2]))


class Gathered(NamedTuple):
    """The folder that names count from, and the names in the order of their URIs; only names, since they are many."""

    base: str
    names: list[str]

    def path(self, name: str) -> str:
        """Where a file is: its name alone where names count from where the command runs."""
        return name if self.base == os.getcwd() else os.path.join(self.base, name)


def uri(name: str) -> str:
    """A name as a relative URI."""
    return quote(os.fsencode(name))


def gather(paths: Iterable[str]) -> Gathered:
    """Every YAML file at or below the paths; what isn't there, and a folder that can't be opened, come along, too.

    A folder and a list of its files give the same. Folders that begin with a dot are left out, links to folders are
    followed. Names count from where the command runs if everything is below it, else from the folder that everything
    is in.
    """
    given = [os.path.abspath(path) for path in paths]
    here = os.getcwd()
    base = here if all(Path(path).is_relative_to(here) for path in given) else _common(given)
    names = {Path(os.path.relpath(file, base)).as_posix() for path in given for file in _files(path)}
    return Gathered(base, sorted(names, key=uri))


def is_yaml(name: str) -> bool:
    """Whether a file's name ends as YAML's do, in small letters or large."""
    return name.lower().endswith(_ENDINGS)


def is_plan(text: bytes) -> bool:
    """Whether a YAML file is a rig plan, or was meant to be one and lacks its first line or has it wrong.

    Kits, house files, rulebooks and other programs' files are none.
    """
    text = _MARK.sub(b"", text.replace(b"\0", b"")).replace(b"\r", b"\n")  # UTF-16 and UTF-32 have ASCII between zeros
    if _PLAN.search(text):
        return True
    parts = len({match[1] for match in _PARTS.finditer(text)})
    enough = 3 if _TITLE.search(text) else 2  # a chart has a title, lines and points, too
    return parts >= enough and not _OTHER.search(text)


def one_of_each_folder(names: Iterable[str]) -> list[str]:
    """One file of each folder, for what is looked up by folder."""
    first: dict[str, str] = {}
    for name in names:
        first.setdefault(os.path.dirname(name), name)
    return list(first.values())


def _files(path: str) -> Iterator[str]:
    if not os.path.isdir(path):
        yield path
        return
    shut: list[str] = []
    for folder, below, names in os.walk(path, onerror=lambda error: shut.append(str(error.filename)), followlinks=True):
        below[:] = [name for name in below if not name.startswith(".") and not _leads_back(folder, name)]
        yield from (os.path.join(folder, name) for name in names if is_yaml(name))
    yield from shut  # plans may lie in them that nobody could look at


def _leads_back(folder: str, name: str) -> bool:
    """Whether a folder is a link to one that it lies in itself, which would have no end."""
    path = os.path.join(folder, name)
    if not os.path.islink(path):
        return False
    target = os.path.realpath(path)
    return any(Path(os.path.realpath(above)).is_relative_to(target) for above in Path(path).parents)


def _common(given: list[str]) -> str:
    """The folder that all paths stand in."""
    folders = [path if os.path.isdir(path) else os.path.dirname(path) for path in given]
    try:
        return os.path.commonpath(folders)
    except ValueError:  # on two drives
        return os.path.abspath(os.sep)
