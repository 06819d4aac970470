"""The report that a tired person reads beside the winch: verdict, first figures, findings, run, to-do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from riglint.outcome import Changed, Grade, Result
from riglint.reading.problems import ReadingFailed
from riglint.report.foreman import foreman
from riglint.report.ink import Ink
from riglint.report.material import Inspected, Todo, todos, verdict_words
from riglint.report.numbers import percent, show
from riglint.report.run import run
from riglint.report.summary import Summary, summaries
from riglint.report.text_findings import findings
from riglint.report.words import compared, listed, message, plain, sentence, wrapped
from riglint.report.workings import workings

_MOST_USED = 8
_TICK = 15
_CAUTIONS = (
    "Arithmetic on what the plan says, not leave to pull. Makers' ratings and instructions, local rules and"
    " the licensed person in charge on the ground come first. If anything looks, sounds or moves other than"
    " planned: stop."
)


def report(inspected: Inspected, ink: Ink, *, with_workings: bool = False, further: Iterable[list[str]] = ()) -> str:
    """The whole report of one plan, ending with a newline; `further` sections stand before the workings."""
    told = summaries(inspected.solution.stages, inspected.inspection)
    parts = [
        _verdict(inspected, ink),
        *(foreman(summary, inspected, of_several=len(told) > 1) for summary in told),
        findings(inspected, ink),
        *(run(stage, inspected, of_several=len(told) > 1) for stage in inspected.solution.stages),
        _to_do(inspected, ink),
        _most_used(told, inspected),
        _changed(inspected),
        _set_aside(inspected),
        *further,
        workings(inspected) if with_workings else [],
        wrapped(_CAUTIONS),
    ]
    return "\n\n".join("\n".join(lines) for lines in parts if lines) + "\n"


def unread(file: str, failed: ReadingFailed) -> str:
    """The report of a plan that can't be read: every problem, a line each."""
    count = len(failed.problems)
    needs = "place needs" if count == 1 else "places need"
    lines = [f"CAN'T BE READ: {plain(file)}, {count} {needs} mending"]
    lines += [f"  {plain(problem.text())}" for problem in failed.problems]
    return "\n".join(lines) + "\n"


def _verdict(inspected: Inspected, ink: Ink) -> list[str]:
    inspection = inspected.inspection
    word = ink.mark(inspection.verdict, inspection.verdict.value.upper())
    lines = [f"{word}: {verdict_words(inspection)}.", *wrapped(plain(inspected.solution.rig.title))]
    failed = [f.grade for f in inspection.findings if f.result is Result.FAILED and not f.waived]
    waived = sum(f.waived is not None for f in inspection.findings)
    counted = [f"{failed.count(grade)} {grade.value}" for grade in Grade if grade in failed]
    unknown = len(_todos(inspected))
    lines.append(
        f"{plain(inspected.file)}: {listed(counted) or 'no findings'}"
        + (f"; {unknown} {'thing' if unknown == 1 else 'things'} to find out" if unknown else "")
        + (f"; {waived} waived" if waived else "")
        + f". Halts at {inspection.halting.value} and above."
    )
    for outcome in inspection.untested:
        lines += wrapped(f"Rule {outcome.rule} broke and was not applied: {plain(outcome.reason)}", "", "  ")
    return lines


def _todos(inspected: Inspected) -> tuple[Todo, ...]:
    texts = {
        index: sentence(message(finding.check, inspected.system)).rstrip(".")
        for index, finding in enumerate(inspected.inspection.findings)
        if finding.result is Result.CANT_TELL and not finding.check.missing
    }
    return todos(inspected, texts)


def _to_do(inspected: Inspected, ink: Ink) -> list[str]:
    rows = _todos(inspected)
    if not rows:
        return []
    lines = ["To find out before it can be told:"]
    for row in rows:
        at = f" ({inspected.place(row.pointer)})" if row.pointer else ""
        text = f"{plain(row.what)}{at}; asked by {listed(row.rules)}"
        prefix = f"  [ ] {row.grade.value}".ljust(_TICK)
        first, *others = wrapped(text, prefix, " " * _TICK)
        lines += [first.replace(row.grade.value, ink.mark(row.grade, row.grade.value), 1), *others]
    return lines


def _most_used(told: tuple[Summary, ...], inspected: Inspected) -> list[str]:
    uses = sorted((use for summary in told for use in summary.uses), key=lambda u: -round(u.use, 9))[:_MOST_USED]
    if not uses:
        return []
    rows: list[tuple[str, ...]] = [("Most used", "carries", "may carry", "use", "")]
    for check, use in uses:
        name, numbers = plain(check.where.component), compared(check, inspected.system)
        rows.append((name, *numbers, percent(use), _when(check.where.case)))
    return list(_table(rows))


def _when(case: str) -> str:
    return {"stall": "if the winch stalls", "expected": "as expected"}.get(case, case)


def _table(rows: list[tuple[str, ...]]) -> Iterator[str]:
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    for row in rows:
        name, *numbers, last = row
        cells = [name.ljust(widths[0]), *(n.rjust(w) for n, w in zip(numbers, widths[1:-1], strict=True)), last]
        yield "  ".join(cells).rstrip()


def _changed(inspected: Inspected) -> list[str]:
    changed = inspected.inspection.changed
    if not changed:
        return []
    rows = (line for one in changed for line in _limit(one, inspected.system))
    return ["Limits that were set:", *rows]


def _set_aside(inspected: Inspected) -> list[str]:
    rules = inspected.inspection.set_aside
    rows = (line for one in rules for line in wrapped(plain(f"{one.rule}: {one.reason}"), "  ", "    "))
    return [f"Rules set aside by {plain(rules[0].allowed_by)}:", *rows] if rules else []


def _limit(changed: Changed, system: str) -> list[str]:
    own, now = (show(value.si, value.unit, system) for value in (changed.standard, changed.value))
    milder = "MILDER than" if changed.milder else "stricter than"
    text = f"{changed.rule}, {changed.limit}: {now}, {milder} the rule's own {own}; set by {changed.set_by}"
    return wrapped(plain(text), "  ", "    ")
