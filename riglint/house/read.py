"""Reading a house file."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from riglint.house.file import HouseFile
from riglint.kit.read import opened
from riglint.plan.sound import read_sound
from riglint.reading.document import Document
from riglint.reading.problems import Problem


@dataclass(frozen=True, slots=True)
class House:
    """A house file, or what is left of it without its faults."""

    path: Path
    document: Document
    file: HouseFile

    @property
    def folder(self) -> Path:
        """The folder that its names of files count from."""
        return self.path.parent

    def name_of(self, plan: Path | None) -> str:
        """A plan's file from this folder on; empty where it doesn't stand below."""
        if plan is None:
            return ""
        try:
            # The plan's own name is kept, even where it is a link: that is the name that the waiver was given for.
            here = plan.parent.resolve() / plan.name
            return here.relative_to(self.folder.resolve()).as_posix()
        except (ValueError, OSError, RuntimeError):
            return ""


def read_house(path: Path) -> tuple[House | None, list[Problem]]:
    """Read and check a house file: what of it is sound, and every problem that was found.

    None where too little is sound to say more. Raises ReadingFailed where the text can't be read to its end.
    """
    read = read_sound(HouseFile, opened(path, "name a house file that is there"), str(path))
    return (House(path, read.document, read.left) if read.left else None), read.problems
