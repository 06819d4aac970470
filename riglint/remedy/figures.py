"""The figures that a change moves: those of the finding, and the rig's first ones."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Check, Finding, Inspection, Result, Unit
from riglint.remedy.model import Figure
from riglint.solve.solution import Solution, StageSolution

_SAME = 1e-3  # relative: a figure that moves less is not worth telling


def figures(
    finding: Finding, before: tuple[Solution, Inspection], after: tuple[Solution, Inspection]
) -> tuple[Figure, ...]:
    """What the change does: the finding's own figures first, then those of its stage that move."""
    old, new = finding.check, _check_like(finding, after[1])
    stage = finding.check.where.stage
    rows = [Figure("measured", old.unit, old.measured, new.measured if new else None)]
    rows += [Figure("limit", old.unit, old.limit, new.limit if new else None)]
    rows += [Figure("use", "share", old.use, new.use if new else None)]
    told = [row for row in rows if row.before is not None and (row.what == "use" or _moved(row))]
    firsts = zip(_firsts(before[0].stages[stage]), _firsts(after[0].stages[stage]), strict=True)
    moved = (Figure(what, unit, a, b) for (what, unit, a), (_, _, b) in firsts)
    return (*told, *filter(_moved, moved))


def _check_like(finding: Finding, inspection: Inspection) -> Check | None:
    """The worst check of the same kind that the rule now passes on the same component in the same case, if any."""
    old, where = finding.check, finding.check.where
    same = [
        check for outcome in inspection.outcomes if outcome.rule == finding.rule for check in outcome.checks
        if check.result is Result.PASSED and check.where[:2] == where[:2]
        and (check.where.case, check.where.stage) == (where.case, where.stage)
        and (check.unit, check.measure) == (old.unit, old.measure)
    ]  # fmt: skip
    return max(same, key=lambda check: check.use or 0.0, default=None)


def _firsts(stage: StageSolution) -> Iterator[tuple[str, Unit, float | None]]:
    pulls = [s.line_pull_most_n for s in stage.stations if s.line_pull_most_n is not None]
    wraps = [s.drum.wraps.low for s in stage.stations if s.drum]
    anchors = [peak.load_n for peaks in stage.peaks.values() for key, peak in peaks.items() if key[0] == "point"]
    yield "parts", "parts", float(stage.parts) if stage.stations else None
    yield "travel", "m", stage.stage.travel.high
    yield "line", "m", stage.line_m.low
    yield "line needed", "m", stage.line_needed_m if stage.stations else None
    yield "line pull needed", "N", max(pulls, default=None)
    yield "most on a point", "N", max(anchors, default=None)
    yield "least wraps", "wraps", max(0.0, min(wraps)) if wraps else None  # a rope that runs out leaves none


def _moved(row: Figure) -> bool:
    if row.before is None or row.after is None:
        return row.before is not row.after
    return abs(row.after - row.before) > _SAME * max(abs(row.before), abs(row.after))
