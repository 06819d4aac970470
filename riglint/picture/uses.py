"""What the rules found, by component: how far it is used, what can't be told, the gravest failure."""

from __future__ import annotations

from dataclasses import dataclass, field

from riglint.outcome import Check, Grade, Inspection, Result
from riglint.report.numbers import percent

Key = tuple[str, str]


@dataclass(slots=True)
class Uses:
    """Of one stage. Loads only: use counts what a component carries over what it may carry."""

    use: dict[Key, float] = field(default_factory=dict)
    untold: set[Key] = field(default_factory=set)
    limits: dict[tuple[str, str, str], float] = field(default_factory=dict)  # kind, name, case
    failed: dict[Key, Grade] = field(default_factory=dict)
    inspected: bool = False

    def words(self, key: Key) -> str:
        """`72 %`, `over: 104 %`, `can't tell`; nothing where no rule looked at it."""
        return use_words(self.use.get(key), untold=key in self.untold)


def use_words(use: float | None, *, untold: bool) -> str:
    """A use as it stands on the picture. What isn't known is never left out for what is."""
    known = "" if use is None else percent(use)
    if use is not None and use > 1.0 and known != "100 %":
        return f"over: {known}"
    if untold:
        return f"{known}, rest can't tell" if known else "can't tell"
    return known


def uses(inspection: Inspection | None, stage: int) -> Uses:
    """Everything found about one stage."""
    out = Uses()
    if inspection is None:
        return out
    out.inspected = True
    for outcome in inspection.outcomes:
        for check in outcome.checks:
            if check.where.stage == stage and check.unit == "N":
                _note(out, check)
    for finding in inspection.findings:
        where = finding.check.where
        if finding.result is Result.FAILED and where.stage == stage:
            out.failed[_key(finding.check)] = _graver(out.failed.get(_key(finding.check)), finding.grade)
    return out


def _key(check: Check) -> Key:
    """A person is known by place in the plan: two may be called the same."""
    where = check.where
    return (where.kind, where.pointer if where.kind == "person" else where.name)


def _graver(one: Grade | None, other: Grade) -> Grade:
    return other if one is None or other.rank < one.rank else one


def _note(out: Uses, check: Check) -> None:
    key = _key(check)
    if check.result is Result.CANT_TELL:
        out.untold.add(key)
        return
    if check.use is not None:
        out.use[key] = max(out.use.get(key, 0.0), check.use)
    if check.limit is not None and check.limit > 0.0:
        at = (*key, check.where.case)
        out.limits[at] = min(out.limits.get(at, check.limit), check.limit)
