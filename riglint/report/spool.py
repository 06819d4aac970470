"""Parts of a long report kept in a file on the side until the whole is put together, so that memory doesn't grow
with the number of plans. The file has no name, so nothing of it is left however the run ends.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator
from tempfile import TemporaryFile
from types import TracebackType
from typing import Final

_ENCODING: Final = "utf-8", "surrogatepass"


class Spool:
    """Sections of each plan's part, in the order they came, or by a key."""

    def __init__(self) -> None:
        self._file = TemporaryFile()  # noqa: SIM115 -- closed by the spool's own exit
        self._at: list[array[int]] = []
        self._keys = array("Q")

    def add(self, key: int, sections: Iterable[str]) -> None:
        """Keep one plan's part; a smaller key comes first in `sorted`."""
        self._keys.append(key)
        for number, text in enumerate(sections):
            if number == len(self._at):
                self._at.append(array("Q"))
            data = text.encode(*_ENCODING)
            self._at[number].extend((self._file.tell(), len(data)))
            self._file.write(data)

    def in_order(self, section: int) -> Iterator[str]:
        """One section of every part, as they came."""
        return self._read(range(len(self._keys)), section)

    def sorted(self, section: int) -> Iterator[str]:
        """One section of every part, by key; those with equal keys as they came."""
        return self._read(sorted(range(len(self._keys)), key=self._keys.__getitem__), section)

    def _read(self, order: Iterable[int], section: int) -> Iterator[str]:
        at = self._at[section] if self._at else array("Q")
        for index in order:
            self._file.seek(at[2 * index])
            yield self._file.read(at[2 * index + 1]).decode(*_ENCODING)

    def __enter__(self) -> Spool:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self._file.close()
