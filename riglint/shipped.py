"""Where the files that come with the program stand: in the installed package, or in a checkout beside it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Final

_PACKAGE: Final = Path(__file__).resolve().parent
_INSTALLED: Final = {"rules": "standard_rulebook", "schemas": "schemas"}


@cache
def shipped(name: str) -> Path:
    """The folder `rules` or `schemas`. In a checkout it stands beside the package."""
    installed = _PACKAGE / _INSTALLED[name]
    return installed if installed.is_dir() else _PACKAGE.parent / name
