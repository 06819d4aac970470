"""Edits of a plan's text by the places of its values, so that comments and layout stay.

Each edit is tried in the smallest way first and held against what the data must be after it; where the small
way doesn't come out right, the piece of text around it is written anew, in the end the whole plan.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from copy import deepcopy
from typing import Any, Final

from riglint.reading.document import Document, read_document
from riglint.reading.problems import ReadingFailed
from riglint.remedy.flow import flow, scalar

Edit = dict[str, Any]
_FILE: Final = "plan.yaml"
_WIDE: Final = 100
_BEHIND: Final = re.compile(r"[ \t]*(?:#[^\n]*)?(?:\n|\Z)")


class EditError(ValueError):
    """An edit that the plan has no place for."""


def edited(text: str, edits: list[Edit]) -> str:
    """The text after all edits: `set` or `add` a value `at` a pointer, `remove` it, or `rename` its key `to` another.

    Raises EditError for an edit without a place, ReadingFailed for a text that can't be read.
    """
    for edit in edits:
        text = _edited(text, edit)
    return text


def _edited(text: str, edit: Edit) -> str:
    document = read_document(text, _FILE)
    expected = applied(document.data, edit)
    if _same(expected, document.data):
        return text
    for way in _ways(document, edit, expected):
        try:
            tried = way()
            if _same(read_document(tried, _FILE).data, expected):
                return tried
        except (ReadingFailed, LookupError, ValueError):
            continue
    return written(expected)


def _same(one: Any, other: Any) -> bool:
    """Whether two pieces of data are the same, true told from 1; the order of keys is a matter of layout."""
    return json.dumps(one, sort_keys=True) == json.dumps(other, sort_keys=True)


def applied(data: Any, edit: Edit) -> Any:
    """The data after an edit. Raises EditError."""
    data = deepcopy(data)
    steps = _steps(edit["at"])
    if not steps:
        return deepcopy(edit["value"])
    try:
        parent = _holder(data, steps, make=edit["op"] in ("set", "add"))
        _do(parent, steps[-1], edit)
    except (LookupError, ValueError, TypeError, AttributeError):
        raise EditError(f"the plan has no place {edit['at']!r} to {edit['op']}") from None
    return data


def _steps(pointer: str) -> list[str]:
    return [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]


def _holder(data: Any, steps: list[str], *, make: bool) -> Any:
    """What holds the value; mappings on the way are made where they may be."""
    for step in steps[:-1]:
        if make and isinstance(data, dict) and not isinstance(data.get(step), dict | list):
            data[step] = {}
        data = data[int(step)] if isinstance(data, list) else data[step]
    return data


def _do(parent: Any, key: str, edit: Edit) -> None:
    index = (len(parent) if key == "-" else int(key)) if isinstance(parent, list) else key
    match edit["op"]:
        case "remove":
            del parent[index]
        case "rename":
            entries = [(edit["to"] if k == key else k, v) for k, v in parent.items()]
            if key not in parent or len(dict(entries)) != len(parent):
                raise LookupError(key)
            parent.clear()
            parent.update(entries)
        case "add" if isinstance(parent, list):
            parent.insert(int(index), deepcopy(edit["value"]))
        case _ if isinstance(parent, list) and index == len(parent):
            parent.append(deepcopy(edit["value"]))
        case _:
            parent[index] = deepcopy(edit["value"])


def _ways(document: Document, edit: Edit, expected: Any) -> Iterator[Callable[[], str]]:
    """Ways to write the edit, from the smallest to the largest."""
    at, op = edit["at"], edit["op"]
    if op == "rename":
        yield lambda: _put(document, document.key_position(at), scalar(edit["to"]))
    elif op == "remove":
        yield lambda: _cut(document, at)
    elif not isinstance(edit["value"], dict | list):
        yield lambda: _over(document, at, edit["value"])
    if op in ("set", "add"):
        yield lambda: _beside(document, at, edit["value"])
        yield lambda: _over(document, at, edit["value"])
    steps = _steps(at)
    for depth in range(len(steps) - 1, 0, -1):
        pointer = "/" + "/".join(at.split("/")[1 : depth + 1])
        yield lambda pointer=pointer: _over(document, pointer, _value(expected, pointer))  # type: ignore[misc]


def _value(data: Any, pointer: str) -> Any:
    for step in _steps(pointer):
        data = data[int(step)] if isinstance(data, list) else data[step]
    return data


def _put(document: Document, at: Any, text: str) -> str:
    return document.bom + document.text[: at.start] + text + document.text[at.end :]


def _over(document: Document, pointer: str, value: Any) -> str:
    """The value written over the one that stands there."""
    at, text = document.position(pointer), document.text
    before = text[at.start - 1 : at.start]
    if before in (":", "-"):
        return _put(document, at, " " + flow(value))
    block = isinstance(value, dict) and value and len(flow(value)) > _WIDE and text[at.start] != "{"
    if block and not text[: at.start].rpartition("\n")[2].strip():
        return _put(document, at, ("\n" + " " * (at.column - 1)).join(_block(value, 0)))
    return _put(document, at, flow(value))


def _beside(document: Document, pointer: str, value: Any) -> str:
    """A new entry behind the last one of its mapping or list."""
    head, _, key = pointer.rpartition("/")
    holder = _value(document.data, head)
    taken = key in holder if isinstance(holder, dict) else key not in ("-", str(len(holder)))
    if not holder or taken:
        raise LookupError(pointer)
    at = document.position(head)
    new = f"{scalar(_steps(pointer)[-1])}: {flow(value)}" if isinstance(holder, dict) else flow(value)
    if document.text[at.start] in "{[":
        last = document.position(f"{head}/{_last(holder)}").end
        return document.text[:last] + f", {new}" + document.text[last:]
    margin = document.text[: at.start].rpartition("\n")[2]
    indent = " " * len(margin) + ("- " if isinstance(holder, list) else "")
    return _line_behind(document, at.end, _lines(pointer, holder, value, new, indent))


def _lines(pointer: str, holder: Any, value: Any, new: str, indent: str) -> str:
    if isinstance(holder, list):
        return f"{indent}{new}"
    if isinstance(value, dict) and value and len(indent) + len(new) > _WIDE:
        body = "".join(f"\n{indent}  {line}" for line in _block(value, 0))
        return f"{indent}{scalar(_steps(pointer)[-1])}:{body}"
    return f"{indent}{new}"


def _last(holder: Any) -> str:
    return str(len(holder) - 1) if isinstance(holder, list) else list(holder)[-1].replace("~", "~0").replace("/", "~1")


def _line_behind(document: Document, end: int, line: str) -> str:
    text = document.text
    behind = _BEHIND.match(text, end)
    if behind is None:
        raise LookupError("something stands behind the last entry")
    head = text[: behind.end()]
    return document.bom + head + ("" if head.endswith("\n") else "\n") + line + "\n" + text[behind.end() :]


def _cut(document: Document, pointer: str) -> str:
    """Whole lines of a block entry taken out."""
    text = document.text
    start, end = document.key_position(pointer).start, document.position(pointer).end
    margin = text[:start].rpartition("\n")[2]
    behind = _BEHIND.match(text, end)
    if margin.strip(" -") or margin.count("-") > 1 or behind is None:
        raise LookupError(pointer)
    return document.bom + text[: start - len(margin)] + text[behind.end() :]


def written(data: Any) -> str:
    """Data as YAML: a block for each mapping that is long, one line for what is short."""
    return "\n".join(_block(data, 0)) + "\n" if isinstance(data, dict) and data else flow(data) + "\n"


def _block(data: dict[str, Any], depth: int) -> Iterator[str]:
    pad = "  " * depth
    for key, value in data.items():
        line = f"{pad}{scalar(key)}: {flow(value)}"
        if isinstance(value, dict) and value and (depth == 0 or len(line) > _WIDE):
            yield f"{pad}{scalar(key)}:"
            yield from _block(value, depth + 1)
        elif isinstance(value, list) and value and len(line) > _WIDE:
            yield f"{pad}{scalar(key)}:"
            yield from (f"{pad}  - {flow(item)}" for item in value)
        else:
            yield line
