"""Mutants of a Python source: one small change each, to a comparison, a number, an operator or a negation.

The change is made in the text, so that lines keep their numbers and a survivor can be looked at.
"""

import ast
from typing import NamedTuple

COMPARISONS: dict[type[ast.cmpop], tuple[str, ...]] = {
    ast.Lt: ("<=", ">="), ast.LtE: ("<", ">"), ast.Gt: (">=", "<="), ast.GtE: (">", "<"),
    ast.Eq: ("!=",), ast.NotEq: ("==",), ast.Is: ("is not",), ast.IsNot: ("is",),
    ast.In: ("not in",), ast.NotIn: ("in",),
}  # fmt: skip
ARITHMETIC: dict[type[ast.operator], str] = {
    ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*", ast.Pow: "*", ast.FloorDiv: "/", ast.Mod: "*",
}  # fmt: skip
# What only says how Python is to do something, not what is reckoned.
HOUSEKEEPING = {"strict", "frozen", "slots", "kw_only", "asked", "key"}


class Mutant(NamedTuple):
    """One change: where it stands in the text, what stands there and what is put in its place."""

    line: int
    start: int
    end: int
    was: str
    now: str

    def of(self, text: str) -> str:
        """The text with the change made."""
        return text[: self.start] + self.now + text[self.end :]


def mutants(text: str) -> list[Mutant]:
    """Every mutant of a source, in the order of the text."""
    return sorted(_Finder(text).found)


class _Finder(ast.NodeVisitor):
    def __init__(self, text: str) -> None:
        self.text = text
        self.starts = [0]
        for line in text.splitlines(keepends=True):
            self.starts.append(self.starts[-1] + len(line))
        self.found: set[Mutant] = set()
        self.visit(ast.parse(text))

    def at(self, line: int, column: int) -> int:
        """Where a place of the tree is in the text; columns of the tree count bytes."""
        begins = self.starts[line - 1]
        whole = self.text[begins : self.starts[line]]
        return begins + len(whole.encode()[:column].decode())

    def span(self, node: ast.expr) -> tuple[int, int]:
        """From where to where a node stands."""
        return self.at(node.lineno, node.col_offset), self.at(node.end_lineno or 0, node.end_col_offset or 0)

    def put(self, node: ast.expr, now: str) -> None:
        """A mutant with another text for a node."""
        start, end = self.span(node)
        self.found.add(Mutant(node.lineno, start, end, self.text[start:end], now))

    def between(self, left: ast.expr, right: ast.expr, was: str, now: str) -> None:
        """A mutant with another operator between two nodes."""
        start = self.span(left)[1]
        start = self.text.index(was, start, self.span(right)[0])
        line = self.text.count("\n", 0, start) + 1
        self.found.add(Mutant(line, start, start + len(was), was, now))

    def visit_Compare(self, node: ast.Compare) -> None:
        left = node.left
        for op, right in zip(node.ops, node.comparators, strict=True):
            for now in COMPARISONS[type(op)]:
                self.between(left, right, _written(op), now)
            left = right
        self.generic_visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        now = ARITHMETIC.get(type(node.op))
        if now and not _is_text(node):
            self.between(node.left, node.right, _SIGNS[type(node.op)], now)
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        was, now = ("and", "or") if isinstance(node.op, ast.And) else ("or", "and")
        for left, right in zip(node.values, node.values[1:], strict=False):
            self.between(left, right, was, now)
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        start, end = self.span(node.operand)
        if isinstance(node.op, ast.Not | ast.USub):
            self.put(node, f"({self.text[start:end]})")
        self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        value = node.value
        if isinstance(value, bool):
            self.put(node, str(not value))
        elif isinstance(value, int):
            self.put(node, str(value + 1))
        elif isinstance(value, float):
            self.put(node, repr(value * 1.01 if value else 0.01))

    def visit_If(self, node: ast.If | ast.IfExp) -> None:
        if isinstance(node.test, ast.Name | ast.Attribute | ast.Call | ast.Subscript | ast.NamedExpr):
            start, end = self.span(node.test)
            self.put(node.test, f"(not ({self.text[start:end]}))")
        self.generic_visit(node)

    visit_IfExp = visit_If  # noqa: N815

    # What is no reckoning: annotations, assertions of types, and keywords of housekeeping

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value:
            self.visit(node.value)

    def visit_arg(self, node: ast.arg) -> None:
        pass

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        for part in (*node.args.defaults, *filter(None, node.args.kw_defaults), *node.decorator_list, *node.body):
            self.visit(part)

    def visit_Assert(self, node: ast.Assert) -> None:
        pass

    def visit_keyword(self, node: ast.keyword) -> None:
        if node.arg not in HOUSEKEEPING:
            self.visit(node.value)


_SIGNS = {
    ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/", ast.Pow: "**", ast.FloorDiv: "//", ast.Mod: "%",
}  # fmt: skip
_WRITTEN = {
    ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!=",
    ast.Is: "is", ast.IsNot: "is not", ast.In: "in", ast.NotIn: "not in",
}  # fmt: skip


def _written(op: ast.cmpop) -> str:
    return _WRITTEN[type(op)]


def _is_text(node: ast.BinOp) -> bool:
    """Whether text is put together there, or types."""
    return any(isinstance(n, ast.JoinedStr) or (isinstance(n, ast.Constant) and isinstance(n.value, str))
               for n in ast.walk(node))  # fmt: skip
