"""Every text that is refused: where, what was found, what would serve; all at once."""

import pytest

from riglint.reading.build import DEEPEST
from riglint.reading.characters import LARGEST_FILE, MOST_PROBLEMS
from riglint.reading.document import read_document
from riglint.reading.problems import ReadingFailed


def refusal(source):
    with pytest.raises(ReadingFailed) as failed:
        read_document(source, "p")
    if not isinstance(source, bytes):
        with pytest.raises(ReadingFailed) as in_pure:
            read_document(source, "p", pure=True)
        assert in_pure.value.problems == failed.value.problems
    return failed.value.problems


@pytest.mark.parametrize(
    ("source", "line", "column", "place", "what", "serves"),
    [
        ("", 1, 1, "", "empty", "write a plan"),
        ("\n# only a remark\n", 1, 1, "", "empty", "write a plan"),
        ("---\n", 1, 1, "", "empty", "write a plan"),
        ("a: 1\nb: 2\na: 3\n", 3, 1, "/a", "first on line 1, again on line 3", "keep one"),
        ("x:\n- {a: 1, 'a': 3}\n", 2, 10, "/x/0/a", "first on line 2, again on line 2", "keep one"),
        ("a: &x 1", 1, 4, "/a", "`&x`", "leave it out"),
        ("a: &x {b: 1}", 1, 4, "/a", "`&x`", "leave it out"),
        ("&x a: 1", 1, 1, "", "`&x`", "leave it out"),
        ("a: [b, *x]", 1, 8, "/a/1", "`*x`", "write the value out"),
        ("a: !!str 1", 1, 4, "/a", "`!!str`", "leave it out"),
        ("a: !x [1]", 1, 4, "/a", "`!x`", "leave it out"),
        ("a: ! b", 1, 4, "/a", "`!`", "leave it out"),
        ("!<tag:x> a: 1", 1, 1, "", "`!<tag:x>`", "leave it out"),
        ("a:\n  <<: {b: 1}", 2, 3, "/a", "`<<`", "write its entries out"),
        ("a: 1\n---\nb: 2", 2, 1, "", "second document", "one plan"),
        ("%YAML 1.2\n---\na: 1", 1, 1, "", "`%`", "leave it out"),
        ("# c\n%TAG ! x\n---\na: 1", 2, 1, "", "`%`", "leave it out"),
        ("? [a]\n: 1", 1, 3, "", "list or a mapping", "text as the key"),
        ("? {a: 1}\n: 1", 1, 3, "", "list or a mapping", "text as the key"),
        ("null: 1", 1, 1, "", "`null`", "text as the key"),
        ("?\n: 1", 1, 2, "", "empty", "text as the key"),
        (": 1", 1, 1, "", "no key before it", "`key: value`"),
        ("a:\n\tb: 1", 2, 1, "/a", "tab", "spaces"),
        ("a:\tb", 1, 3, "/a", "tab", "spaces"),
        ("a: 1e999", 1, 4, "/a", "`1e999`", "smaller"),
        ("a: -1e999", 1, 4, "/a", "`-1e999`", "smaller"),
        ("a: 1e-999", 1, 4, "/a", "`1e-999`", "quotes"),
        ("a: " + "9" * 5000, 1, 4, "/a", "`999", "smaller"),
        ('a: "\\0"', 1, 4, "/a", "U+0000", "leave it out"),
        ('a: "\\e[31m"', 1, 4, "/a", "U+001B", "leave it out"),
        ('a: "\\ud800"', 1, 4, "/a", "surrogate", "leave it out"),
        ('a: "\\UFFFFFFFF"', 1, 7, "/a", "no character", "single quotes"),
        ('a: "\\q"', 1, 6, "/a", "escape", "single quotes"),
        ("a: x\x00", 1, 5, "", "U+0000", "take it out"),
        ("a: \x1b[31m", 1, 4, "", "U+001B", "take it out"),
        ("a: x\ny\x85", 2, 2, "", "U+0085", "line feed"),
        ("a: é\u2028", 1, 5, "", "U+2028", "line feed"),
        ("a: \u2029", 1, 4, "", "U+2029", "line feed"),
        ("a: \u202e", 1, 4, "", "U+202E", "take it out"),
        ("a: \ufeff", 1, 4, "", "U+FEFF", "take it out"),
        ("a: 1\rb: 2", 1, 5, "", "U+000D", "line feed"),
        ("a: \ud800", 1, 4, "", "surrogate", "take it out"),
        (b"a: 1\n\xc3\xa9: \xff", 2, 4, "", "byte 9 (0xFF)", "UTF-8"),
        (b"\xef\xbb\xbfa: \xff", 1, 4, "", "byte 6 (0xFF)", "UTF-8"),
        ("a: 1".encode("utf-16"), 1, 1, "", "UTF-16", "UTF-8"),
        ("a: b: c", 1, 5, "", "`:`", "quotes"),
        ("a: 'x\nb: 1\n", 1, 4, "/a", "never closed", "close the quote"),
        ("a: [b, c\nd: e\n", 2, 2, "/a", "list opens on line 1", "`]`"),
        ("a: {b: c\n", 2, 1, "/a", "mapping opens on line 1", "`}`"),
        ("a: [x? y]", 1, 6, "/a", "`?` stands where", "quotes"),
        ("a: @x", 1, 4, "/a", "`@`", "quotes"),
        ("a: %", 1, 4, "/a", "`%`", "quotes"),
        ("a: &\n", 1, 5, "/a", "end of the line", "quotes"),
        ("a: |x\n b", 1, 5, "/a", "`x`", "lines below"),
        ("a: ]", 1, 4, "/a", "`]`", "write a value"),
        (" a: 1\nb: 2\n", 2, 1, "", "behind the end", "line it up"),
        ("a: 1\n- b\n", 2, 1, "", "doesn't line up with what began on line 1", "spaces"),
        ("a:\n  b: 1\nkey\nc: 1\n", 3, 1, "/a", "no `:`", "`key: value`"),
        ("a: - b", 1, 4, "/a", "`-` can't stand here", "own lines"),
    ],
)
def test_a_text_is_refused(source, line, column, place, what, serves):
    (problem,) = refusal(source)
    assert (problem.file, problem.line, problem.column, problem.place) == ("p", line, column, place)
    assert what in problem.what
    assert serves in problem.serves


