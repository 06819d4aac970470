"""No module imports itself by way of others, not even when it runs."""

import ast
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_no_module_imports_itself_in_a_circle():
    order = TopologicalSorter({_name(file): set(_imported(file)) for file in (ROOT / "riglint").rglob("*.py")})
    try:
        order.prepare()
    except CycleError as error:
        raise AssertionError(" -> ".join(error.args[1])) from None


def _name(file):
    return ".".join(file.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def _imported(file):
    """All but what only a type checker reads."""
    tree = ast.parse(file.read_text("utf-8"))
    typing = [node for node in ast.walk(tree) if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)]
    idle = {id(inner) for node in typing for inner in ast.walk(node)}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("riglint.") and id(node) not in idle:
            yield node.module
