"""Patches as RFC 6902 has them; the cases are of its appendix A, or made like those."""

import pytest

from riglint.remedy.patch import PatchError, add, guarded, patched, remove, replace, same


def test(path, value):
    return {"op": "test", "path": path, "value": value}


test.__test__ = False


@pytest.mark.parametrize(
    ("data", "operation", "result"),
    [
        ({"foo": "bar"}, add("/baz", "qux"), {"foo": "bar", "baz": "qux"}),  # A.1
        ({"foo": ["bar", "baz"]}, add("/foo/1", "qux"), {"foo": ["bar", "qux", "baz"]}),  # A.2
        ({"foo": "bar", "baz": "qux"}, remove("/baz"), {"foo": "bar"}),  # A.3
        ({"foo": ["bar", "qux", "baz"]}, remove("/foo/1"), {"foo": ["bar", "baz"]}),  # A.4
        ({"foo": "bar", "baz": "qux"}, replace("/baz", "boo"), {"foo": "bar", "baz": "boo"}),  # A.5
        ({"baz": "qux"}, test("/baz", "qux"), {"baz": "qux"}),  # A.8
        ({"foo": "bar"}, add("/child", {"grand": {}}), {"foo": "bar", "child": {"grand": {}}}),  # A.10
        ({"/": 9, "~1": 10}, test("/~01", 10), {"/": 9, "~1": 10}),  # A.14
        ({"foo": ["bar"]}, add("/foo/-", ["abc"]), {"foo": ["bar", ["abc"]]}),  # A.16
        ({"foo": 1}, add("/foo", 2), {"foo": 2}),
    ],
)  # fmt: skip
def test_operations(data, operation, result):
    assert patched(data, [operation]) == result


@pytest.mark.parametrize(
    "operation",
    [
        test("/baz", "bar"),  # A.9
        add("/gone/bat", "qux"),  # A.12
        test("/foo/0", "1"),  # A.15: a text is no number
        test("/foo/0", True),
        add("/foo/3", 1), remove("/foo/2"), replace("/foo/-", 1), remove("/foo/01"), remove("/gone"), replace("", {}),
        test("/gone", None),
    ],
)  # fmt: skip
def test_what_does_not_fit_changes_nothing(operation):
    data = {"foo": [1, 2], "baz": "qux"}
    with pytest.raises(PatchError):
        patched(data, [replace("/baz", "other"), operation])
    assert data == {"foo": [1, 2], "baz": "qux"}


def test_numbers_are_equal_by_value():
    assert same(1, 1.0)
    assert not same(1, True)
    assert same({"a": [1.0]}, {"a": [1]})


DATA = {"points": {"eye": {"rated": "10 kN"}}, "path": ["winch", "eye"], "title": "t"}


def test_a_guard_holds_the_patch_off_what_was_changed():
    patch = guarded(DATA, [replace("/points/eye/rated", "20 kN"), add("/path/-", "x"), add("/stops", [])], "/title")
    assert [op["op"] for op in patch] == ["test", "test", "test", "replace", "add", "add"]
    assert patched(DATA, patch)["path"] == ["winch", "eye", "x"]
    for changed in ({"path": ["winch"]}, {"title": "u"}, {"points": {"eye": {"rated": "9 kN"}}}):
        with pytest.raises(PatchError):
            patched(DATA | changed, patch)


def test_guards_inside_one_another_are_one():
    patch = guarded(DATA, [replace("/points/eye/rated", "20 kN"), add("/points/eye/kind", "tow eye")])
    assert [op["path"] for op in patch if op["op"] == "test"] == ["/points/eye"]
