"""Exit codes: simple and few. Where several plans give several codes, the gravest stands."""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum

from riglint.outcome import Inspection, Verdict


class Exit(IntEnum):
    """What a run ends with."""

    CLEAR = 0
    HALTED = 1  # findings or can't-tells at or above the halting grade
    WRONG_CALL = 2
    UNREADABLE = 3
    BROKEN = 4  # a rule or the program itself failed


def of(inspection: Inspection) -> Exit:
    """The code of one inspected plan."""
    if inspection.untested:
        return Exit.BROKEN
    return Exit.CLEAR if inspection.verdict is Verdict.CLEAR else Exit.HALTED


def gravest(codes: Iterable[Exit]) -> Exit:
    """The code of a run over several plans."""
    return max(codes, default=Exit.CLEAR)
