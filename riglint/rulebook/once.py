"""Saying a thing once, however many stages it holds in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.outcome import Check
from riglint.solve.solution import Solution


def once(solution: Solution, checks: Iterable[Check]) -> Iterator[Check]:
    """The checks without those that differ from an earlier one by nothing but the stage."""
    if len(solution.stages) == 1:
        yield from checks
        return
    seen: set[Check] = set()
    for check in checks:
        alike = check._replace(where=check.where._replace(stage=0, travel_m=None), working=())
        if alike not in seen:
            seen.add(alike)
            yield check
