"""What each finding teaches, in three levels: where to look, what to ask oneself, and the working with its numbers.

The first two levels hold no figure, no remedy and no name of a rule: they would be the answer.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, Literal, NamedTuple

from riglint.debrief.loads import comes_about
from riglint.debrief.questions import WHERE, question
from riglint.outcome import Check, Finding, Result
from riglint.report.material import Inspected, Todo, todos
from riglint.report.numbers import of_the_limit, show
from riglint.report.words import compared, fill, listed, message, plain, sentence, working
from riglint.rulebook.rule import Rule
from riglint.rulebook.sources import citation

Level = Literal[1, 2, 3]
LABELS: Final = frozenset({"Principle", "Your plan", "Working", "To be right", "Put right", "Basis", "The rule's page"})
"""What a line of the working begins with."""
_JUDGED: Final = "How it is judged"
_UNSAID: Final = "What would a foreman have to know about these before he lets anybody pull?"


class Entry(NamedTuple):
    """A line of a debrief with what stands below it; `grade` where it has one."""

    text: str
    inner: tuple[str, ...] = ()
    grade: str = ""


def lessons(inspected: Inspected, level: Level) -> tuple[Entry, ...]:
    """One entry for each place where something failed, or with the working for each rule."""
    failed = [f for f in inspected.inspection.findings if f.result is Result.FAILED]
    if level == 3:
        groups: dict[tuple[str, str], list[Finding]] = {}
        for finding in failed:
            groups.setdefault((finding.grade.value, finding.rule), []).append(finding)
        return tuple(_working(group, inspected) for group in groups.values())
    places: dict[tuple[str, str], list[Finding]] = {}
    for finding in failed:
        places.setdefault((finding.check.where.component, finding.check.where.pointer), []).append(finding)
    return tuple(_hint(group, inspected, level) for group in places.values())


def guards_of(inspected: Inspected, slug: str) -> str:
    """What a rule looks at, in words."""
    rule = inspected.rulebook.rule(slug)
    return WHERE[rule.guards] if rule else "the plan"


def _hint(group: list[Finding], inspected: Inspected, level: Level) -> Entry:
    first = group[0]
    component = plain(first.check.where.component)
    name = f"the {component}" if component == first.check.where.kind else component
    where = dict.fromkeys(_but(guards_of(inspected, finding.rule), name) for finding in group)
    text = f"Look at {name} ({inspected.place(first.check.where.pointer)})"
    text += f", with an eye to {listed(where)}."
    questions = dict.fromkeys(question(finding.rule) for finding in group) if level == 2 else ()
    return Entry(text, tuple(questions), first.grade.value)


def _but(where: str, name: str) -> str:
    """What a rule looks at, without the name of what is looked at before it: `its drum, its pull and its brake`."""
    return where.removeprefix(f"{name}: ")


def _working(group: list[Finding], inspected: Inspected) -> Entry:
    first = group[0]
    rule = inspected.rulebook.rule(first.rule)
    inner = [f"Principle: {' '.join(_principle(rule))}"] if rule else []
    for finding in group:
        inner += _one(finding, inspected)
    remedies = dict.fromkeys(fill(f.check.remedy, f.check, inspected.system) for f in group)
    inner += [f"Put right: {sentence(plain(remedy))}" for remedy in remedies if remedy]
    for basis in dict.fromkeys(basis for finding in group for basis in finding.basis):
        inner.append(f"Basis: {sentence(citation(basis, inspected.sources))}")
    inner.append(f"The rule's page: riglint rulebook {first.rule}")
    return Entry(f"{first.title} ({first.rule})", tuple(inner), first.grade.value)


def _principle(rule: Rule | None) -> Iterator[str]:
    """The beginning of the rule's page, up to how it is judged."""
    for part in rule.page.split("\n\n")[:2] if rule else ():
        if not part.startswith(_JUDGED):
            yield " ".join(part.split())