def test_all_that_is_wrong_comes_at_once_up_to_a_syntax_error():
    text = "a: 1\na: 2\nb: &x 3\nc: *x\nd: !!str 4\n<<: {}\n? [q, q]\n: 2\nnull: 3\na: 1e999\ne: ]\nf: &z 1\n"
    assert [problem.line for problem in refusal(text)] == [2, 3, 4, 5, 6, 7, 9, 10, 10, 11]


def test_problems_inside_a_second_value_of_one_key_are_seen():
    assert [problem.place for problem in refusal("a: 1\na: {b: *x}\n")] == ["/a", "/a/b"]


def test_every_bad_character_is_named():
    assert [problem.line for problem in refusal("a: \x01\nb: \x02\nc: \x03")] == [1, 2, 3]


@pytest.mark.parametrize("form", ["{}{}", "{}a{}"])
def test_depth_is_capped(form):
    assert read_document(form.format("[" * DEEPEST, "]" * DEEPEST), "p")
    (problem,) = refusal(form.format("[" * (DEEPEST + 1), "]" * (DEEPEST + 1)))
    assert f"more than {DEEPEST} deep" in problem.what


@pytest.mark.parametrize("text", ["[" * 100_000, "- " * 100_000, "{a: " * 50_000, "? " * 100_000])
def test_a_pit_is_no_recursion(text):
    assert refusal(text)


def test_size_is_capped_before_anything_is_read():
    at_most = b"# " + b"x" * (LARGEST_FILE - 7) + b"\na: 1"
    assert len(at_most) == LARGEST_FILE
    assert read_document(at_most, "p").data == {"a": 1}
    (problem,) = refusal(b"x" + at_most)
    assert "larger than 1 MiB" in problem.what
    (in_text,) = refusal("é" * (LARGEST_FILE // 2 + 1))
    assert in_text.what == problem.what


def test_a_hopeless_file_is_told_in_a_bounded_list():
    assert len(refusal("\x01\n" * 5000)) == MOST_PROBLEMS
    assert len(refusal("a: 1\n" * 5000)) == MOST_PROBLEMS


def test_an_alias_bomb_is_refused_where_it_begins():
    text = "a: &a [x, x]\n" + "".join(f"b{n}: &b{n} [*a, *a]\n" for n in range(20))
    assert refusal(text)[0].line == 1
