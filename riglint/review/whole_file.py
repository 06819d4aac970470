"""Files that are there whole or not at all, however the run that writes them ends."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import get_ident
from typing import IO, Final

BEGUN: Final = ".begun"
"""How the name of a file ends that is being written, or that a killed run left."""


@contextmanager
def whole_file(file: str | Path) -> Iterator[IO[bytes]]:
    """A stream to write to; the file gets its name when all is written. Raises OSError, which names the file.

    What is being written stands in the same folder, since only there can it be renamed in one step.
    """
    folder, name = os.path.split(file)
    begun = os.path.join(folder, f".{name}.{os.getpid()}-{get_ident()}{BEGUN}")
    try:
        with open(begun, "wb") as stream:
            yield stream
        os.replace(begun, file)
    except BaseException as error:
        with contextlib.suppress(OSError):
            os.unlink(begun)
        if isinstance(error, OSError):
            error.filename = os.fspath(file)  # nobody knows the one that was begun
        raise
