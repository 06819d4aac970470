"""Finding a plan's house file. Light: most plans have none."""

from __future__ import annotations

from pathlib import Path
from typing import Final

HOUSE: Final = "house.yaml"


def house_file(plan: Path) -> Path | None:
    """The nearest `house.yaml` from the plan's folder upward; where the command runs is of no account."""
    folder = plan.parent
    if ".." in folder.parts:
        folder = folder.resolve()
    above = [folder, *folder.parents]
    if not folder.is_absolute():  # the parents of a relative folder end at where the command runs
        above += Path.cwd().parents
    # A link that leads nowhere is one that can't be read, not none: its limits would go unseen.
    return next((at / HOUSE for at in above if (at / HOUSE).is_file() or (at / HOUSE).is_symlink()), None)
