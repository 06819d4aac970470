"""A review as text: how many plans, the plans and the rules, worst first, then what was found in each plan."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from riglint.outcome import Grade, Result
from riglint.report.reviewed import VERDICTS, Record, Reviewed, Tally, Whole, changes, fault, what_is_gone
from riglint.report.spool import Spool
from riglint.report.words import for_day, listed, wrapped
from riglint.report.words import plain as _plain

_WORDS: Final = {"not clear": "NOT CLEAR", "can't tell": "CAN'T TELL", "clear": "CLEAR"}
_STATES: Final = {"new": "NEW: ", "worse": "WORSE: ", "better": "better: "}
_CAUTION: Final = (
    "Arithmetic on what the plans say, not leave to pull. Makers' ratings and instructions, local rules and the"
    " licensed person in charge on the ground come first."
)
_COLUMNS: Final = "  verdict         DANGER WARN CAUT NOTE  ask  use      plan"


class TextForm:
    """The form `text`. Sections: the plan's line in the summary, and what was found."""

    def part(self, one: Reviewed, rule_index: dict[str, int]) -> tuple[str, ...]:
        """One plan's line and findings."""
        if one.record["verdict"] == "no plan":
            return "", ""
        lines = list(_found(one))
        head = f"{plain(one.name)}: {_word(one.record)}" + (f", {plain(t)}" if (t := one.record["title"]) else "")
        return _line(one) + "\n", "\n".join(["", *wrapped(head), *lines, ""]) if lines else ""

    def whole(self, whole: Whole, spool: Spool) -> Iterator[str]:
        """The report, piece by piece."""
        yield "\n".join([*_first(whole), "", "By plan, worst first:", _COLUMNS, ""])
        yield from spool.sorted(0)
        yield "\n".join(["", *_by_rule(whole.tally), ""])
        yield from spool.sorted(1)
        yield "\n" + "\n".join(wrapped(_CAUTION)) + "\n"


def plain(text: str) -> str:
    """On one line, with nothing in it that a terminal would obey. Nearly every text is so from the start."""
    return text if text.isprintable() else _plain(text)


def _word(record: Record) -> str:
    verdict: str = record["verdict"]
    return "RULES FAILED" if record["untested"] else _WORDS.get(verdict, verdict.upper())


def _first(whole: Whole) -> list[str]:
    tally = whole.tally
    counts = [f"{n} {verdict}" for verdict in VERDICTS if (n := tally.verdicts.get(verdict)) and verdict != "no plan"]
    part = f", part {whole.slice}" if whole.slice else ""
    day = for_day(whole.about["day"])
    plans = "plan" if tally.plans == 1 else "plans"
    lines = wrapped(f"{tally.plans} {plans} reviewed{day}{part}: {listed(counts) or 'none'}."
                    f" Halts at {whole.about['halting_grade']} and above.")  # fmt: skip
    if whole.since:
        lines += wrapped(f"Since the earlier review: {tally.new} new or worse, {tally.gone} gone.")
    if others := tally.verdicts.get("no plan"):
        lines += wrapped(f"{others} other YAML {'file is no plan' if others == 1 else 'files are no plans'}.")
    for text, count in sorted(tally.elsewhere.items()):
        lines += ["", f"{count} {'plan' if count == 1 else 'plans'} can't be read for a fault of another file:"]
        lines.append(f"  {plain(text)}")
    for rule, count in sorted(tally.untested.items()):
        lines += wrapped(f"Rule {rule} broke and was not applied to {count} {'plan' if count == 1 else 'plans'}.")
    return lines


def _line(one: Reviewed) -> str:
    """One plan's line of the summary."""
    record = one.record
    counts = one.standing()
    shown = [str(n) if n else "." for n in (*counts.failed.values(), counts.cant_tell)]
    numbers = "{:>6} {:>4} {:>4} {:>4} {:>4}".format(*shown)
    used = record["most_used"]
    last = f"  ({plain(used['component'])} {used['percent']})" if used else ""
    use = used["percent"] if used else ""
    since = f"  {changed}" if (changed := changes(record)) else ""
    return f"  {_word(record):<15} {numbers}  {use:<7}  {plain(one.name)}{last}{since}".rstrip()


def _by_rule(tally: Tally) -> list[str]:
    lines = ["By rule, worst first:", "  grade    failed can't tell waived  plans  rule"]
    for found in tally.by_rule():
        grade = list(Grade)[found.rank].value
        numbers = f"{found.failed or '.':>6} {found.cant_tell or '.':>10} {found.waived or '.':>6} {found.plans:>6}"
        lines.append(f"  {grade:<8} {numbers}  {found.rule}: {plain(found.title)}")
    if tally.rules:
        return lines
    unread = any(tally.verdicts.get(verdict) for verdict in ("program failed", "can't be read"))
    return [f"By rule: nothing found{' in what could be read' if unread else ''}."]


def _found(one: Reviewed) -> Iterator[str]:
    """A line each, not broken, so that editors and search tools find their way from it."""
    record, name = one.record, plain(one.name)
    if record["reason"]:
        yield f"  {name}: {plain(record['reason'])}"
    for problem in record["problems"]:
        if problem["file"]:
            yield plain(
                f"  {problem['file']}:{problem['line']}:{problem['column']}: a fault of this file, told at the top"
            )
        else:
            yield plain(f"  {fault(problem, one.name)}")
    for broke in record["untested"]:
        yield f"  {name}: rule {broke['rule']} broke: {plain(broke['reason'])}"
    for finding in record["findings"]:
        yield plain(_finding(finding, one.name))
        for remedy in finding.get("remedies", ()):
            yield plain(f"      would put it right: {remedy['says']} Then {remedy['then']}.")
    for gone in record.get("gone", ()):
        text = what_is_gone(gone)
        yield plain(f"  {name}: GONE: {gone.get('ruleId', '')}: {text}")


def _finding(finding: Record, name: str) -> str:
    line, column = finding["region"][:2]
    word = "" if finding["result"] == Result.FAILED.value else ", can't tell"
    state = _STATES.get(finding.get("state", ""), "")
    more = "; ".join(_more(finding))
    text = f"  {name}:{line}:{column}: {state}{finding['grade']}{word}: {finding['rule']}: {finding['message']}"
    return f"{text} [{more}]" if more else text


def _more(finding: Record) -> Iterator[str]:
    if finding["missing"]:
        yield f"not stated: {listed(finding['missing'])}"
    if waived := finding["waived"]:
        until = f" until {waived['until']}" if waived["until"] else ""
        yield f"waived by {waived['allowed_by']}{until}: {waived['reason']}"
