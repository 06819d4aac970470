"""A patch in the plan's own text: layout and comments stay, and what comes out reads as the patched data."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import SequenceMatcher
from typing import Any, NamedTuple

from riglint.reading.characters import line_and_column
from riglint.reading.document import Document, Region, read_document
from riglint.reading.problems import ReadingFailed
from riglint.remedy.patch import Operation, Patch, PatchError, add, patched, remove, replace, under, value_at
from riglint.remedy.yaml_edit import CannotEdit, edited


class Edit(NamedTuple):
    """A stretch of the document's text and what stands there instead; an empty stretch is an insertion."""

    region: Region
    text: str


def text_edits(document: Document, patch: Patch) -> tuple[Edit, ...]:
    """The edits that make a patch in the text, in order, none touching another. Raises CannotEdit.

    Offsets, lines and columns are those of `Document.text`, as in its regions.
    """
    return _differences(document.text, rewritten(document, patch))


def rewritten(document: Document, patch: Patch) -> str:
    """The text after a patch, without its byte order mark. Raises CannotEdit where the change isn't certain."""
    own = read_document(document.text, document.file)
    try:
        wanted = patched(own.data, patch)
    except PatchError as error:
        raise CannotEdit(str(error)) from None
    for operation in patch:
        for part in _parts(own, operation):
            own = _after(own, part)
    if not _equal(own.data, wanted):
        raise CannotEdit("the text that comes out doesn't say what it should")
    return own.text


def _after(document: Document, operation: Operation) -> Document:
    try:
        return read_document(edited(document, operation), document.file)
    except ReadingFailed as failed:
        raise CannotEdit(f"the text that comes out can't be read: {failed.problems[0].what}") from None


def _parts(document: Document, operation: Operation) -> list[Operation]:
    """A replacement as the smallest changes that come to the same, so that what stays keeps its layout."""
    if operation["op"] == "test":
        return []
    old = value_at(document.data, operation["path"]) if operation["op"] == "replace" else None
    return list(_smaller(operation["path"], old, operation["value"])) if old is not None else [operation]


def _smaller(path: str, old: Any, new: Any) -> Iterator[Operation]:
    if isinstance(old, dict) and isinstance(new, dict) and old.keys() & new.keys():
        for key in (k for k in old if k in new):
            if not _equal(old[key], new[key]):
                yield from _smaller(under(path, key), old[key], new[key])
        yield from (add(under(path, key), new[key]) for key in new if key not in old)
        yield from (remove(under(path, key)) for key in old if key not in new)
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for i, (one, other) in enumerate(zip(old, new, strict=True)):
            if not _equal(one, other):
                yield from _smaller(under(path, i), one, other)
    else:
        yield replace(path, new)


def _equal(a: Any, b: Any) -> bool:
    """The same values of the same types: a plan that says `rated: 5` is not one that says `rated: '5'`."""
    if isinstance(a, dict) and isinstance(b, dict):
        return a.keys() == b.keys() and all(_equal(a[key], b[key]) for key in a)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(_equal, a, b))
    return type(a) is type(b) and bool(a == b)


def _differences(old: str, new: str) -> tuple[Edit, ...]:
    before, after = old.splitlines(keepends=True), new.splitlines(keepends=True)
    starts = [0]
    for line in before:
        starts.append(starts[-1] + len(line))
    found = []
    for tag, i1, i2, j1, j2 in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if tag != "equal":
            found.append(_edit(old, starts[i1], starts[i2], "".join(after[j1:j2])))
    return tuple(found)


def _edit(text: str, start: int, end: int, new: str) -> Edit:
    """The stretch without what is equal at both its ends."""
    head = _alike(text[start:end], new)
    tail = _alike(text[start + head : end][::-1], new[head:][::-1])
    start, end, new = start + head, end - tail, new[head : len(new) - tail]
    return Edit(Region(*line_and_column(text, start), *line_and_column(text, end), start, end), new)


def _alike(a: str, b: str) -> int:
    """How many characters two texts begin with alike."""
    return next((i for i, (one, other) in enumerate(zip(a, b, strict=False)) if one != other), min(len(a), len(b)))
