"""What a plan says, apart from spelling: two plans with one content are one plan handed in twice.

Names, order, units, layout, comments, titles and notes are of no account; every quantity, word and connection is.
Of free words only that is kept which a rule goes by: whether they are there, who works the winch, and which things a
planned stop is for.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from typing import Any, Final

from riglint.plan.plan import Plan
from riglint.rig.model import Rig

_NOT_CONTENT: Final = frozenset({
    "title", "notes", "age", "reports_in", "kit", "from_kit", "serial",
})  # fmt: skip
_REFERS: Final = frozenset({"on", "at", "mounted", "path", "hung_from", "to", "in_", "watches", "line", "between"})
_NAMED: Final = ("bodies", "points", "redirects", "connectors", "lines")
_SAID_AT_ALL: Final = frozenset({"basis", "found_by", "given_by"})
_ROLES: Final = frozenset({"operator", "winch", "spotter"})
_NO_ORDER: Final = frozenset({"people", "dampers", "secured", "watches", "between", "condition"})
_WORD: Final = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")
_ROUNDS: Final = 6  # how far along connections two things of equal looks are told apart
_DIGITS: Final = 6
_KEPT_WORDS: Final = frozenset({"winch", "ground", "cab"})


def content(plan: Plan, rig: Rig | None = None) -> str:
    """A digest of what the plan says and, where its rig is given, of whether gear of the kit is fit for use.

    Pieces of gear that are alike are one, whatever their numbers in the kit, but not if one was taken out of use or
    its inspection ran out.
    """
    data = plan.model_dump()
    names = _coloured(data)
    papers = sorted(_papers(rig, names)) if rig else []
    return _digest([_plain(data, names), papers])


def _papers(rig: Rig, names: Mapping[str, str]) -> Iterator[str]:
    for facts in rig.kit.values():
        out_of_use = None if facts.retired is None else bool(facts.retired)
        overdue = None if rig.today is None or facts.good_until is None else facts.good_until < rig.today
        if out_of_use is not False or overdue is not False:
            yield _digest([facts.kind, names.get(facts.name, facts.name), out_of_use, overdue])


def _coloured(data: dict[str, Any]) -> dict[str, str]:
    """For each name a digest of what it stands for, and of what that is connected with, instead of the name."""
    entries = list(_entries(data))
    colours = {name: "" for name, _, _ in entries}
    for _ in range(_ROUNDS):
        found: dict[str, list[str]] = {}
        for name, kind, entry in entries:
            found.setdefault(name, []).append(_digest([kind, _plain(entry, colours)]))
        colours = {name: _digest(sorted(looks)) for name, looks in found.items()}
    return colours


def _entries(data: dict[str, Any]) -> Iterator[tuple[str, str, Any]]:
    """Everything that has a name, with what it is. What a line's path goes through tells its seats' use."""
    for part in (data, *(data.get("stages") or ())):
        for kind in _NAMED:
            for name, entry in (part.get(kind) or {}).items():
                yield name, kind, entry
        for line in (part.get("lines") or {}).values():
            for piece in line.get("pieces") or ():
                for name, entry in piece.items():
                    yield name, "piece", entry


def _plain(value: Any, names: Mapping[str, str], key: str = "") -> Any:
    """The value without names, layout and order where that doesn't count."""
    if isinstance(value, dict):
        return _of_mapping(value, names, key)
    if isinstance(value, list | tuple):
        inner = [_plain(entry, names, key) for entry in value]
        return sorted(inner, key=_digest) if key in _NO_ORDER else inner
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, int | float):
        return f"{value + 0.0:.{_DIGITS}g}"
    return _of_text(" ".join(str(value).split()), names, key)


def _of_text(text: str, names: Mapping[str, str], key: str) -> Any:
    if key in _SAID_AT_ALL:
        return True
    if key == "who":
        return sorted(_ROLES & set(_WORD.findall(text.casefold())))
    if key == "do":
        return sorted(names[word] for word in set(_WORD.findall(text)) & names.keys())
    if key in _REFERS:
        return _WORD.sub(lambda word: word[0] if word[0] in _KEPT_WORDS else names.get(word[0], word[0]), text)
    return text.casefold()


def _of_mapping(value: dict[str, Any], names: Mapping[str, str], key: str) -> Any:
    if key in _NAMED or key == "pieces":
        entries = [[names.get(name, name), _plain(entry, names)] for name, entry in value.items()]
        return sorted(entries, key=_digest)
    skip = _NOT_CONTENT | ({"name"} if "lines" in value and "name" in value else set())  # a stage's own name
    kept = {k: _plain(entry, names, k) for k, entry in value.items() if k not in skip}
    return [[k, entry] for k, entry in sorted(kept.items()) if entry not in (None, [], ())]


def _digest(value: Any) -> str:
    return hashlib.sha256(repr(value).encode()).hexdigest()
