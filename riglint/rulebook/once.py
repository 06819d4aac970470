"""Saying a thing once, however many stages it holds in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.outcome import Check, Value, six_digits
from riglint.solve.solution import Solution


def once(solution: Solution, checks: Iterable[Check]) -> Iterator[Check]:
    """The checks without those that differ from an earlier one by nothing but the stage."""
    if len(solution.stages) == 1:
        yield from checks
        return
    seen: set[Check] = set()
    for check in checks:
        alike = _as_told(check)
        if alike not in seen:
            seen.add(alike)
            yield check


def _as_told(check: Check) -> Check:
    """The check as a reader sees it, in whatever stage: further digits differ between machines."""
    measured, limit, use, pull_n = map(_told, (check.measured, check.limit, check.use, check.pull_n))
    terms = tuple((name, v._replace(si=six_digits(v.si)) if isinstance(v, Value) else v) for name, v in check.terms)
    where = check.where._replace(stage=0, travel_m=None)
    return check._replace(where=where, measured=measured, limit=limit, use=use, pull_n=pull_n, terms=terms, working=())


def _told(x: float | None) -> float | None:
    return None if x is None else six_digits(x)
