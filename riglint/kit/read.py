"""From a kit's text to its gear, or every problem that stands in the way, each with its place."""

from __future__ import annotations

from pathlib import Path
from typing import Any, NamedTuple

from riglint.kit.gear import KitFile, Record
from riglint.plan.sound import read_sound
from riglint.reading.document import Document
from riglint.reading.problems import Problem, ReadingFailed


class Gear(NamedTuple):
    """One piece of gear: its number, the kit's entry as checked, and as written."""

    number: str
    record: Record
    written: dict[str, Any]

    @property
    def kind(self) -> str:
        """What it is: piece, join, connector, redirect, winch or point."""
        kind: str = self.written["is"]
        return kind


class Kit(NamedTuple):
    """A kit that could be read."""

    document: Document
    gear: dict[str, Gear]

    def place(self, number: str) -> str:
        """Where gear stands, as `kit.yaml:12`."""
        at = self.document.key_position(f"/gear/{number}")
        return f"{self.document.file}:{at.line}"


def read_kit(text: bytes | str, file: str) -> Kit:
    """Read and check one kit. Raises ReadingFailed with every problem that could be found."""
    read = read_sound(KitFile, text, file)
    document, checked = read.document, read.whole()
    written = document.data["gear"]
    # what doesn't say what it is has been refused
    records = {n: record for n, record in checked.gear.items() if isinstance(record, Record)}
    return Kit(document, {n: Gear(n, record, written[n]) for n, record in records.items()})


def open_kit(file: Path) -> Kit:
    """Read a kit's file. Raises ReadingFailed, too, where it can't be opened."""
    return read_kit(opened(file, "name a kit that is there"), str(file))


def opened(file: Path, serves: str) -> bytes:
    """The bytes of a file. Raises ReadingFailed where it can't be opened."""
    try:
        return file.read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        problem = Problem(str(file), 1, 1, "", f"the file can't be opened: {reason}", serves)
        raise ReadingFailed([problem]) from None
