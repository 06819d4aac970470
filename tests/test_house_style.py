"""The house: data goes one way, modules and functions stay short."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "riglint"
MODULES = sorted(PACKAGE.rglob("*.py"))

# Each layer may import itself and what stands before it.
LAYERS = (
    ("reading", "mechanics", "shipped", "version"),
    ("plan",),
    ("rig",),
    ("solve",),
    ("outcome",),
    ("rulebook",),
    ("kit", "house"),
    ("report", "picture", "sheet", "review", "remedy", "debrief", "estimate", "tablet"),
    ("commands",),
    ("__main__",),
)
RANK = {name: rank for rank, names in enumerate(LAYERS) for name in names}
# The loader hands out the rig that a plan makes, and is handed the kit whose gear it merges in beforehand. First to
# give and the like share their words with outcomes.
ALLOWED = {("plan", "rig"), ("plan", "kit"), ("rig", "kit"), ("solve", "outcome")}
LONGEST_FUNCTION, LONGEST_MODULE = 60, 400


def layer(module: Path) -> str:
    parts = module.relative_to(PACKAGE).with_suffix("").parts
    return parts[0]


def imported(module: Path) -> set[str]:
    found = set()
    for node in ast.walk(ast.parse(module.read_text("utf-8"))):
        names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        found |= {name.split(".")[1] for name in names if name.startswith("riglint.")}
    return found


@pytest.mark.parametrize("module", MODULES, ids=lambda m: str(m.relative_to(PACKAGE)))
def test_imports_go_one_way(module: Path) -> None:
    own = layer(module)
    if own == "__init__":
        return
    for other in imported(module):
        assert RANK[other] <= RANK[own] or (own, other) in ALLOWED, f"{own} imports {other}"


@pytest.mark.parametrize("module", MODULES, ids=lambda m: str(m.relative_to(PACKAGE)))
def test_modules_and_functions_stay_short(module: Path) -> None:
    text = module.read_text("utf-8")
    assert len(text.splitlines()) <= LONGEST_MODULE
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            first = node.body[1] if len(node.body) > 1 and ast.get_docstring(node) else node.body[0]
            assert (node.end_lineno or 0) - first.lineno < LONGEST_FUNCTION, node.name


@pytest.mark.parametrize("module", [m for m in MODULES if m.name == "__init__.py"], ids=str)
def test_packages_do_no_work(module: Path) -> None:
    assert len(ast.parse(module.read_text("utf-8")).body) <= 1
