"""Whether a changed plan is free of a finding and has nothing new that is as grave."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf
from typing import NamedTuple

from riglint.outcome import Finding, Grade, Inspection, Result

_LITTLE = 1.005  # a use that grows by less is the same: other rope lengths shift every figure a little
_Key = tuple[str, int, str, str, str]


class Comparison(NamedTuple):
    """What a change does, beyond the finding that it is for: findings that go (by index), and milder new ones."""

    clears: tuple[int, ...]
    brings: tuple[Finding, ...]


def is_gone(finding: Finding, before: Iterable[Finding], after: Iterable[Finding]) -> bool:
    """Whether a finding is no longer there, in any grade, in other words or as a can't-tell."""
    key, own = _key(finding), _told(finding)
    left = [f for f in after if _key(f) == key]
    return all(_told(f) != own for f in left) and len(left) < sum(_key(f) == key for f in before)


def compared(finding: int, before: Inspection, after: Inspection) -> Comparison | None:
    """None where the finding is still there, or the change brings or worsens anything at or above its grade."""
    old = before.findings[finding]
    if not is_gone(old, before.findings, after.findings) or len(after.untested) > len(before.untested):
        return None
    brings: list[Finding] = []
    all_known = _by_key(before.findings)
    for key, found in _by_key(after.findings).items():
        known = all_known.get(key, [])
        for index, new in enumerate(found):
            if index >= len(known) or _is_worse(new, known[index]):
                brings.append(new)
    if any(new.grade.at_least(old.grade) for new in brings):
        return None
    others = [i for i, other in enumerate(before.findings) if i != finding]
    clears = [i for i in others if is_gone(before.findings[i], before.findings, after.findings)]
    return Comparison(tuple(clears), tuple(sorted(brings, key=lambda f: f.order)))


def _key(finding: Finding) -> _Key:
    where = finding.check.where
    return finding.rule, where.stage, where.kind, where.name, where.case


def _told(finding: Finding) -> tuple[str, ...]:
    """What tells findings of one component apart: the names in their words."""
    texts = [text for _, text in finding.check.terms if isinstance(text, str)]
    return (finding.check.where.pointer, *texts)


def _by_key(findings: Iterable[Finding]) -> dict[tuple[_Key, bool], list[Finding]]:
    """By what may be compared, the worst first: what has a use isn't held against what has none."""
    groups: dict[tuple[_Key, bool], list[Finding]] = {}
    for finding in sorted(findings, key=_severity):
        groups.setdefault((_key(finding), finding.check.use is None), []).append(finding)
    return groups


def _severity(finding: Finding) -> tuple[int, bool, float]:
    use = finding.check.use
    return finding.grade.rank, finding.result is not Result.FAILED, -(inf if use is None else use)


def _is_worse(new: Finding, old: Finding) -> bool:
    """Graver, told where it could not be told, or further over."""
    if new.grade is not old.grade:
        return Grade.at_least(new.grade, old.grade)
    if new.result is not old.result:
        return new.result is Result.FAILED
    return (new.check.use or 0.0) > (old.check.use or 0.0) * _LITTLE if old.check.use is not None else False
