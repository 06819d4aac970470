"""The mutants themselves: each is one change, is Python, and what is no reckoning is left alone."""

import ast

from tests.mutation.mutants import mutants

SOURCE = '''
"""A page with 5 in it."""
from dataclasses import dataclass

@dataclass(frozen=True)
class Thing:
    size: float = 2.0

def f(a: float, b: float) -> bool:
    """At 5."""
    return not a * 2.5 < b or (a is None and b - 1 > 0.0)
'''


def test_each_is_one_change_and_is_python() -> None:
    texts = [mutant.of(SOURCE) for mutant in mutants(SOURCE)]
    assert len(set(texts)) == len(texts)
    for text in texts:
        ast.parse(text)
        assert text != SOURCE


def test_comparisons_numbers_operators_and_negations_are_changed() -> None:
    changes = {(mutant.was, mutant.now) for mutant in mutants(SOURCE)}
    assert changes >= {("<", "<="), ("<", ">="), ("*", "/"), ("-", "+"), ("or", "and"), ("and", "or"), ("is", "is not")}
    assert changes >= {("2.0", "2.02"), ("2.5", "2.525"), ("1", "2"), ("0.0", "0.01")}
    assert any(was.startswith("not a") for was, _ in changes)


def test_texts_and_housekeeping_are_left_alone() -> None:
    assert not [mutant for mutant in mutants(SOURCE) if mutant.was in ("True", "5")]
