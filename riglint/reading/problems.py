"""What is wrong with a text that was read: where, what was found, and what would serve."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

LONGEST_QUOTE = 48


def quoted(text: str) -> str:
    """The text between backticks, on one line, shortened if long; what can't be seen is an escape."""
    start = text[: LONGEST_QUOTE + 1]
    shown = "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in start)
    return f"`{shown[: LONGEST_QUOTE - 1]}…`" if len(shown) > LONGEST_QUOTE else f"`{shown}`"


class Problem(NamedTuple):
    """One fault in a file; line and column are 1-based, columns count code points."""

    file: str
    line: int
    column: int
    place: str
    """RFC 6901 JSON pointer into the plan; the empty text is the whole of it."""
    what: str
    """What was found, one sentence."""
    serves: str
    """What would serve instead."""

    def text(self) -> str:
        """The problem as one readable line."""
        where = f"{self.file}:{self.line}:{self.column}: "
        return where + (f"{self.place}: " if self.place else "") + f"{self.what}; {self.serves}"


class ReadingFailed(Exception):
    """The text can't be used; every problem that could be found is in `problems`, sorted, at least one."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(sorted(set(problems)))
        if not self.problems:
            raise ValueError("problems is empty: reading that fails says why")
        super().__init__("\n".join(problem.text() for problem in self.problems))
