"""What every report is made from."""

import re
from typing import NamedTuple

from riglint.outcome import Grade, Inspection, Result, Verdict
from riglint.reading.document import Document
from riglint.rulebook.book import Rulebook
from riglint.rulebook.sources import Sources
from riglint.solve.solution import Solution

_OWNED = re.compile(r"/?([\w-]+(?:/[\w-]+)*): (.+)")
_PATH = re.compile(r"[a-z_]+(?:/[a-z_]+)*")
_COLLECTIONS = frozenset({"bodies", "points", "redirects", "connectors", "lines", "pieces", "stages"})
_COUNTED = {"stages": "stage", "stops": "stop", "people": "person", "dampers": "damper"}

_VERDICTS = {
    Verdict.NOT_CLEAR: "do not pull as planned",
    Verdict.CANT_TELL: "do not pull until what is missing is known",
}


class Inspected(NamedTuple):
    """One plan, read, solved and inspected. `file` is as the user named it."""

    file: str
    document: Document
    solution: Solution
    inspection: Inspection
    rulebook: Rulebook
    sources: Sources

    @property
    def system(self) -> str:
        """The units to print."""
        return self.solution.rig.reports_in

    def place(self, pointer: str) -> str:
        """A place of the plan as `file:line:column`."""
        at = self.document.key_position(pointer)
        return f"{self.file}:{at.line}:{at.column}"


class Todo(NamedTuple):
    """A fact to find out: what, where in the plan, the gravest grade that hangs on it and the rules that ask."""

    grade: Grade
    what: str
    pointer: str
    rules: tuple[str, ...]


def verdict_words(inspection: Inspection) -> str:
    """What a verdict comes to: one that is clear with something found or left to find out says so."""
    if inspection.verdict is not Verdict.CLEAR:
        return _VERDICTS[inspection.verdict]
    if any(f.result in (Result.FAILED, Result.CANT_TELL) for f in inspection.findings):
        return "nothing found that halts the pull, but heed what is told below"
    return "nothing found against it"


def todos(inspected: Inspected, messages: dict[int, str]) -> tuple[Todo, ...]:
    """What could not be told, equal facts together; `messages` has the words, by place, of what names no fact."""
    facts: dict[tuple[str, str], tuple[Grade, set[str]]] = {}
    for index, finding in enumerate(inspected.inspection.findings):
        if finding.result is not Result.CANT_TELL or finding.waived:
            continue
        check = finding.check
        named = [fact_words(fact) for fact in check.missing] or [(messages[index], check.where.pointer)]
        for key in named:
            grade, rules = facts.get(key, (finding.grade, set()))
            rules.add(finding.rule)
            facts[key] = (min(grade, finding.grade, key=lambda g: g.rank), rules)
    rows = (Todo(grade, what, at, tuple(sorted(rules))) for (what, at), (grade, rules) in facts.items())
    return tuple(sorted(rows, key=lambda todo: (todo.grade.rank, todo.what, todo.pointer)))


def fact_words(fact: str) -> tuple[str, str]:
    """A missing fact in words, and where it would stand.

    `/redirects/ring_a/loss` and `redirects/ring_a: loss` are both ``ring_a: give `loss` ``; what a rule puts in
    its own words (`redirects/ring_a: tread of its groove`) keeps them.
    """
    owner = _OWNED.fullmatch(fact)
    if owner and _PATH.fullmatch(owner[2]):
        fact = f"/{owner[1]}/{owner[2]}"
    elif owner:
        return f"{', '.join(_named(owner[1].split('/')))}: {owner[2]}", f"/{owner[1]}"
    if not fact.startswith("/"):
        return fact, ""
    steps = [step.replace("~1", "/").replace("~0", "~") for step in fact.split("/")[1:]]
    *owners, key = steps
    named = ", ".join(_named(owners))
    return (f"{named}: give `{key}`" if named else f"give `{key}`"), fact


def _named(steps: list[str]) -> list[str]:
    kept = [step for step in steps if not step.isdigit() and step not in _COLLECTIONS]
    if not kept and len(steps) == 2 and steps[0] in _COUNTED:
        return [f"{_COUNTED[steps[0]]} {int(steps[1]) + 1}"]  # people count from one
    return kept or steps
