"""One operation of a patch in a YAML text, by offsets: block and flow style, comments left where they are."""

from __future__ import annotations

from typing import Any

from riglint.reading.document import Document
from riglint.remedy.flow import flow, scalar
from riglint.remedy.patch import Operation, steps, under, value_at


class CannotEdit(ValueError):
    """A change that can't be made in the text for certain."""


def edited(document: Document, operation: Operation) -> str:
    """The text after one operation. Raises CannotEdit."""
    kind, path = operation["op"], operation["path"]
    if kind == "remove":
        return _removed(document, path)
    if kind == "replace" or (kind == "add" and _is_there(document, path)):
        at = document.position(path)
        return document.text[: at.start] + flow(operation["value"]) + document.text[at.end :]
    if kind == "add":
        return _added(document, path, operation["value"])
    raise CannotEdit(f"there is no way to {kind} in a text")


def _is_there(document: Document, path: str) -> bool:
    """Whether `add` replaces: a mapping's key that is there already. In a list it puts in between."""
    return isinstance(value_at(document.data, _owner(path)), dict) and value_at(document.data, path) is not None


def _owner(path: str) -> str:
    return path.rpartition("/")[0]


# Putting in


def _added(document: Document, path: str, value: Any) -> str:
    owner_at, text = _owner(path), document.text
    owner = value_at(document.data, owner_at) if owner_at else document.data
    if not isinstance(owner, dict | list) or not owner:
        raise CannotEdit(f"nothing stands at `{owner_at}` to put it into")
    start = document.position(owner_at).start
    index = len(owner)
    if isinstance(owner, list) and steps(path)[-1] != "-":
        index = int(steps(path)[-1])
    entry = flow(value) if isinstance(owner, list) else f"{scalar(steps(path)[-1])}: {flow(value)}"
    if text[start] in "[{":
        return _into_flow(document, owner_at, owner, index, entry)
    if isinstance(owner, list):
        return _into_block(document, owner_at, owner, index, f"- {entry}")
    return _into_block(document, owner_at, owner, index, _as_block(steps(path)[-1], value) if not owner_at else entry)


def _as_block(key: str, value: Any) -> str:
    """A new key of the whole plan, its entries on lines of their own."""
    if isinstance(value, list) and value and all(isinstance(v, dict) for v in value):
        return "\n".join([f"{scalar(key)}:", *(f"  - {flow(v)}" for v in value)])
    if isinstance(value, dict) and value and all(isinstance(v, dict) for v in value.values()):
        return "\n".join([f"{scalar(key)}:", *(f"  {scalar(k)}: {flow(v)}" for k, v in value.items())])
    return f"{scalar(key)}: {flow(value)}"


def _into_flow(document: Document, at: str, owner: Any, index: int, entry: str) -> str:
    text = document.text
    if index < len(owner):
        here = document.position(_child(owner, at, index)).start
        return text[:here] + entry + ", " + text[here:]
    end = document.position(_child(owner, at, len(owner) - 1)).end
    return text[:end] + ", " + entry + text[end:]


def _into_block(document: Document, at: str, owner: Any, index: int, entry: str) -> str:
    text, newline = document.text, _newline(document.text)
    column = document.position(at).column if isinstance(owner, list) else _key_column(document, at, owner)
    lines = newline.join(" " * (column - 1) + line for line in entry.split("\n"))
    if index < len(owner):
        here = _line_start(text, document.position(_child(owner, at, index)).start)
        return text[:here] + lines + newline + text[here:]
    end = _line_end(text, document.position(_child(owner, at, len(owner) - 1)).end)
    apart = newline if not at and newline * 2 in text else ""
    if end == len(text) and not text.endswith("\n"):
        return text + newline + apart + lines
    return text[:end] + apart + lines + newline + text[end:]


def _key_column(document: Document, at: str, owner: dict[str, Any]) -> int:
    return document.key_position(under(at, next(iter(owner)))).column


def _child(owner: Any, at: str, index: int) -> str:
    return under(at, index if isinstance(owner, list) else list(owner)[index])


# Taking out


def _removed(document: Document, path: str) -> str:
    owner_at, text = _owner(path), document.text
    owner = value_at(document.data, owner_at) if owner_at else document.data
    names = list(owner) if isinstance(owner, dict) else list(range(len(owner)))
    step = steps(path)[-1]
    index = names.index(step if isinstance(owner, dict) else int(step))
    whole = document.position(owner_at)
    if len(names) == 1:
        empty = "{}" if isinstance(owner, dict) else "[]"
        return text[: whole.start] + empty + text[whole.end :]
    starts = [_entry_start(document, owner, owner_at, i) for i in range(len(names))]
    end = document.position(path).end
    if text[whole.start] in "[{":
        if index + 1 < len(names):
            return text[: starts[index]] + text[starts[index + 1] :]
        return text[: document.position(_child(owner, owner_at, index - 1)).end] + text[end:]
    return _without_lines(text, starts, index, end, is_list=isinstance(owner, list))


def _without_lines(text: str, starts: list[int], index: int, end: int, *, is_list: bool) -> str:
    line = _line_start(text, starts[index])
    before = text[line : starts[index]].strip()
    if before == ("-" if is_list else ""):
        return text[:line] + text[_line_end(text, end) :]
    if index + 1 < len(starts) and not is_list:
        return text[: starts[index]] + text[starts[index + 1] :]
    raise CannotEdit("what is to be taken out shares its line with something else")


def _entry_start(document: Document, owner: Any, at: str, index: int) -> int:
    child = _child(owner, at, index)
    return (document.position(child) if isinstance(owner, list) else document.key_position(child)).start


def _line_start(text: str, index: int) -> int:
    return text.rfind("\n", 0, index) + 1


def _line_end(text: str, index: int) -> int:
    """Where the next line begins."""
    end = text.find("\n", index)
    return len(text) if end < 0 else end + 1


def _newline(text: str) -> str:
    end = text.find("\n")
    return "\r\n" if end > 0 and text[end - 1] == "\r" else "\n"
