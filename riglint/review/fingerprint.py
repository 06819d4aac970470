"""What tells a finding from others and stays the same when lines move about, parts are reordered or figures change.

Rule, kind and name of the component, case, stage, and the place in the plan with names in place of list indexes;
where that place holds a single value, the value, too. Never a line number, never a count.
"""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import blake2b
from typing import Any, Final

from riglint.outcome import Finding

_NAMING: Final = ("name", "who", "to", "do", "line", "begins_at")


class Fingerprints:
    """Of the findings in one plan; `data` is the plan's plain data."""

    def __init__(self, data: Any) -> None:
        self._data = data
        self._places: dict[str, str] = {}

    def of(self, finding: Finding, stage: str) -> str:
        """Sixteen hexadecimal digits. `stage` is the stage's name."""
        where = finding.check.where
        parts = [finding.rule, where.kind, where.name, where.case, stage, self._place(where.pointer)]
        for pointer, _ in where.related:
            parts += ["\0", self._place(pointer)]
        return blake2b("\n".join(parts).encode("utf-8", "surrogatepass"), digest_size=8).hexdigest()

    def _place(self, pointer: str) -> str:
        """Many findings share a place, so each is looked up once."""
        found = self._places.get(pointer)
        if found is None:
            found = self._places[pointer] = "\n".join(_named(pointer, self._data))
        return found


def _named(pointer: str, data: Any) -> Iterator[str]:
    """The pointer's steps, entries of lists by name, and the value at its end if it is a single one."""
    for step in pointer.split("/")[1:]:
        if isinstance(data, list):
            data = data[int(step)] if step.isdigit() and int(step) < len(data) else None
            yield _name(data)
            continue
        key = step.replace("~1", "/").replace("~0", "~")
        data = data.get(key) if isinstance(data, dict) else None
        yield step
    if not isinstance(data, dict | list):
        yield " ".join(str(data).split())


def _name(entry: Any) -> str:
    """What an entry of a list is known by."""
    if not isinstance(entry, dict):
        return " ".join(str(entry).split())
    named = next((entry[key] for key in _NAMING if key in entry), None)
    return str(next(iter(entry), "") if named is None else named)
