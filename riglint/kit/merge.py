"""One entry of a plan filled in with what the kit knows of its gear. What the kit knows, the plan can't gainsay."""

from __future__ import annotations

from collections.abc import Iterator
from copy import deepcopy
from typing import Any, NamedTuple

from riglint.reading.quantity import QuantityError, Span, parse_quantity

_ABOUT_THE_RECORD = frozenset({"is", "serial", "inspected", "inspection_interval", "retired", "notes"})
_DIMENSIONS = ("mass or force", "length", "fraction", "speed", "angle", "number")
_SAME = 1e-6  # relative: one figure written in two units, not two figures
_SHACKLES = {"bow shackle": "shackle", "dee shackle": "shackle", "soft shackle": "soft shackle"}


class Clash(NamedTuple):
    """A key at which the plan says something else than the kit: below the entry, the two, and why."""

    keys: tuple[str, ...]
    own: Any
    kits: Any
    longer: bool = False


class Merged(NamedTuple):
    """What came of one entry: the keys that the kit filled in, and where the two don't agree."""

    lent: list[tuple[str, ...]]
    clashes: list[Clash]


def facts_for(kind: str, gear_kind: str, written: dict[str, Any]) -> dict[str, Any] | None:
    """What gear lends to an entry of a kind; None where such gear can't stand there.

    A shackle may join two pieces of rope, in the words of a join.
    """
    facts = {key: value for key, value in written.items() if key not in _ABOUT_THE_RECORD}
    if gear_kind == kind or (kind, gear_kind) == ("piece", "join"):  # not known yet to be a join
        return facts
    word = _SHACKLES.get(str(facts.get("kind")))
    if kind in ("piece", "join") and gear_kind == "connector" and word:
        ratings = {key: facts[key] for key in ("working_load", "breaking", "basis") if key in facts}
        return {"kind": word} | ratings
    return None


def merge(entry: dict[str, Any], facts: dict[str, Any]) -> Merged:
    """Fill the entry in, in place."""
    merged = Merged([], [])
    for key, value in facts.items():
        if key == "length" and key not in entry and entry.get("wrapped", "single") != "single":
            continue  # a kit's length is that of a straight pull: doubled or round a tree it is another
        _fill(entry, (key,), value, merged)
    return merged


def _fill(entry: dict[str, Any], keys: tuple[str, ...], value: Any, merged: Merged) -> None:
    key = keys[-1]
    if key not in entry:
        entry[key] = deepcopy(value)
        merged.lent.append(keys)
        return
    own = entry[key]
    if isinstance(own, dict) and isinstance(value, dict):
        for inner, inner_value in value.items():
            _fill(own, (*keys, inner), inner_value, merged)
    elif keys == ("condition",):
        entry[key] = _all_seen(own, value)
    elif keys == ("length",):
        if _least(own) > _most(value):
            merged.clashes.append(Clash(keys, own, value, longer=True))
    elif keys != ("age",) and own is not None and not _same(own, value):
        merged.clashes.append(Clash(keys, own, value))


def _all_seen(own: Any, kits: Any) -> Any:
    """What was seen on either day: damage on record doesn't heal."""
    seen = [word for words in (own, kits) for word in (words if isinstance(words, list) else [words])]
    if not all(isinstance(word, str) for word in seen):
        return own  # the models say what is wrong with it
    bad = list(dict.fromkeys(word for word in seen if word != "good"))
    return bad or own


def _same(own: Any, kits: Any) -> bool:
    """Equal, or one quantity in two units."""
    if own == kits and isinstance(own, bool) == isinstance(kits, bool):
        return True
    return any(
        abs(a.low - b.low) <= _SAME * abs(b.low) and abs(a.high - b.high) <= _SAME * abs(b.high)
        for a, b in zip(_spans(own), _spans(kits), strict=True)
        if a and b
    )


def _spans(value: Any) -> Iterator[Span | None]:
    for dimension in _DIMENSIONS:
        yield _span(value, dimension)


def _span(value: Any, dimension: str) -> Span | None:
    if not isinstance(value, str | int | float) or isinstance(value, bool):
        return None
    try:
        return parse_quantity(value, dimension)
    except QuantityError:
        return None


def _least(length: Any) -> float:
    span = _span(length, "length")
    return span.low if span else 0.0


def _most(length: Any) -> float:
    span = _span(length, "length")
    return span.high * (1.0 + _SAME) if span else 0.0
