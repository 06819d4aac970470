"""Changes to a plan's plain data as RFC 6902 JSON Patch, guarded by `test` operations."""

from __future__ import annotations

from collections.abc import Iterable
from copy import copy, deepcopy
from typing import Any, Final

from riglint.reading.build import pointer_of

Operation = dict[str, Any]
Patch = tuple[Operation, ...]
_NOTHING: Final = object()


class PatchError(ValueError):
    """A patch that doesn't fit the data: the text was changed meanwhile, or the pointer leads nowhere."""


def add(path: str, value: Any) -> Operation:
    """Give a mapping a key, or a list an item (`-` at its end)."""
    return {"op": "add", "path": path, "value": value}


def replace(path: str, value: Any) -> Operation:
    """Put a value in the place of another."""
    return {"op": "replace", "path": path, "value": value}


def remove(path: str) -> Operation:
    """Take a value out."""
    return {"op": "remove", "path": path}


def put(data: Any, path: str, value: Any) -> Operation:
    """Replace what stands there, or add it where nothing does."""
    return replace(path, value) if value_at(data, path) is not None else add(path, value)


def steps(pointer: str) -> list[str]:
    """The steps of an RFC 6901 pointer, unescaped."""
    return [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]


def value_at(data: Any, pointer: str) -> Any:
    """The value at a pointer; None where there is none (no plan holds a null)."""
    found = _find(data, steps(pointer))
    return None if found is _NOTHING else found


def guarded(data: Any, changes: Iterable[Operation], *guards: str) -> Patch:
    """The changes, after a `test` of everything that they change and of further places that they rest on.

    A new key is guarded by the whole mapping or list that it is put into, but at the root, which is too much.
    """
    changes = tuple(changes)
    places = [*guards, *(_guard_of(change) for change in changes)]
    wanted = sorted({p for p in places if p and _find(data, steps(p)) is not _NOTHING}, key=lambda p: (p.count("/"), p))
    kept: list[str] = []
    for place in wanted:
        if not any(place == above or place.startswith(above + "/") for above in kept):
            kept.append(place)
    tests = [{"op": "test", "path": p, "value": deepcopy(value_at(data, p))} for p in sorted(kept)]
    return (*tests, *changes)


def _guard_of(change: Operation) -> str:
    path: str = change["path"]
    return path.rpartition("/")[0] if change["op"] == "add" else path


def patched(data: Any, patch: Iterable[Operation]) -> Any:
    """The data with a patch applied, all of it or nothing; what isn't changed is shared. Raises PatchError."""
    for operation in patch:
        data = _applied(data, operation)
    return data


def _applied(data: Any, operation: Operation) -> Any:
    path, kind = operation["path"], operation["op"]
    if kind == "test":
        if not same(_find(data, steps(path)), operation["value"]):
            raise PatchError(f"`{path}` is no longer what it was")
        return data
    if not path:
        raise PatchError("a patch can't replace the whole plan")
    *above, last = steps(path)
    result, owner = _copied_down_to(data, above)
    if isinstance(owner, list):
        _change_list(owner, kind, path, last, operation)
    elif isinstance(owner, dict):
        _change_mapping(owner, kind, path, last, operation)
    else:
        raise PatchError(f"`{path}` leads nowhere")
    return result


def _copied_down_to(data: Any, way: list[str]) -> tuple[Any, Any]:
    """The data with the mappings and lists on the way copied, and the last of them; None if it leads nowhere."""
    result = owner = copy(data)
    for step in way:
        inner = _find(owner, [step])
        if inner is _NOTHING:
            return result, None
        owner[int(step) if isinstance(owner, list) else step] = copy(inner)
        owner = _find(owner, [step])
    return result, owner


def _change_mapping(owner: dict[str, Any], kind: str, path: str, key: str, operation: Operation) -> None:
    if kind != "add" and key not in owner:
        raise PatchError(f"`{path}` isn't there")
    if kind == "remove":
        del owner[key]
    else:
        owner[key] = operation["value"]


def _change_list(owner: list[Any], kind: str, path: str, step: str, operation: Operation) -> None:
    index = len(owner) if step == "-" and kind == "add" else _index(step)
    if index is None or index > len(owner) - (kind != "add"):
        raise PatchError(f"`{path}` isn't there")
    if kind == "remove":
        del owner[index]
    elif kind == "add":
        owner.insert(index, operation["value"])
    else:
        owner[index] = operation["value"]


def _index(step: str) -> int | None:
    return int(step) if step.isascii() and step.isdigit() and (step == "0" or step[0] != "0") else None


def _find(data: Any, way: list[str]) -> Any:
    for step in way:
        if isinstance(data, list):
            index = _index(step)
            data = data[index] if index is not None and index < len(data) else _NOTHING
        else:
            data = data.get(step, _NOTHING) if isinstance(data, dict) else _NOTHING
    return data


def same(a: Any, b: Any) -> bool:
    """Equality as RFC 6902 has it: numbers by value, but a truth value is no number."""
    if isinstance(a, bool) or isinstance(b, bool):
        return a is b
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(same, a, b))
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(same(a[key], b[key]) for key in a)
    return bool(a == b)


def under(pointer: str, *more: str | int) -> str:
    """A pointer, further down."""
    return pointer + pointer_of(list(more))
