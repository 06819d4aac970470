"""The entries of a plan that may come from a kit, in its plain data, whatever else is wrong with it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final, Literal, NamedTuple

from riglint.reading.build import pointer_of

Kind = Literal["piece", "join", "connector", "redirect", "winch", "point"]

_NAMED: Final[tuple[tuple[str, Kind], ...]] = (
    ("points", "point"), ("redirects", "redirect"), ("connectors", "connector"),
)  # fmt: skip


class Slot(NamedTuple):
    """An entry with `from_kit`: its place, its name, what it is (a `piece` until its kind is known), and its data."""

    pointer: str
    name: str
    kind: Kind
    entry: dict[str, Any]


def slots(data: Any) -> Iterator[Slot]:
    """Every entry that names gear of a kit."""
    if not isinstance(data, dict):
        return
    if _names_gear(data.get("winch")):
        yield Slot("/winch", "winch", "winch", data["winch"])
    yield from _of_part(data, [])
    stages = data.get("stages")
    for i, stage in enumerate(stages if isinstance(stages, list) else ()):
        if isinstance(stage, dict):
            yield from _of_part(stage, ["stages", i])


def _of_part(part: dict[str, Any], above: list[str | int]) -> Iterator[Slot]:
    for key, kind in _NAMED:
        for name, entry in _items(part.get(key)):
            if _names_gear(entry):
                yield Slot(pointer_of([*above, key, name]), name, kind, entry)
    for line, facts in _items(part.get("lines")):
        pieces = facts.get("pieces") if isinstance(facts, dict) else None
        for i, one in enumerate(pieces if isinstance(pieces, list) else ()):
            for name, entry in _items(one):
                if _names_gear(entry):
                    place = pointer_of([*above, "lines", line, "pieces", i, name])
                    yield Slot(place, name, piece_or_join(entry), entry)


def piece_or_join(entry: dict[str, Any]) -> Kind:
    """A join says its `kind`, a piece never does."""
    return "join" if "kind" in entry else "piece"


def _items(mapping: Any) -> Iterator[tuple[str, Any]]:
    yield from mapping.items() if isinstance(mapping, dict) else ()


def _names_gear(entry: Any) -> bool:
    return isinstance(entry, dict) and isinstance(entry.get("from_kit"), str)
