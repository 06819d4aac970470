"""A whole class: everybody's marks, the most common mistakes first, and what was handed in twice."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from riglint.debrief.debrief import Debrief, debrief
from riglint.debrief.handed import Handed
from riglint.debrief.same import content
from riglint.debrief.task import Task
from riglint.outcome import Grade, Result


class Mistake(NamedTuple):
    """A rule, and how many plans it failed on or couldn't tell about."""

    rule: str
    title: str
    grade: Grade
    failed: int
    untold: int


class Classroom(NamedTuple):
    """All plans in the order in which they were handed in."""

    title: str
    debriefs: tuple[Debrief, ...]
    mistakes: tuple[Mistake, ...]


def classroom(handed: Iterable[Handed], model: Handed | None, task: Task | None) -> Classroom:
    """Judge every plan of a class."""
    plans = tuple(handed)
    alike = twins((*plans, model) if model else plans)
    debriefs = tuple(debrief(one, model, task, _others(alike, one)) for one in plans)
    return Classroom(task.title if task else "plans without a task", debriefs, tuple(mistakes(debriefs)))


def twins(plans: Iterable[Handed]) -> dict[str, list[str]]:
    """Files by what they say, those that say the same together."""
    alike: dict[str, list[str]] = {}
    for one in plans:
        if said := _content(one):
            alike.setdefault(said, []).append(one.file)
    return alike


def _content(one: Handed) -> str:
    """Of a plan that could be read; else empty."""
    return content(one.plan, one.inspected.solution.rig) if one.plan and one.inspected else ""


def _others(alike: dict[str, list[str]], one: Handed) -> tuple[str, ...]:
    return tuple(file for file in alike.get(_content(one), ()) if file != one.file)


def mistakes(debriefs: Iterable[Debrief]) -> list[Mistake]:
    """By how many plans they are in, then by grade."""
    found: dict[str, Mistake] = {}
    for one in debriefs:
        for outcome in one.handed.inspected.inspection.outcomes if one.handed.inspected else ():
            if outcome.result not in (Result.FAILED, Result.CANT_TELL):
                continue
            grade = min((f.grade for f in outcome.findings), key=lambda g: g.rank, default=outcome.grade)
            old = found.get(outcome.rule) or Mistake(outcome.rule, outcome.title, grade, 0, 0)
            failed = outcome.result is Result.FAILED
            found[outcome.rule] = Mistake(
                old.rule, old.title, min(old.grade, grade, key=lambda g: g.rank), old.failed + failed,
                old.untold + (not failed),
            )  # fmt: skip
    return sorted(found.values(), key=lambda m: (-m.failed, m.grade.rank, -m.untold, m.rule))
