"""Documents: what values become, where they stand, and that both parsers say the same."""

import json
import math
import re
from pathlib import Path

import pytest
import yaml
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from riglint.reading.document import Document, Region, read_document
from riglint.reading.problems import ReadingFailed

PLAN = """\
# A truck off a verge.
rig_plan: 1
title: 'Truck: off a verge'
bodies:
  truck:
    moves: {distance: 6 m, bearing: 0 deg}   # level
    notes: |
      soft verge
      mind the ditch

    flags: [true, false, null, 1.5, -3, 1e3]
lines:
- haul
- {kind: rope,
   length: 24 m}
é😀: "caf\\u00e9"
empty:
"""


def both(text):
    return [read_document(text, "plan.yaml"), read_document(text, "plan.yaml", pure=True)]


def cut(document, region):
    return document.text[region.start : region.end]


def test_values_have_the_types_of_json():
    for document in both(PLAN):
        assert document.data == {
            "rig_plan": 1,
            "title": "Truck: off a verge",
            "bodies": {
                "truck": {
                    "moves": {"distance": "6 m", "bearing": "0 deg"},
                    "notes": "soft verge\nmind the ditch\n",
                    "flags": [True, False, None, 1.5, -3, 1000.0],
                }
            },
            "lines": ["haul", {"kind": "rope", "length": "24 m"}],
            "é😀": "café",
            "empty": None,
        }
        assert type(document.data["rig_plan"]) is int
        assert type(document.data["bodies"]["truck"]["flags"][5]) is float


@pytest.mark.parametrize(
    "text",
    [
        *["no", "yes", "on", "off", "y", "n", "No", "YES", "True", "TRUE", "Null", "NULL", "~"],
        *["1:30", "3:1", "1:30:00", "2026-03-14", "2026-03-14 10:00:00", "=", "6 m", "1 2", "--1"],
        *["012", "00", "-01", "0o17", "0x1F", "0b1", "1_000", "+5", ".5", "5.", "1e", "1e+", "1.e3"],
        *[".inf", "-.inf", ".nan", "nan", "inf", "Infinity", "-Infinity", "٣"],
    ],
)
def test_what_older_rules_would_change_stays_text(text):
    for document in both(f"a: {text}"):
        assert document.data == {"a": text}


@pytest.mark.parametrize("text", ["0", "-0", "7", "-12", "0.5", "1e3", "1E-3", "-1.25e+2", "123456789012345678901"])
def test_json_numbers_are_numbers(text):
    for document in both(f"a: {text}"):
        assert document.data["a"] == json.loads(text)
        assert type(document.data["a"]) is type(json.loads(text))


@pytest.mark.parametrize("text", ["'1'", '"true"', "'null'", '""', "'!x'"])
def test_quotes_keep_text(text):
    for document in both(f"a: {text}"):
        assert document.data == {"a": text[1:-1]}


@pytest.mark.parametrize("key", ["1", "true", "no", "1.5", "012", "~", "'null'", "'<<'", "2026-03-14"])
def test_keys_are_text(key):
    for document in both(f"{key}: x"):
        assert document.data == {key.strip("'"): "x"}


def test_a_byte_order_mark_is_kept_aside():
    document = read_document("\ufeffa: 1".encode(), "p")
    assert (document.bom, document.text, document.position("/a").column) == ("\ufeff", "a: 1", 4)


def test_bytes_and_text_are_the_same():
    assert read_document(PLAN.encode(), "p").data == read_document(PLAN, "p").data


def test_one_document_may_be_marked():
    for document in both("---\na: 1\n...\n"):
        assert document.data == {"a": 1}


