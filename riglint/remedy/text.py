"""A patch in the plan's own text: layout and comments stay, and what comes out reads as the patched data."""

from __future__ import annotations

from difflib import SequenceMatcher
from os.path import commonprefix
from typing import Any, NamedTuple

from riglint.reading.characters import line_and_column
from riglint.reading.document import Document, Region, read_document
from riglint.reading.problems import ReadingFailed
from riglint.remedy.patch import Operation, Patch, PatchError, patched, same
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
        if operation["op"] != "test":
            own = _after(own, operation)
    if not _equal(own.data, wanted):
        raise CannotEdit("the text that comes out doesn't say what it should")
    return own.text


def _after(document: Document, operation: Operation) -> Document:
    try:
        return read_document(edited(document, operation), document.file)
    except ReadingFailed as failed:
        raise CannotEdit(f"the text that comes out can't be read: {failed.problems[0].what}") from None


def _equal(a: Any, b: Any) -> bool:
    """The same values in the same order: a plan that says `rated: 5` is not one that says `rated: '5'`."""
    if isinstance(a, dict) and isinstance(b, dict):
        return list(a) == list(b) and all(_equal(a[key], b[key]) for key in a)
    if isinstance(a, list) and isinstance(b, list):
        return len(a) == len(b) and all(map(_equal, a, b))
    return type(a) is type(b) and same(a, b)


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
    head = len(commonprefix([text[start:end], new]))
    tail = len(commonprefix([text[start + head : end][::-1], new[head:][::-1]]))
    start, end, new = start + head, end - tail, new[head : len(new) - tail]
    return Edit(Region(*line_and_column(text, start), *line_and_column(text, end), start, end), new)
