"""The program's version. A test keeps it equal to the project file's."""

from __future__ import annotations

from typing import Final

VERSION: Final = "0.1.0"
