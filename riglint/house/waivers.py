"""Waivers applied to what an inspection found. What is waived stays in sight, and a DANGER is never waived."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from fnmatch import fnmatchcase
from typing import Final, NamedTuple

from riglint.house.file import WaiverEntry
from riglint.kit.dates import parse_day
from riglint.outcome import Basis, Check, Finding, Grade, Inspection, Outcome, Result, Waiver, Where
from riglint.rulebook.inspect import verdict
from riglint.rulebook.judge import Words, holds
from riglint.solve.solution import Solution

RULE: Final = "house-files"
_TITLE: Final = "House files and their waivers"
_BASIS: Final = Basis(
    "common practice", "a waiver names a rule, a component and a last day, is kept up, and never covers a DANGER"
)
_NEAREST: Final = Basis("common practice", "of house files the nearest counts alone, and others are told of")


class PlanName(NamedTuple):
    """How waivers may name a plan: its file from the house file's folder on, and its title."""

    file: str
    title: str


def apply_waivers(
    inspection: Inspection,
    solution: Solution,
    waivers: Sequence[WaiverEntry],
    plan: PlanName,
    today: date | None,
    set_aside: tuple[Waiver, ...] = (),
    passed_over: Sequence[str] = (),
) -> Inspection:
    """The inspection with waived findings marked, findings on the waivers themselves, and the verdict anew.

    `today` is told, never looked up: without it no waiver is good. `passed_over` are house files that don't count.
    """
    mine = [_Judged(entry, today, inspection, solution) for entry in waivers if _concerns(entry.plan, plan)]
    if not mine and not set_aside and not passed_over:
        return inspection
    good = [one.waiver for one in mine if one.good]
    outcomes = [_marked(outcome, good, set_aside) for outcome in inspection.outcomes]
    of_waivers = [check for one in mine for check in one.checks()]
    own = _own_outcome([*of_waivers, *_too_grave(inspection, set_aside), *map(_unheard, passed_over)])
    told = sorted([*outcomes, *own], key=lambda o: o.rule)
    findings = sorted((f for o in told for f in o.findings), key=lambda f: f.order)
    standing = [f for f in findings if f.waived is None]
    found = verdict(solution, outcomes, standing, inspection.halting)  # a check of a waiver is no check of the rig
    return inspection._replace(outcomes=tuple(told), findings=tuple(findings), verdict=found, set_aside=set_aside)


def _marked(outcome: Outcome, good: list[Waiver], set_aside: tuple[Waiver, ...]) -> Outcome:
    return outcome._replace(findings=tuple(_waived(f, [*good, *set_aside]) for f in outcome.findings))


def _waived(finding: Finding, good: Sequence[Waiver]) -> Finding:
    if finding.grade is Grade.DANGER:
        return finding
    return finding._replace(waived=next((w for w in good if _covers(w, finding)), None))


def _covers(waiver: Waiver, finding: Finding) -> bool:
    return waiver.rule == finding.rule and (waiver.sets_aside or waiver.component in _names(finding.check.where))


def _names(where: Where) -> tuple[str, ...]:
    return where.name, where.component, where.pointer


class _Judged:
    """One waiver that concerns the plan, held against what was found."""

    def __init__(self, entry: WaiverEntry, today: date | None, inspection: Inspection, solution: Solution) -> None:
        self.waiver = Waiver(entry.rule, entry.component, entry.reason, entry.allowed_by, entry.until)
        self._today = today
        self._last = parse_day(entry.until)
        self.good = today is not None and self._last is not None and today <= self._last
        self._covered = [f for f in inspection.findings if _covers(self.waiver, f)]
        self._outcome = next((o for o in inspection.outcomes if o.rule == entry.rule), None)
        self._pointer = _pointer(entry.component, inspection, solution)

    def checks(self) -> Iterator[Check]:
        """What is wrong with the waiver itself."""
        if self._outcome is None:
            yield self._check(_NO_RULE, Grade.NOTICE)
        elif self._pointer is None:
            yield self._check(_NO_COMPONENT, Grade.NOTICE)
        elif any(f.grade is Grade.DANGER for f in self._covered):
            yield self._check(_DANGER, Grade.WARNING)
        elif self.good and not self._covered and self._outcome.result is not Result.UNTESTED:
            yield self._check(_UNUSED, Grade.NOTICE)
        if not self.good:
            yield self._check(self._expired(), Grade.CAUTION)

    def _expired(self) -> Words:
        if self._last is None:
            return _NO_DAY
        return _EXPIRED if self._today else _NO_TODAY

    def _check(self, words: Words, grade: Grade) -> Check:
        waiver = self.waiver
        where = Where("waiver", f"{waiver.rule} on {waiver.component}", self._pointer or "")
        terms = (("until", waiver.until), ("who", waiver.allowed_by), ("ruled", waiver.rule))
        return holds(False, where, words, terms=terms, grade=grade, basis=_BASIS)


