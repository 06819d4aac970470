"""The house of the rules: what each page holds, that its worked example comes out, and what each file is.

A page is a rule's docstring. Its last paragraph begins `Worked example:` and says what it is about; then come lines of
`name = value unit` pairs and of results, `name = expression = value unit`, parted by semicolons. An expression is
arithmetic in the names before it, and its units must come out as well as its number, to the digits printed.
"""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from statistics import median
from typing import Any, NamedTuple

import numpy as np
import pint
import pytest

from riglint.outcome import CITED
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.rule import Rule
from riglint.rulebook.sources import Sources
from riglint.shipped import shipped

BOOK = standard_rulebook()
RULES = pytest.mark.parametrize("rule", BOOK.rules, ids=lambda rule: rule.slug)
BEGINS = "Worked example:"
FUNCTIONS = {name: getattr(np, name) for name in ("sin", "cos", "tan", "sqrt", "exp", "pi")}
FUNCTIONS |= {"min": min, "max": max, "atan2": np.arctan2}
# Rules that compare with a number and yet have no plan that sits on it and passes, and why.
NO_LIMIT_CASE = {"recovery-strap": "such a strap fails whatever it breaks at; its own test has both sides of it"}


@cache
def units() -> pint.UnitRegistry[Any]:
    return pint.UnitRegistry()


class Printed(NamedTuple):
    """A number with its unit as a page prints it, and half of its last digit."""

    quantity: Any
    unit: str
    half: float


def printed(text: str) -> Printed:
    number, _, unit = text.strip().partition(" ")
    unit = {"%": "percent", "lb/ft2": "lbf/ft**2"}.get(unit, unit.replace("m2", "m**2").replace("s2", "s**2"))
    places = len(number.partition(".")[2])
    return Printed(units().Quantity(float(number.replace(",", "")), unit), unit, 0.5 * 10.0**-places)


def worked(page: str) -> Iterator[tuple[str, Any, Printed]]:
    """Each result of a worked example: the line, what its expression gives, and what is printed."""
    names: dict[str, Any] = dict(FUNCTIONS)
    for line in page[page.index(BEGINS) :].splitlines()[1:]:
        for part in line.split(";"):
            name, *middle, last = (piece.strip() for piece in part.split(" = "))
            assert name.isidentifier(), part
            names[name] = printed(last).quantity
            if middle:
                names[name] = eval(middle[0], {"__builtins__": {}}, names)  # our own rules' text
                yield part, names[name], printed(last)


@RULES
def test_a_page_says_what_why_how_and_what_to_do(rule: Rule) -> None:
    what, *rest = rule.page.split("\n\n")
    assert re.fullmatch(r"[A-Z`][^.]*\.", what), "one sentence first"
    assert len(rest) >= 3
    assert any(part.startswith("What to do: ") for part in rest)
    said_to_have_none = "no equation" in " ".join(rule.page.lower().split())
    assert "\n    " in rule.page or said_to_have_none, "an equation set in, or the words that there is none"
    assert [i for i, part in enumerate(rest) if part.startswith(BEGINS)] == [len(rest) - 1]


@RULES
def test_a_worked_example_comes_out(rule: Rule) -> None:
    comes_out(rule.page)


@pytest.mark.parametrize(
    "line",
    ["a = 2 m; b = a / 3 = 0.66 m", "a = 2 m; b = a * a = 4 m", "a = 1 kN; b = 1 m; c = a + b = 2 kN", "a = b = 1"],
)
def test_a_wrong_worked_example_is_found(line: str) -> None:
    with pytest.raises((AssertionError, pint.DimensionalityError, NameError)):
        comes_out(f"{BEGINS} something.\n{line}")


def comes_out(page: str) -> None:
    """Every result of a page's worked example, to the digits printed; there is one at least."""
    results = list(worked(page))
    assert results
    for part, reckoned, stated in results:
        found = units().Quantity(reckoned).to(stated.unit).magnitude
        assert abs(found - stated.quantity.magnitude) <= stated.half * (1 + 1e-9), part


@RULES
def test_names_are_of_one_form_and_say_one_thing(rule: Rule) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", rule.slug)
    assert Path(rule.file).stem == rule.slug.replace("-", "_")
    assert Counter(other.title for other in BOOK.rules)[rule.title] == 1
    assert not rule.title.endswith(".")
    assert rule.grade.value.lower() not in rule.slug.split("-")


@RULES
def test_what_is_cited_is_known_and_what_is_not_says_so(rule: Rule) -> None:
    known = Sources([shipped("rules")]).all()
    bases = {*rule.basis, *(limit.basis for limit in rule.limits)}
    assert rule.basis
    for basis in bases:
        assert (basis.source in known) if basis.kind in CITED else basis.source is None


@RULES
def test_a_basis_claims_no_more_of_a_source_than_was_seen_of_it(rule: Rule) -> None:
    known = Sources([shipped("rules")]).all()
    for basis in {*rule.basis, *(limit.basis for limit in rule.limits)}:
        if basis.source:
            source = known[basis.source]
            assert source.seen in ("in part", basis.trust), basis
            assert basis.scope in source.scope, basis


@RULES
def test_a_rule_with_a_number_has_a_case_on_its_limit(rule: Rule) -> None:
    source = Path(rule.file).read_text()
    folder = Path(__file__).parent / rule.slug.replace("-", "_")
    compares = re.search(r"\b(at_most|at_least|against)\(", source)
    assert list(folder.glob("limit-*.yaml")) or not compares or rule.slug in NO_LIMIT_CASE


@RULES
def test_a_rule_imports_no_other_and_does_nothing_but_judge(rule: Rule) -> None:
    tree = ast.parse(Path(rule.file).read_text())
    modules = {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    modules |= {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    allowed = ("riglint.mechanics", "riglint.outcome", "riglint.plan", "riglint.reading", "riglint.rig",
               "riglint.rulebook", "riglint.solve", "collections", "datetime", "functools", "itertools", "math",
               "typing", "__future__")  # fmt: skip
    assert {name for name in modules if not name.startswith(allowed)} == set()
    calls = {node.func.id for node in ast.walk(tree) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}
    assert calls.isdisjoint({"print", "open", "input", "eval", "exec", "__import__"})


def test_a_rule_is_a_page() -> None:
    sizes = {rule.slug: code_lines(Path(rule.file).read_text()) for rule in BOOK.rules}
    assert median(sizes.values()) < 40
    assert {slug: size for slug, size in sizes.items() if size > 80} == {}


def code_lines(source: str) -> int:
    """Lines of code, imports among them: without docstrings, comments and blank lines."""
    left_out: set[int] = set()
    for node in ast.walk(ast.parse(source)):
        docstring = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        if docstring and isinstance(node.value.value, str):
            left_out |= set(range(node.lineno, (node.end_lineno or node.lineno) + 1))
    lines = enumerate(source.splitlines(), start=1)
    return sum(1 for n, line in lines if n not in left_out and line.strip() and not line.strip().startswith("#"))
