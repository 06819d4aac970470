"""Finding a plan's house files. Light: most plans have none."""

from __future__ import annotations

from pathlib import Path
from typing import Final

HOUSE: Final = ("house.yaml", "house.yml")


def house_files(plan: Path) -> list[Path]:
    """From the plan's folder upward, the nearest first, which alone counts; where the command runs is of no account."""
    folder = plan.parent
    if ".." in folder.parts:
        folder = folder.resolve()
    above = [folder, *folder.parents]
    if not folder.is_absolute():  # the parents of a relative folder end at where the command runs
        above += Path.cwd().parents
    return [at / name for at in above for name in HOUSE if _is_house(at / name)]


def _is_house(file: Path) -> bool:
    """Whether it is one, or meant to be one.

    A link that leads nowhere is one that can't be read, not none: its limits would go unseen. The other ending may be
    another program's.
    """
    if not file.is_file():
        return file.is_symlink()
    return file.name == HOUSE[0] or b"rig_house" in file.read_bytes()