@pytest.mark.parametrize(
    ("pointer", "value", "key"),
    [
        ("/rig_plan", "1", "rig_plan"),
        ("/title", "'Truck: off a verge'", "title"),
        ("/bodies/truck/moves", "{distance: 6 m, bearing: 0 deg}", "moves"),
        ("/bodies/truck/moves/bearing", "0 deg", "bearing"),
        ("/bodies/truck/notes", "|\n      soft verge\n      mind the ditch", "notes"),
        ("/bodies/truck/flags/3", "1.5", "1.5"),
        ("/lines", "- haul\n- {kind: rope,\n   length: 24 m}", "lines"),
        ("/lines/1/length", "24 m", "length"),
        ("/é😀", '"caf\\u00e9"', "é😀"),
        ("/empty", "", "empty"),
        # What isn't there is shown by what would hold it.
        ("/bodies/truck/moves/mass", "{distance: 6 m, bearing: 0 deg}", "moves"),
        ("/lines/7/kind", "- haul\n- {kind: rope,\n   length: 24 m}", "lines"),
        ("/lines/01", "- haul\n- {kind: rope,\n   length: 24 m}", "lines"),
        ("/rig_plan/x", "1", "rig_plan"),
    ],
)
def test_where_a_value_and_its_key_stand(pointer, value, key):
    for document in both(PLAN):
        assert cut(document, document.position(pointer)) == value
        assert cut(document, document.key_position(pointer)) == key


def test_lines_and_columns_count_from_one_to_one_past():
    document = read_document(PLAN, "p")
    assert document.position("/bodies/truck/moves/distance")[:4] == (6, 23, 6, 26)
    assert document.position("/é😀")[:4] == (16, 5, 16, 16)
    assert document.position("/lines/1")[:4] == (14, 3, 15, 17)
    assert document.position("/empty")[:4] == (17, 7, 17, 7)


def test_the_root_ends_with_its_last_child():
    document = read_document("# c\na:\n  b: 1\n\n# end\n", "p")
    assert document.position("") == Region(2, 1, 3, 7, 4, 13)
    assert document.key_position("") == document.position("")


def test_pointers_escape_as_the_standard_says():
    for document in both("a/b: {c~d: 1, '': 2, ~1: 3}\n"):
        assert cut(document, document.position("/a~1b/c~0d")) == "1"
        assert cut(document, document.position("/a~1b/")) == "2"
        assert cut(document, document.position("/a~1b/~01")) == "3"


def test_a_problem_can_be_put_at_a_value_or_at_its_key():
    document = read_document(PLAN, "p")
    assert document.problem("/lines/1/length", "w", "s").text() == "p:15:12: /lines/1/length: w; s"
    assert document.problem("/lines/1/length", "w", "s", key=True).column == 4


def walk(data, pointer=""):
    yield pointer
    entries = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for step, value in entries:
        yield from walk(value, f"{pointer}/{str(step).replace('~', '~0').replace('/', '~1')}")


def places(document):
    return [(p, document.position(p), document.key_position(p)) for p in walk(document.data)]


def reference(text, node, pointer=""):
    """Each value's start and end by the slow way: composed nodes, block ends trimmed to the last child."""
    start, end = node.start_mark.index, node.end_mark.index
    children = []
    if isinstance(node, yaml.MappingNode):
        children = [(f"{pointer}/{key.value.replace('~', '~0')}", value) for key, value in node.value]
    elif isinstance(node, yaml.SequenceNode):
        children = [(f"{pointer}/{index}", value) for index, value in enumerate(node.value)]
    elif node.style in ("|", ">"):
        end = start + len(text[start:end].rstrip())
    for where, child in children:
        last = yield from reference(text, child, where)
    if children and text[start] not in "[{":
        end = last
    yield pointer, (start, end)
    return end


def assert_places_are_the_references(text):
    node = yaml.compose(text, Loader=yaml.SafeLoader)
    for document in both(text):
        for pointer, (start, end) in reference(text, node):
            assert document.position(pointer)[4:] == (start, end), pointer


LETTERS = st.characters(codec="utf-8", exclude_categories=("Cc", "Cs", "Cn", "Co", "Zl", "Zp", "Cf"))
TEXTS = st.one_of(
    # The writer leaves `1e3` bare, being text to it; here it is a number.
    st.text(LETTERS, max_size=12).filter(lambda text: not re.fullmatch(r"-?\d+(\.\d+)?[eE][-+]?\d+", text)),
    st.sampled_from(["6 m", "no", "a: b", "- x", "x #y", "", "two\nlines\n", "[x]", "'", '"', "?", "null", "&a"]),
)
LEAVES = st.one_of(TEXTS, st.booleans(), st.none(), st.integers(), st.floats(allow_nan=False, allow_infinity=False))
KEYS = st.one_of(st.text("abc_", min_size=1, max_size=5), st.sampled_from(["null", "<<", "?", "1", "true", "~a"]))
TREES = st.recursive(
    LEAVES,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=14,
)


