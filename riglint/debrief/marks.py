"""Marks: what each rule and each goal costs, and what is left."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from riglint.debrief.goals import Goal
from riglint.debrief.handed import Handed
from riglint.debrief.task import Marking, Task
from riglint.outcome import Grade, Outcome, Result
from riglint.reading.document import Document
from riglint.reading.nearest import nearest
from riglint.reading.problems import Problem, quoted
from riglint.rulebook.book import Rulebook

_HALF = 0.5


class Lost(NamedTuple):
    """What was lost for one thing: a rule by its name, or a goal."""

    marks: float
    result: Result
    rule: str  # empty for a goal
    says: str  # the rule's title, or the goal
    why: str = ""


class Marked(NamedTuple):
    """The marks of one plan. `passed` is None where the task sets no pass mark; it takes that, and every goal."""

    full: float
    lost: tuple[Lost, ...]
    earned: float
    passed: bool | None


def marked(task: Task, handed: Handed, reached: tuple[Goal, ...]) -> Marked:
    """What is left of the full marks; a plan that can't be read has none."""
    marking = task.marks
    if handed.inspected is None:
        why = "it can't be read" if handed.unread else handed.broke
        all_of_it = Lost(marking.full, Result.FAILED, "", "a plan that can be read", why)
        return _left(marking, (all_of_it,), all_reached=False)
    lost = [*_for_goals(marking, reached), *_for_rules(marking, handed.inspected.inspection.outcomes)]
    all_reached = all(goal.result is Result.PASSED for goal in reached)
    lost.sort(key=lambda one: (-one.marks, one.rule, one.says))
    return _left(marking, tuple(lost), all_reached=all_reached)


def unknown_rules(document: Document, task: Task, book: Rulebook) -> Iterator[Problem]:
    """Marks are for rules that there are: each that isn't one."""
    known = {rule.slug for rule in book.rules} | {broken.slug for broken in book.broken}
    for rule in task.marks.rules:
        if rule not in known:
            near = nearest(rule, known)
            serves = f"did you mean `{near}`?" if near else "`riglint rulebook` lists the rules"
            yield document.problem(f"/marks/rules/{rule}", f"{quoted(rule)} is no rule", serves, key=True)


def _left(marking: Marking, lost: tuple[Lost, ...], *, all_reached: bool) -> Marked:
    earned = max(0.0, marking.full - sum(one.marks for one in lost))
    passed = None if marking.pass_mark is None else all_reached and earned >= marking.pass_mark
    return Marked(marking.full, lost, earned, passed)


def _share(marking: Marking, result: Result) -> float:
    """All for what fails; for what can't be told the share that the task says."""
    if result is Result.FAILED:
        return 1.0
    return marking.unsaid.high if marking.unsaid else _HALF


def _for_goals(marking: Marking, reached: tuple[Goal, ...]) -> Iterator[Lost]:
    for goal in reached:
        if goal.result is not Result.PASSED:
            yield Lost(marking.goal * _share(marking, goal.result), goal.result, "", goal.what, goal.why)


def _for_rules(marking: Marking, outcomes: tuple[Outcome, ...]) -> Iterator[Lost]:
    for outcome in outcomes:
        costs = [_cost(marking, outcome, result) for result in (Result.FAILED, Result.CANT_TELL)]
        cost = max(costs, key=lambda one: one[0])
        if cost[0] > 0.0:
            yield Lost(cost[0], cost[1], outcome.rule, outcome.title)


def _cost(marking: Marking, outcome: Outcome, result: Result) -> tuple[float, Result]:
    """What a rule costs for its findings of one result, by the gravest grade among them. Waived ones cost nothing."""
    grades = [f.grade for f in outcome.findings if f.result is result and not f.waived]
    if not grades:
        return 0.0, result
    gravest: Grade = min(grades, key=lambda grade: grade.rank)
    return marking.rules.get(outcome.rule, marking.lost_by(gravest)) * _share(marking, result), result
