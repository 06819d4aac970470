"""Reading a house file."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from riglint.house.file import HouseFile
from riglint.kit.read import opened, validated
from riglint.reading.document import Document, read_document


@dataclass(frozen=True, slots=True)
class House:
    """A house file that could be read."""

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


def read_house(path: Path) -> House:
    """Read and check a house file. Raises ReadingFailed with every problem that could be found."""
    document = read_document(opened(path, "name a house file that is there"), str(path))
    return House(path, document, validated(HouseFile, document))
