"""Changes in a plan's own text: comments and layout stay, what comes out reads as it should."""

from random import Random

import pytest

from riglint.reading.build import pointer_of
from riglint.reading.document import read_document
from riglint.remedy.patch import add, patched, remove, replace
from riglint.remedy.text import rewritten, text_edits
from riglint.remedy.yaml_edit import CannotEdit
from tests.remedy.cases import EXAMPLES
from tests.strategies import made_plan, plan_text

BLOCK = """\
# what it is
a:  # the first
  b: 1     # one
  c:
    - x    # ex
    - y
    # before z
    - {z: 3, w: [1, 2]}  # flow
  d: {e: "5", f: 6}
# the end
"""
VALUES = ("12 m", "358 deg", "yes", "true", 5, 2.5, True, "a: b", "- x", "", " s ", "#", "5", {"k": ["v", {"w": "x"}]},
          [])  # fmt: skip


def document(text):
    return read_document(text, "plan.yaml")


@pytest.mark.parametrize(
    ("operation", "old", "new"),
    [
        (replace("/a/b", "2 m"), "b: 1     # one", "b: 2 m     # one"),
        (add("/a/c/-", "q"), "# flow\n", "# flow\n    - q\n"),
        (add("/a/c/0", "q"), "    - x", "    - q\n    - x"),
        (add("/a/c/2/v", 1), "w: [1, 2]}", "w: [1, 2], v: 1}"),
        (add("/a/c/2/w/1", 9), "[1, 2]", "[1, 9, 2]"),
        (add("/a/d/g", "x y"), "f: 6}", "f: 6, g: x y}"),
        (add("/a/g", {"h": "1"}), 'f: 6}\n', 'f: 6}\n  g: {h: "1"}\n'),
        (add("/s", [{"t": 1}]), 'f: 6}\n', 'f: 6}\ns:\n  - {t: 1}\n'),
        (remove("/a/b"), "  b: 1     # one\n", ""),
        (remove("/a/c/1"), "    - y\n", ""),
        (remove("/a/d/e"), 'e: "5", ', ""),
        (remove("/a/d/f"), ", f: 6", ""),
        (remove("/a/c/2/w/1"), "[1, 2]", "[1]"),
        (replace("/a/d", {"e": "5", "f": 7, "g": 8}), "f: 6}", "f: 7, g: 8}"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_only_what_changes_is_touched(operation, old, new, newline):
    text = BLOCK.replace("\n", newline)
    assert rewritten(document(text), (operation,)) == BLOCK.replace(old, new, 1).replace("\n", newline)


def test_a_text_without_a_last_newline():
    assert rewritten(document("a: 1\nb:\n  - x"), (add("/b/-", "z"),)) == "a: 1\nb:\n  - x\n  - z"


def every_pointer(data, above=()):
    if above:
        yield pointer_of(list(above))
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in items:
        yield from every_pointer(value, (*above, key))


def comments(text):
    return [line.partition(" #")[2] for line in text.splitlines() if line.startswith("#") or " #" in line]


TEXTS = [BLOCK, *(file.read_text() for file in sorted(EXAMPLES.glob("*.yaml")))]
TEXTS += [plan_text(made_plan(Random(seed))) for seed in range(3)]


PLACES = 20


@pytest.mark.parametrize("text", TEXTS, ids=range(len(TEXTS)))
def test_any_change_anywhere_comes_out_as_the_patched_data(text):
    """Places all over it are replaced, added to and taken out in turn; what can't be done for certain is refused."""
    own, random, refused = document(text), Random(0), 0
    pointers = list(every_pointer(own.data))
    for pointer in random.sample(pointers, min(PLACES, len(pointers))):
        for operation in _operations(own.data, pointer, random):
            try:
                made = rewritten(own, (operation,))
            except CannotEdit:
                refused += 1
                continue
            assert document(made).data == patched(own.data, (operation,))
            if operation["op"] == "add":
                assert comments(made) == comments(text)
            edits, rebuilt = text_edits(own, (operation,)), text
            for edit in reversed(edits):
                rebuilt = rebuilt[: edit.region.start] + edit.text + rebuilt[edit.region.end :]
            assert rebuilt == made
    assert refused <= 2


def _operations(data, pointer, random):
    yield replace(pointer, random.choice(VALUES))
    yield remove(pointer)
    owner, _, step = pointer.rpartition("/")
    yield add(f"{owner}/{step if step.isdigit() else 'further'}", random.choice(VALUES))


def test_edits_are_as_small_as_they_can_be():
    [edit] = text_edits(document(BLOCK), (replace("/a/b", 12),))
    assert (edit.text, edit.region.line, edit.region.column, edit.region.end_column) == ("2", 3, 7, 7)


@pytest.mark.parametrize(
    "operation", [replace("/a/nothing", 1), remove("/a/b/c"), {"op": "test", "path": "/a/b", "value": 2}]
)
def test_what_does_not_fit_is_refused(operation):
    with pytest.raises(CannotEdit):
        rewritten(document(BLOCK), (operation,))
