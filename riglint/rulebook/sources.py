"""The sources that bases cite. Read only when a report prints a citation."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any, Final, NamedTuple

from riglint.outcome import Basis
from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed
from riglint.rulebook.book import RulebookError

SOURCES: Final = "sources.yaml"


class Source(NamedTuple):
    """A published work. `seen` is how far its figures were seen when the rulebook was written."""

    title: str
    publisher: str
    edition: str
    year: str
    scope: tuple[str, ...]
    seen: str
    note: str


class Sources:
    """The sources of several rulebooks by key, read when the first is asked for."""

    __slots__ = ("_folders", "_read")

    def __init__(self, folders: Iterable[Path]) -> None:
        self._folders = tuple(folders)
        self._read: dict[str, Source] | None = None

    def get(self, key: str) -> Source | None:
        """The source of that key; the first rulebook to name it keeps it. Raises RulebookError."""
        return self.all().get(key)

    def all(self) -> dict[str, Source]:
        """Every source. Raises RulebookError where a file can't be read."""
        if self._read is None:
            entries = [entry for folder in self._folders for entry in _entries(folder / SOURCES).items()]
            self._read = {key: _source(entry) for key, entry in reversed(entries)}
        return self._read


def citation(basis: Basis, sources: Sources) -> str:
    """A basis in words: title, edition or year, locator, scope, and how far it was seen."""
    if basis.source is None:
        note = {"common practice": "common practice, no published source"}.get(basis.kind, basis.kind)
        return f"{basis.claim} ({note})"
    source = sources.get(basis.source)
    title = basis.source if source is None else source.title
    edition = "" if source is None else source.edition or ("" if source.year == "not stated" else source.year)
    named = ", ".join(filter(None, (title, edition, basis.locator)))
    return f"{basis.claim}: {named} ({basis.kind}, {basis.scope}, {basis.trust})"


def _entries(file: Path) -> dict[str, dict[str, Any]]:
    try:
        data = read_document(file.read_bytes(), str(file)).data
    except FileNotFoundError:
        return {}
    except OSError as error:
        raise RulebookError(f"{file} can't be read ({error.strerror})") from None
    except ReadingFailed as error:
        raise RulebookError(str(error)) from None
    if not isinstance(data, dict) or not all(isinstance(entry, dict) for entry in data.values()):
        raise RulebookError(
            f"{file} must be a mapping of keys to sources; `riglint schemas sources` shows what it takes"
        )
    return data


def _source(entry: dict[str, Any]) -> Source:
    texts = {name: str(entry.get(name, "")) for name in Source._fields if name != "scope"}
    return Source(scope=tuple(entry.get("scope", ())), **texts)