@st.composite
def written(draw):
    tree = draw(st.dictionaries(KEYS, TREES, min_size=1, max_size=4))
    style = {
        "default_flow_style": draw(st.sampled_from([None, True, False])),
        "indent": draw(st.sampled_from([None, 2, 4])),
        "width": draw(st.sampled_from([20, 200])),
        "allow_unicode": draw(st.booleans()),
        "sort_keys": False,
    }
    return tree, yaml.dump(tree, Dumper=WithoutAliases, **style)


class WithoutAliases(yaml.SafeDumper):
    def ignore_aliases(self, data):
        return True


@settings(deadline=None, max_examples=150)
@given(written())
def test_what_was_written_is_read_back_in_its_place(case):
    tree, text = case
    for document in both(text):
        assert document.data == tree
        assert not any(isinstance(leaf, float) and not math.isfinite(leaf) for leaf in document.data.values())
    assert_places_are_the_references(text)


def test_the_places_of_a_whole_plan_are_the_references():
    text = PLAN.replace("empty:\n", "")
    assert_places_are_the_references(text)


SCRAPS = [
    *":,[]{}#'\"|>&*!%@`?-~=a1 \n\t\\.é😀\x85\ufeff\u2028\x00",
    *[
        "  ",
        "- ",
        " #",
        ": ",
        "? ",
        "? a",
        "\r\n",
        "\r",
        "---\n",
        "...\n",
        "null",
        "<<",
        "|2",
        ">-",
        "|2#",
        "|+\n  ",
    ],
    *[
        "\n\n",
        "\\x41",
        "\\u00e9",
        "\\/",
        "!!str ",
        "&a ",
        "- - ",
        ":\n",
        '"a\n b"',
        "\n- ",
        "a: ",
        "1e999",
        "%YAML 1.1\n",
    ],
    *['"\\ud800"', '"\\UFFFFFFFF"', '"\\0"'],
]


@st.composite
def broken(draw):
    lines = PLAN.splitlines(keepends=True)
    first = draw(st.integers(0, len(lines) - 1))
    text = "".join(lines[first : first + draw(st.integers(0, 6))])
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        text = text[:at] + draw(st.sampled_from(SCRAPS)) + text[at + draw(st.integers(0, 2)) :]
    return text


def outcome(text, *, pure):
    try:
        document = read_document(text, "p", pure=pure)
    except ReadingFailed as failed:
        return failed.problems
    return repr(document.data), places(document)


@settings(deadline=None, max_examples=600, suppress_health_check=[HealthCheck.too_slow])
@given(broken())
@example("[a? b]")
@example("{?a: b}")
@example("|2#\n")
@example("a:\tb")
@example("{a: , b: 1}")
@example("[0: , b]")
@example("{a: # c\n , b}")
@example("[a: b ]")
@example("? a\n? b\n: c")
@example("? - a\n: b\n? - a\n: c")
@example('"\\ud83d\\ude00"')
@example("a: |\n  x\n # c\n# d\nb: 1")
def test_both_parsers_say_the_same(text):
    assert outcome(text, pure=False) == outcome(text, pure=True)


@settings(deadline=None)
@given(st.binary(max_size=60))
def test_no_bytes_are_a_traceback(source):
    try:
        problems = ()
        assert isinstance(read_document(source, "p"), Document)
    except ReadingFailed as failed:
        problems = failed.problems
    assert all(problem.line >= 1 and problem.column >= 1 for problem in problems)


EXAMPLES = sorted(Path(__file__).parents[2].glob("examples/**/*.yaml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.name)
def test_shipped_examples_are_read_alike_by_both(path):
    text = path.read_text(encoding="utf-8")
    assert outcome(text, pure=False) == outcome(text, pure=True)
