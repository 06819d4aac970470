"""Records of plans that were worked out before, one file each, found by a key of all that went into them.

A file is written whole under another name and then renamed, so that a run that is killed leaves none half
written and two runs may share a folder. What can't be read, or isn't what was asked for, counts as not there.
Nothing in a file is ever run: it is plain JSON, pressed.
"""

from __future__ import annotations

import contextlib
import json
import os
import time
import zlib
from pathlib import Path
from typing import Any, Final, NamedTuple

from riglint.review.whole_file import BEGUN, whole_file

_FORM: Final = 1
_KEPT_S: Final = 60 * 86_400.0
_TOUCHED_S: Final = 86_400.0
_BEGUN_S: Final = 3_600.0
"""What a killed run began to write is taken away when it is older than any write can be."""


class Cache(NamedTuple):
    """A folder of records, and of parts of reports, which are made from them."""

    folder: Path

    def get(self, key: str) -> dict[str, Any] | None:
        """The record of that key, or None."""
        file = self._file(key)
        try:
            with open(file, "rb") as stream:
                touched_s = os.fstat(stream.fileno()).st_mtime
                pressed = stream.read()
            held = json.loads(zlib.decompress(pressed))
        except (OSError, ValueError, zlib.error, RecursionError):
            return None
        if not isinstance(held, dict) or held.get("key") != key or held.get("form") != _FORM:
            return None
        record = held.get("record")
        if not isinstance(record, dict):
            return None
        with contextlib.suppress(OSError):  # what was asked for is kept when the folder is tidied
            if time.time() - touched_s > _TOUCHED_S:
                os.utime(file)
        return record

    def put(self, key: str, record: dict[str, Any]) -> None:
        """Keep a record. A folder that can't be written to costs only time."""
        held = {"form": _FORM, "key": key, "record": record}
        pressed = zlib.compress(json.dumps(held, separators=(",", ":"), allow_nan=False).encode("ascii"), 1)
        with contextlib.suppress(OSError):
            try:
                self._write(key, pressed)
            except FileNotFoundError:  # the first of its folder
                (self.folder / key[:2]).mkdir(parents=True, exist_ok=True)
                self._write(key, pressed)

    def tidy(self) -> None:
        """At most once a day, take away what was not asked for in two months, and what killed runs left."""
        now = time.time()
        mark = self.folder / "tidied"
        with contextlib.suppress(OSError):
            if mark.exists() and now - mark.stat().st_mtime < _TOUCHED_S:
                return
            self.folder.mkdir(parents=True, exist_ok=True)
            mark.touch()
            for file in self.folder.glob("[0-9a-f][0-9a-f]/*"):
                with contextlib.suppress(OSError):
                    age = now - file.stat().st_mtime
                    if age > (_BEGUN_S if file.suffix == BEGUN else _KEPT_S):
                        file.unlink()

    def _write(self, key: str, pressed: bytes) -> None:
        with whole_file(self._file(key)) as stream:
            stream.write(pressed)

    def _file(self, key: str) -> str:
        return f"{self.folder}/{key[:2]}/{key[2:]}"


def default_folder() -> Path:
    """Where records are kept unless the user says otherwise."""
    told = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    return (Path(told) if told else Path.home() / ".cache") / "riglint" / "review"
