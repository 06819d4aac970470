"""One plan's debrief, put together: what every form of it shows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from riglint.debrief.compare import Respect, better_rules, compare
from riglint.debrief.goals import Goal, goals
from riglint.debrief.handed import Handed
from riglint.debrief.lessons import Entry, Level, guards_of, lessons, right, unsaid
from riglint.debrief.marks import Lost, Marked, marked
from riglint.debrief.task import Task
from riglint.outcome import Grade, Result, Verdict
from riglint.report.material import Inspected
from riglint.report.numbers import fixed
from riglint.report.words import plain, sentence

_VERDICTS = {
    Verdict.NOT_CLEAR: "nobody should pull with it as it is",
    Verdict.CANT_TELL: "whether anybody may pull with it can't be told yet",
}
_RESULTS = {Result.PASSED: "reached", Result.FAILED: "missed", Result.CANT_TELL: "can't be told"}


class Debrief(NamedTuple):
    """All that is said of one plan."""

    handed: Handed
    goals: tuple[Goal, ...] = ()
    marked: Marked | None = None
    respects: tuple[Respect, ...] = ()
    better_rules: tuple[str, ...] = ()
    same_as: tuple[str, ...] = ()


class Section(NamedTuple):
    """A heading with its entries."""

    heading: str
    entries: tuple[Entry, ...]


def debrief(handed: Handed, model: Handed | None, task: Task | None, same_as: tuple[str, ...] = ()) -> Debrief:
    """Judge one plan against the task and the model plan."""
    reached = goals(task, handed) if task else ()
    own, other = handed.inspected, model.inspected if model else None
    marks = marked(task, handed, reached) if task else None
    if own is None or other is None:
        return Debrief(handed, reached, marks, same_as=same_as)
    return Debrief(handed, reached, marks, compare(own, other), better_rules(own, other), same_as)


def verdict(one: Debrief, inspected: Inspected) -> str:
    """The verdict in a sentence, which is that of the rules: a goal that is missed is told beside it."""
    found = inspected.inspection.verdict
    words = _VERDICTS.get(found) or _clear(inspected)
    missed = any(goal.result is not Result.PASSED for goal in one.goals)
    beside = ", but not every goal of the task is reached" if missed and found is Verdict.CLEAR else ""
    return f"{found.value.upper()}: {words}{beside}."


def _clear(inspected: Inspected) -> str:
    if inspected.inspection.findings:
        return "nothing was found that halts the pull, but heed what is told below"
    return "nothing was found against it"


def sections(one: Debrief, level: Level) -> Iterator[Section]:
    """Everything in the order in which it is read; empty ones are left out."""
    if one.same_as:
        twins = (Entry(f"The same plan as {plain(name)}, in other words.") for name in one.same_as)
        yield Section("Handed in twice", tuple(twins))
    inspected = one.handed.inspected
    if inspected is None:
        yield Section("It can't be read", tuple(_unread(one.handed)))
        return
    for outcome in inspected.inspection.untested:
        yield Section("A rule broke", (Entry(f"{outcome.rule} was not applied: {plain(outcome.reason)}"),))
    headings = {1: "Where to look", 2: "What to ask yourself", 3: "What was found, and how it comes about"}
    found = (
        Section(headings[level], lessons(inspected, level)),
        Section("Left unsaid", unsaid(inspected, level)),
        Section("Right: these rules found nothing", right(inspected, level)),
        Section("Goals", tuple(_goal(goal, level) for goal in one.goals)),
        Section("Against the model plan", tuple(_differences(one, level))),
        Section("As good as the model plan, or better", tuple(_as_good(one, level))),
        Section("Marks", tuple(_marks(one.marked, inspected, level)) if one.marked else ()),
    )
    yield from (section for section in found if section.entries)


def _unread(handed: Handed) -> Iterator[Entry]:
    if handed.unread:
        yield from (Entry(plain(problem.text())) for problem in handed.unread.problems)
    else:
        yield Entry(plain(handed.broke))


def _goal(goal: Goal, level: Level) -> Entry:
    why = (plain(sentence(goal.why)),) if goal.why and level == 3 else ()
    return Entry(f"{_RESULTS[goal.result]}: {goal.what}", why)


def _differences(one: Debrief, level: Level) -> Iterator[Entry]:
    for respect in one.respects:
        if respect.standing not in ("differs", "worse", "can't tell"):
            continue
        if level == 3:
            yield Entry(plain(f"{respect.name}: here {respect.own}; model plan {respect.model}"))
        else:
            yield Entry(f"Not as in the model plan: {respect.name}.", (respect.ask,) if level == 2 else ())


def _as_good(one: Debrief, level: Level) -> Iterator[Entry]:
    for respect in one.respects:
        if respect.standing in ("same", "better") and not (respect.own == respect.model == "can't be told"):
            figures = f": here {respect.own}; model plan {respect.model}" if level == 3 else ""
            word = "better" if respect.standing == "better" else "as good" if not respect.means else "the same"
            yield Entry(plain(f"{word}: {respect.name}{figures}"))
    if one.better_rules:
        titles = plain("; ".join(one.better_rules))
        yield Entry(f"better: rules that found something in the model plan, and nothing here: {titles}")


def marks_words(found: Marked) -> str:
    """`72 of 100, passed`."""
    passed = "" if found.passed is None else ", passed" if found.passed else ", not passed"
    return f"{fixed(found.earned, 1)} of {fixed(found.full, 1)}{passed}"


def reason(lost: Lost) -> str:
    """What was lost and why, in a line."""
    name = f"{lost.says} ({lost.rule})" if lost.rule else f"the goal `{lost.says}`"
    how = "can't be told" if lost.result is Result.CANT_TELL else "failed" if lost.rule else "missed"
    why = f" ({lost.why})" if lost.why else ""
    return plain(f"{fixed(lost.marks, 1)} for {name}, {how}{why}")


def _marks(found: Marked, inspected: Inspected, level: Level) -> Iterator[Entry]:
    yield Entry(f"{marks_words(found)}.")
    if level == 3:
        yield from (Entry(f"lost {reason(lost)}") for lost in found.lost)
        return
    by_what: dict[str, float] = {}
    for lost in found.lost:
        what = guards_of(inspected, lost.rule) if lost.rule else "the goals of the task"
        by_what[what] = by_what.get(what, 0.0) + lost.marks
    for what, marks in by_what.items():
        yield Entry(f"lost {fixed(marks, 1)} for {what}")


def gravest(inspected: Inspected) -> Grade | None:
    """The gravest grade that something failed at."""
    grades = [f.grade for f in inspected.inspection.findings if f.result is Result.FAILED]
    return min(grades, key=lambda grade: grade.rank, default=None)
