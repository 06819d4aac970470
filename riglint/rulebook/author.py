"""What a rule is written with, in one place: what it is, what it looks at and what it says. See also `judge`."""

from collections.abc import Iterator

from riglint.outcome import Basis, Check, Formula, Grade, Result, Value, Where
from riglint.rulebook.limits import Limit, Limits
from riglint.rulebook.rule import Worse, rule
from riglint.solve.ratings import place
from riglint.solve.solution import Solution, StageSolution

__all__ = (
    "Basis", "Check", "Checks", "Formula", "Grade", "Limit", "Limits", "Result", "Solution", "StageSolution", "Value",
    "Where", "Worse", "place", "rule",
)  # fmt: skip

Checks = Iterator[Check]
