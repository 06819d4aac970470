"""What reports on many plans are made from: one plan's record, its short head, and the tally of all heads."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Final, NamedTuple

from riglint.outcome import Grade, Result
from riglint.report.figures import number

Record = dict[str, Any]

VERDICTS: Final = (
    "program failed", "can't be read", "not clear", "can't tell", "clear", "gone", "no plan",
)  # fmt: skip
"""Worst first."""
_GRADES: Final = {grade.value: grade.rank for grade in Grade}
_FAILED: Final = Result.FAILED.value
_MOST: Final = 255
_MOST_PERMILLE: Final = 65_535


def what_is_gone(result: Record) -> str:
    """What a finding of an earlier log said, without what would have put it right."""
    text = str((result.get("message") or {}).get("text", ""))
    remedy = (result.get("properties") or {}).get("remedy")
    return text.removesuffix(f" Put right: {remedy}")


def changes(record: Record) -> str:
    """How much of a plan's record changed since the earlier review, such as `1 new, 2 worse`; empty where nothing."""
    states = [finding.get("state") for finding in record["findings"]]
    counts = {"new": states.count("new"), "worse": states.count("worse"), "gone": len(record.get("gone", ()))}
    return ", ".join(f"{count} {state}" for state, count in counts.items() if count)


def fault(problem: Record, name: str) -> str:
    """One place that can't be read, with what would serve; `name` is the plan's."""
    at = f"{problem['file'] or name}:{problem['line']}:{problem['column']}"
    what = f"{problem['pointer']}: " if problem["pointer"] else ""
    return f"{at}: {what}{problem['what']}; {problem['serves']}"


class Reviewed(NamedTuple):
    """One plan of a review: its relative URI and name, its record and what it ends with, as an exit code."""

    uri: str
    name: str
    record: Record
    code: int

    def standing(self) -> Standing:
        """How many findings stand, not waived."""
        failed, cant_tell = dict.fromkeys(_GRADES, 0), 0
        for finding in self.record["findings"]:
            if finding["waived"]:
                continue
            if finding["result"] == _FAILED:
                failed[finding["grade"]] += 1
            else:
                cant_tell += 1
        return Standing(failed, cant_tell)


class Standing(NamedTuple):
    """Failures by grade, the gravest first, and can't-tells."""

    failed: dict[str, int]
    cant_tell: int


class OfRule(NamedTuple):
    """What one rule found in one plan, or in all. `rank` is the gravest grade's, `new` counts worse ones, too."""

    rule: str
    title: str
    rank: int
    failed: int
    cant_tell: int
    waived: int
    new: int
    plans: int = 1

    def plus(self, other: OfRule) -> OfRule:
        """Both together."""
        return OfRule(
            self.rule, self.title, min(self.rank, other.rank), self.failed + other.failed,
            self.cant_tell + other.cant_tell, self.waived + other.waived, self.new + other.new,
            self.plans + other.plans,
        )  # fmt: skip


class Head(NamedTuple):
    """What the whole needs to know of one plan; a smaller `order` is worse."""

    order: int
    verdict: str
    code: int
    rules: tuple[OfRule, ...]
    untested: tuple[str, ...]
    gone: int
    elsewhere: tuple[str, ...] = ()  # faults of other files, such as its kit, for which it can't be read

    @classmethod
    def read(
        cls, order: int, verdict: str, code: int, rules: list[Any], untested: list[str], gone: int, elsewhere: list[str]
    ) -> Head:
        """A head that was written as JSON."""
        found = tuple(OfRule(*rule) for rule in rules)
        return cls(order, verdict, code, found, tuple(untested), gone, tuple(elsewhere))


def head(one: Reviewed) -> Head:
    """The head of one plan."""
    record = one.record
    rules: dict[str, OfRule] = {}
    for finding in record["findings"]:
        found = _of_rule(finding)
        known = rules.get(found.rule)
        rules[found.rule] = known.plus(found)._replace(plans=1) if known else found
    untested = tuple(entry["rule"] for entry in record["untested"])
    elsewhere = tuple(fault(problem, one.name) for problem in record["problems"] if problem["file"])
    gone = len(record.get("gone", ()))
    return Head(_order(one), record["verdict"], one.code, tuple(rules.values()), untested, gone, elsewhere)


def _of_rule(finding: Record) -> OfRule:
    waived, failed = finding["waived"] is not None, finding["result"] == _FAILED
    counts = int(failed and not waived), int(not failed and not waived), int(waived)
    new = int(finding.get("state") in ("new", "worse"))
    return OfRule(finding["rule"], finding["title"], _GRADES[finding["grade"]], *counts, new)


def _order(one: Reviewed) -> int:
    """Verdict, then findings by grade, then can't-tells, then the greatest use, packed into 58 bits."""
    used = one.record["most_used"]
    counts = one.standing()
    use = int(min(_MOST_PERMILLE, 1000 * (number(used["use"]) or 0.0))) if used else 0
    verdict = 0 if one.record["untested"] else VERDICTS.index(one.record["verdict"])
    packed = 0
    for count in (*counts.failed.values(), counts.cant_tell):
        packed = packed << 8 | (_MOST - min(_MOST, count))
    return (verdict << 40 | packed) << 16 | (_MOST_PERMILLE - use)


@dataclass(slots=True)
class Tally:
    """All heads together. Grows with the number of rules, not of plans."""

    verdicts: dict[str, int] = field(default_factory=dict)
    rules: dict[str, OfRule] = field(default_factory=dict)
    untested: dict[str, int] = field(default_factory=dict)
    elsewhere: dict[str, int] = field(default_factory=dict)  # how many plans each fault of another file is for
    code: int = 0
    gone: int = 0

    def add(self, one: Head) -> None:
        """Count one plan."""
        self.verdicts[one.verdict] = self.verdicts.get(one.verdict, 0) + 1
        for found in one.rules:
            known = self.rules.get(found.rule)
            self.rules[found.rule] = known.plus(found) if known else found
        for rule in one.untested:
            self.untested[rule] = self.untested.get(rule, 0) + 1
        for text in one.elsewhere:
            self.elsewhere[text] = self.elsewhere.get(text, 0) + 1
        self.code = max(self.code, one.code)
        self.gone += one.gone

    @property
    def plans(self) -> int:
        """How many plans were looked at."""
        return sum(count for verdict, count in self.verdicts.items() if verdict not in ("gone", "no plan"))

    def by_rule(self) -> list[OfRule]:
        """Worst first: by grade, then by how much failed, then by name."""
        found = self.rules.values()
        return sorted(found, key=lambda r: (not r.failed, r.rank, -r.failed, -r.cant_tell, -r.waived, r.rule))

    @property
    def new(self) -> int:
        """Findings that are new or worse."""
        return sum(found.new for found in self.rules.values())


class Whole(NamedTuple):
    """What a report shows of the run as a whole: `about` has program, halting grade, rulebooks, rules and sources."""

    about: Record
    tally: Tally
    since: bool
    slice: str
