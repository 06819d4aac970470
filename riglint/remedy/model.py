"""What a remedy is: a change that the engine tried, what it does to the finding, and what else it does."""

from __future__ import annotations

from typing import NamedTuple

from riglint.outcome import Finding, Term, Unit, Verdict
from riglint.remedy.patch import Operation, Patch


class Proposal(NamedTuple):
    """A change that might put a finding right, not tried yet.

    `says` is a sentence with places for numbers, as in a check; `terms` fills them. With `need`, the changes
    stand for gear that nobody has named: they are tried, and only the words are offered.
    """

    says: str
    terms: tuple[Term, ...]
    changes: tuple[Operation, ...]
    need: bool = False
    guards: tuple[str, ...] = ()


class Figure(NamedTuple):
    """A figure before and after; None: not known, or not there."""

    what: str
    unit: Unit
    before: float | None
    after: float | None


class Remedy(NamedTuple):
    """A change under which a finding is gone and nothing as grave is new. Without a patch it is a need, in words.

    `finding` is its index in the inspection. `clears` holds other findings that go with it, `brings` milder ones
    that come with it.
    """

    finding: int
    way: str
    says: str
    terms: tuple[Term, ...]
    patch: Patch
    figures: tuple[Figure, ...]
    verdict: Verdict
    clears: tuple[int, ...] = ()
    brings: tuple[Finding, ...] = ()