def _one(finding: Finding, inspected: Inspected) -> Iterator[str]:
    check = finding.check
    place = inspected.place(check.where.pointer)
    waived = f" {finding.waived.words}" if finding.waived else ""
    yield f"Your plan: {sentence(message(check, inspected.system))} ({place}){waived}"
    load = comes_about(check, inspected.solution, inspected.system)
    yield from (f"Working: {plain(text)}" for text in (load,) if text)
    yield from (f"Working: {working(step, inspected.system)}" for step in check.working)
    yield from takes(check, inspected.system)


def takes(check: Check, system: str) -> Iterator[str]:
    """What is compared, and how far it is from right: `18.4 kN more than may be`."""
    measured, limit = check.measured, check.limit
    if measured is None or limit is None:
        return
    texts, gap = compared(check, system), show(abs(measured - limit), check.unit, system)
    if measured > limit:
        use = f", {of_the_limit(check.use)}" if check.use is not None else ""
        yield f"To be right: no more than {texts[1]}. Yours is {texts[0]}{use}: {gap} too much."
    elif measured < limit:
        yield f"To be right: no less than {texts[1]}. Yours is {texts[0]}: {gap} too little."


def unsaid(inspected: Inspected, level: Level) -> tuple[Entry, ...]:
    """What the student left unsaid: whom it is about, and with the working which facts, and who asks for them."""
    texts = {
        i: sentence(message(f.check, inspected.system)).rstrip(".")
        for i, f in enumerate(inspected.inspection.findings)
        if f.result is Result.CANT_TELL and not f.check.missing
    }
    rows = todos(inspected, texts)
    if level == 3:
        return tuple(Entry(f"{plain(row.what)}{_at(inspected, row.pointer)}; asked by {listed(row.rules)}",
                           grade=row.grade.value) for row in rows)  # fmt: skip
    owners: dict[str, Todo] = {}
    for row in rows:
        owners.setdefault(_owner(row.pointer), row)
    places = ((plain(name), _at(inspected, row.pointer)) for name, row in owners.items())
    found = [Entry(f"Something isn't said about {name}{at}.") for name, at in places]
    return (*found, Entry(_UNSAID)) if found and level == 2 else tuple(found)


def _at(inspected: Inspected, pointer: str) -> str:
    return f" ({inspected.place(pointer)})" if pointer else ""


_COLLECTIONS: Final = frozenset({"bodies", "points", "redirects", "connectors"})


def _owner(pointer: str) -> str:
    """What a missing fact belongs to: the name of the gear, or the part of the plan."""
    steps = [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]
    if steps[:1] == ["stages"]:
        steps = steps[2:]
    if not steps:
        return "the plan"
    if steps[0] in _COLLECTIONS and len(steps) > 1:
        return steps[1]
    if steps[0] == "lines" and len(steps) > 1:
        return steps[4] if len(steps) > 4 and steps[2] == "pieces" else steps[1]
    return f"the {steps[0]}"


def right(inspected: Inspected, level: Level) -> tuple[Entry, ...]:
    """What is right: rules that passed, by what they look at. Before the working not by name: what is missing from
    the names would be the answer.
    """
    found: dict[str, list[str]] = {}
    partly: set[str] = set()
    for outcome in inspected.inspection.outcomes:
        if outcome.result is Result.PASSED:
            found.setdefault(guards_of(inspected, outcome.rule), []).append(outcome.title)
        elif outcome.result is not Result.INAPPLICABLE:
            partly.add(guards_of(inspected, outcome.rule))
    rows = ((where, where[:1].upper() + where[1:], titles) for where, titles in sorted(found.items()))
    if level == 3:
        return tuple(Entry(f"{text}: {'; '.join(titles)}") for _, text, titles in rows)
    return tuple(Entry(f"{text} ({'in part' if where in partly else 'all of it'})") for where, text, _ in rows)
