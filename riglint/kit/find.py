"""Where a plan's kit may stand: under the folder of the plan or of the house file, and nowhere else.

A plan comes from anywhere, so it can't be let open whatever file it names.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path, PurePosixPath, PureWindowsPath

from riglint.reading.problems import quoted

_SERVES = "write the kit's file from the plan's folder or the house file's, such as `kit.yaml`"


class KitRefused(ValueError):
    """A kit that a plan names and can't have: what was found, and what would serve."""

    def __init__(self, found: str, serves: str = _SERVES) -> None:
        super().__init__(f"{found}; {serves}")
        self.found = found
        self.serves = serves


def kit_file(named: str, folders: Iterable[Path]) -> Path:
    """The kit's file in the first of the folders that has it. Raises KitRefused."""
    _check_name(named)
    for folder in folders:
        file = folder / named
        try:
            target = file.resolve(strict=True)
        except (FileNotFoundError, NotADirectoryError):
            continue
        except (OSError, ValueError, RuntimeError):  # a name too long, a link to itself
            raise KitRefused(f"the kit {quoted(named)} can't be opened") from None
        if not target.is_relative_to(folder.resolve()):
            raise KitRefused(f"the kit {quoted(named)} is a link that leads out of its folder")
        if not target.is_file():
            raise KitRefused(f"the kit {quoted(named)} is no file")
        return file
    raise KitRefused(f"there is no kit {quoted(named)}")


def _check_name(named: str) -> None:
    """A relative path downward; on every machine the same, so the other one's forms are refused, too."""
    windows, posix = PureWindowsPath(named), PurePosixPath(named)
    if posix.is_absolute() or windows.is_absolute() or windows.drive or windows.root:
        raise KitRefused(f"the kit {quoted(named)} isn't named from a folder")
    if ".." in posix.parts or ".." in windows.parts:
        raise KitRefused(f"the kit {quoted(named)} leads out of its folder")
    if "\0" in named:
        raise KitRefused(f"the kit {quoted(named)} can't be opened")