def _pointer(component: str, inspection: Inspection, solution: Solution) -> str | None:
    """Where a waiver's component stands in the plan; None if nothing there has that name."""
    checked = (check.where for outcome in inspection.outcomes for check in outcome.checks)
    rigged = (Where(c.kind, c.name, c.pointer) for stage in solution.stages for c in stage.components)
    return next((w.pointer for wheres in (checked, rigged) for w in wheres if component in _names(w)), None)


_EXPIRED = Words(
    "the {component} ran out after {until}; {who} had allowed it", "",
    remedy="Put right what it let pass, or have it allowed anew; then take it out or renew it in the house file",
)  # fmt: skip
_NO_DAY = Words(
    "the last day of the {component}, {until}, is no day, so it counts as gone by", "",
    remedy="Write the last day in the house file as year, month and day, such as 2026-12-31",
)  # fmt: skip
_NO_TODAY = Words(
    "the {component} holds until {until}, but today's date was not given, so it doesn't count", "",
    remedy="Give the date of the pull",
)  # fmt: skip
_DANGER = Words(
    "the {component} tries to let a DANGER pass, which no one can allow", "",
    remedy="Put right what {ruled} found, and take the waiver out of the house file",
)  # fmt: skip
_UNUSED = Words(
    "nothing was found that the {component} lets pass", "", remedy="Take it out of the house file"
)  # fmt: skip
_NO_RULE = Words(
    "the {component} is for a rule that is in none of the rulebooks", "",
    remedy="Mend the rule's name in the house file, or take the waiver out",
)  # fmt: skip
_NO_COMPONENT = Words(
    "the {component} is for something that is not in this plan", "",
    remedy="Mend the component's name in the house file, or take the waiver out",
)  # fmt: skip
_UNHEARD = Words(
    "the {component} doesn't count here: only the nearest one does", "",
    remedy="Write into the nearest one what is to hold of it, and `alone: true`",
)  # fmt: skip
_ASIDE = Words(
    "{component} is set aside by {who}, and it found a DANGER, which can't be set aside", "",
    remedy="Put right what {name} found",
)  # fmt: skip
_ASIDE_UNTOLD = Words(
    "{component} is set aside by {who}, and it can't rule a DANGER out, which can't be set aside", "",
    remedy="Find out what {name} asks for",
)  # fmt: skip


def _too_grave(inspection: Inspection, set_aside: tuple[Waiver, ...]) -> Iterator[Check]:
    for one in set_aside:
        grave = [f for f in inspection.findings if f.grade is Grade.DANGER and _covers(one, f)]
        if grave:
            where = Where("rule", one.rule, "")
            words = _ASIDE if any(f.result is Result.FAILED for f in grave) else _ASIDE_UNTOLD
            yield holds(False, where, words, terms=(("who", one.allowed_by),), grade=Grade.WARNING, basis=_BASIS)


def _unheard(file: str) -> Check:
    """Its limits may be sterner than those that count."""
    return holds(False, Where("house file", file, ""), _UNHEARD, grade=Grade.WARNING, basis=_NEAREST)


def _own_outcome(checks: list[Check]) -> list[Outcome]:
    if not checks:
        return []
    findings = tuple(
        Finding(RULE, _TITLE, check.grade or Grade.NOTICE, check.result, check, (check.basis or _BASIS,))
        for check in checks
    )
    return [Outcome(RULE, _TITLE, Grade.WARNING, Result.FAILED, tuple(checks), findings)]


def _concerns(pattern: str, plan: PlanName) -> bool:
    """Whether a waiver's plan is this one, by title or by the file's name with `*` and `**`."""
    return pattern == plan.title or (plan.file != "" and _matches(pattern.split("/"), plan.file.split("/")))


def _matches(patterns: list[str], names: list[str]) -> bool:
    if not patterns:
        return not names
    if patterns[0] == "**":
        return any(_matches(patterns[1:], names[i:]) for i in range(len(names) + 1))
    return bool(names) and fnmatchcase(names[0], patterns[0]) and _matches(patterns[1:], names[1:])
