"""Remedies: for each finding what would put it right, tried by the engine before it is offered."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice
from typing import Final

from riglint.outcome import Finding, Inspection, Result
from riglint.reading.document import Document
from riglint.remedy.compare import compared
from riglint.remedy.figures import figures
from riglint.remedy.model import Proposal, Remedy
from riglint.remedy.patch import guarded
from riglint.remedy.ways.every import WAYS
from riglint.remedy.workshop import Engine, Workshop
from riglint.solve.solution import Solution

MOST_TRIALS: Final = 120
"""Changes that are tried for one finding; each costs about as much as the plan itself."""
MOST_OFFERED: Final = 4
"""Remedies offered for one finding."""


def remedies(
    document: Document,
    solution: Solution,
    inspection: Inspection,
    engine: Engine,
    *,
    most: int = MOST_OFFERED,
    only: int | None = None,
) -> tuple[Remedy, ...]:
    """The remedies of every finding that failed, or `only` of one, in their order, for each the cheapest change first.

    Each was tried: its finding is gone, and nothing at or above the finding's grade is new or worse. Those that
    bring something new that halts, though milder, come behind the others. What can't be told has none: it is put
    right by finding out. Equal plans give equal remedies.
    """
    shop = Workshop(document, solution, inspection, engine)
    failed = (i for i, f in enumerate(inspection.findings) if f.result is Result.FAILED and only in (None, i))
    return tuple(remedy for index in failed for remedy in _of_finding(shop, index)[:most])


def _of_finding(shop: Workshop, index: int) -> list[Remedy]:
    """At most one remedy from each way: the first of its proposals that serves, or of a clean way that does no more."""
    finding, began = shop.inspection.findings[index], shop.tried
    found: list[Remedy] = []
    for way in WAYS:
        if finding.check.where.kind not in way.kinds or shop.tried - began >= MOST_TRIALS:
            continue
        tried = (_tried(shop, index, way.name, p) for p in islice(way.propose(shop, finding), way.most))
        found += _clean(filter(None, tried)) if way.clean else islice(filter(None, tried), 1)
    return sorted(found, key=lambda r: any(new.grade.at_least(shop.inspection.halting) for new in r.brings))


def _clean(tried: Iterator[Remedy]) -> list[Remedy]:
    """The first that brings nothing; else the first."""
    first: list[Remedy] = []
    for remedy in tried:
        if not remedy.brings:
            return [remedy]
        first = first or [remedy]
    return first


def _tried(shop: Workshop, index: int, way: str, proposal: Proposal) -> Remedy | None:
    finding: Finding = shop.inspection.findings[index]
    trial = shop.try_(proposal.changes)
    if trial is None or not shop.puts_right(finding, trial):
        return None
    inspection = shop.inspect(trial)
    comparison = compared(index, shop.inspection, inspection)
    if comparison is None:
        return None
    patch = () if proposal.need else guarded(shop.data, proposal.changes, *proposal.guards)
    told = figures(finding, (shop.solution, shop.inspection), (trial.solution, inspection))
    return Remedy(index, way, proposal.says, proposal.terms, patch, told, inspection.verdict, *comparison)
