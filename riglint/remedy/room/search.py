"""Root search for where the verdict changes: a scan outward, then halving.

The plan is worked out anew at growing values. Between the last value at which the verdict is still the plan's and
the first at which it is another, some more are tried in order, so that it is the first change that is closed in on,
and then halved to `CLOSE` of the step of the scan. What changes and changes back within one step is not seen.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from itertools import pairwise
from typing import Final, NamedTuple

from riglint.outcome import Inspection, Result, Verdict
from riglint.remedy.patch import Operation
from riglint.remedy.workshop import Workshop

CLOSE: Final = 1e-4
"""How near the place of a change is found, as a share of the step of the scan."""
_FINER: Final = 4  # steps that the step with the change is parted into
_GRAVITY_OF: Final = {Verdict.CLEAR: 0, Verdict.CANT_TELL: 1, Verdict.NOT_CLEAR: 2}

Changes = Callable[[float], tuple[Operation, ...] | None]
"""From a value to what it changes in the plan; None where there is no such plan."""
Look = Callable[[float], "Seen | None"]
"""From a value to what is seen there; None where there is nothing to see."""


class Seen(NamedTuple):
    """A verdict, and what it rests on: rule, component and how, of all that halts."""

    verdict: Verdict
    found: frozenset[tuple[str, str, Result]]


class Search(NamedTuple):
    """Where the verdict changes, and to what: the last value before, and the first beyond, `CLOSE` apart.

    `steady`: it went one way only over all that was looked at. `step` is the longest step of the scan up to there,
    or up to where it ends.
    """

    start: float
    last: float | None
    first: float | None
    then: Seen | None
    looked_to: float
    steady: bool
    step: float


def searched(shop: Workshop, changes: Changes, start: float, grid: Iterable[float]) -> Search:
    """The first change of the verdict along the grid, from the plan's own value on."""

    def look(value: float) -> Seen | None:
        made = changes(value)
        trial = shop.try_(made) if made else None
        return seen(shop.inspect(trial)) if trial else None

    return scanned(look, seen(shop.inspection), start, grid)


def seen(inspection: Inspection) -> Seen:
    """The verdict with what it rests on."""
    grave = [f for f in inspection.findings if f.grade.at_least(inspection.halting) and not f.waived]
    failed = inspection.verdict is Verdict.NOT_CLEAR
    kept = [f for f in grave if not failed or f.result is Result.FAILED]
    return Seen(inspection.verdict, frozenset((f.rule, f.check.where.name, f.result) for f in kept))


def scanned(look: Look, own: Seen, start: float, grid: Iterable[float]) -> Search:
    """The same, of anything that can be looked at. The scan ends where there is nothing to be seen."""
    tried = [(start, own), *_until_none(look, grid)]
    ranks = [_GRAVITY_OF[at.verdict] for _, at in tried]
    steady = ranks == sorted(ranks) or ranks == sorted(ranks, reverse=True)
    to = tried[-1][0]
    after = next((i for i, (_, at) in enumerate(tried) if at.verdict is not own.verdict), None)
    if after is None:
        return Search(start, None, None, None, to, steady, _longest(tried))
    low, high, beyond = _finer(look, own, tried[after - 1][0], tried[after])
    part = abs(high - low)
    low, high, beyond = _halved(look, own, low, (high, beyond), CLOSE * part)
    return Search(start, low, high, beyond, to, steady, max(part, _longest(tried[:after])))


def _until_none(look: Look, grid: Iterable[float]) -> Iterator[tuple[float, Seen]]:
    for value in grid:
        at = look(value)
        if at is None:
            return
        yield value, at


def _longest(tried: list[tuple[float, Seen]]) -> float:
    return max((abs(b - a) for (a, _), (b, _) in pairwise(tried)), default=0.0)


def _finer(look: Look, own: Seen, low: float, end: tuple[float, Seen]) -> tuple[float, float, Seen]:
    """The first part of a step with another verdict at its end."""
    part = (end[0] - low) / _FINER
    for i in range(1, _FINER):
        at = look(low + part * i)
        if at is None or at.verdict is not own.verdict:
            return low + part * (i - 1), low + part * i, at or end[1]
    return end[0] - part, *end


def _halved(look: Look, own: Seen, low: float, end: tuple[float, Seen], close: float) -> tuple[float, float, Seen]:
    high, beyond = end
    while abs(high - low) > close:
        middle = low + (high - low) / 2.0
        at = look(middle)
        if at is None or at.verdict is not own.verdict:
            high, beyond = middle, at or beyond
        else:
            low = middle
    return low, high, beyond
