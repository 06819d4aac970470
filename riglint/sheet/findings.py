"""Findings with what would put each right, and what is still to be found out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from riglint.outcome import Finding, Grade, Result
from riglint.remedy.model import Remedy
from riglint.report.material import Inspected
from riglint.report.numbers import of_the_limit, show
from riglint.report.text_remedies import comes_of, says
from riglint.report.words import fill, listed, message, sentence, working
from riglint.rulebook.sources import citation
from riglint.sheet.markup import Html, el
from riglint.sheet.words import CASES, anchor, part, signal, to_find_out

Tried = dict[int, list[Remedy]]  # by the finding's index; empty: nothing was tried


def findings(inspected: Inspected, remedies: Sequence[Remedy] | None = None) -> Html:
    """What failed, by grade and rule, most serious first; then what can't be told. None: no remedies were tried."""
    found = inspected.inspection.findings
    failed = [i for i, f in enumerate(found) if f.result is Result.FAILED]
    tried = {} if remedies is None else {i: [r for r in remedies if r.finding == i] for i in failed}
    groups = [_group(group, inspected, tried) for group in _groups(failed, found)]
    nothing = None if groups else el("p", "Nothing failed. What can't be told stands below." if _todo(inspected) else
                                     "Nothing failed, and nothing is left to find out.")  # fmt: skip
    return el("section", part("Findings"), nothing, groups, _untested(inspected), _todo(inspected),
              _changed(inspected), id="findings")  # fmt: skip


def _groups(failed: Iterable[int], found: Sequence[Finding]) -> list[list[int]]:
    groups: dict[tuple[Grade, str], list[int]] = {}
    for index in failed:
        groups.setdefault((found[index].grade, found[index].rule), []).append(index)
    return list(groups.values())


def _group(indices: list[int], inspected: Inspected, tried: Tried) -> Html:
    group = [inspected.inspection.findings[index] for index in indices]
    first = group[0]
    remedies = dict.fromkeys(filter(None, (fill(f.check.remedy, f.check, inspected.system) for f in group)))
    return el(
        "article",
        el("h3", signal(first.grade), " ", first.title, " ", el("small", first.rule), id=anchor(first)),
        el("ul", [_one(index, inspected, tried) for index in indices]),
        [el("p", el("strong", "Put right: "), sentence(remedy), class_="remedy") for remedy in remedies],
        el("p", el("strong", "Basis: "), _basis(group, inspected), class_="basis"),
        _workings(group, inspected),
        class_="finding",
    )


def _basis(group: list[Finding], inspected: Inspected) -> str:
    """The first basis in full; the rule's page has the others."""
    first, *others = dict.fromkeys(basis for finding in group for basis in finding.basis)
    text = sentence(citation(first, inspected.sources))
    return f"{text} {len(others)} more: riglint rulebook {group[0].rule}." if others else text


def _one(index: int, inspected: Inspected, tried: Tried) -> Html:
    finding = inspected.inspection.findings[index]
    check = finding.check
    notes = [CASES.get(check.where.case, check.where.case)] if check.where.case else []
    if check.use is not None:
        notes.append(of_the_limit(check.use))
    notes.append(inspected.place(check.where.pointer))
    waived = el("p", el("strong", finding.waived.words)) if finding.waived else None
    small = el("small", "; ".join([*notes, *_related(finding, inspected)]))
    return el("li", sentence(message(check, inspected.system)), " ", small, waived, _tried(tried.get(index), inspected))


def _tried(remedies: list[Remedy] | None, inspected: Inspected) -> Html | None:
    """Changes under which the finding is gone, each with what else it does."""
    if remedies is None:
        return None
    if not remedies:
        return el("p", "Nothing that was tried on a copy of the plan puts this right.", class_="tried")
    rows = [el("li", sentence(says(r, inspected.system)), " ", el("small", comes_of(r, inspected))) for r in remedies]
    return el("div", el("p", el("strong", "Tried on a copy of the plan, and puts it right:")), el("ul", rows),
              class_="tried")  # fmt: skip


def _related(finding: Finding, inspected: Inspected) -> list[str]:
    """Other places that matter, those with one note together."""
    noted: dict[str, list[str]] = {}
    for pointer, note in finding.check.where.related:
        noted.setdefault(note, []).append(inspected.place(pointer))
    return [f"{note}: {listed(places)}" for note, places in noted.items()]


def _workings(group: list[Finding], inspected: Inspected) -> Html | None:
    lines = [working(step, inspected.system) for finding in group for step in finding.check.working]
    steps = [el("p", line) for line in dict.fromkeys(lines)]
    return el("details", el("summary", "Working"), steps, class_="working") if steps else None


def _untested(inspected: Inspected) -> Iterator[Html]:
    for outcome in inspected.inspection.untested:
        words = f"Rule {outcome.rule} broke and was not applied: {outcome.reason}"
        yield el("article", el("h3", signal(outcome.grade), " ", outcome.title), el("p", words), class_="finding")


def _todo(inspected: Inspected) -> Html | None:
    rows = [
        el("li", signal(t.grade), " ", t.what, " ",
           el("small", f"{inspected.place(t.pointer)}; " if t.pointer else "", f"asked by {listed(t.rules)}"))
        for t in to_find_out(inspected)
    ]  # fmt: skip
    if not rows:
        return None
    return el("div", el("h3", "To find out before it can be told", id="to-find-out"), el("ul", rows, class_="todo"))


def _changed(inspected: Inspected) -> Html | None:
    rows = []
    for one in inspected.inspection.changed:
        own, now = (show(value.si, value.unit, inspected.system) for value in (one.standard, one.value))
        milder = "MILDER than" if one.milder else "stricter than"
        rows.append(el("li", f"{one.rule}, {one.limit}: {now}, {milder} the rule's own {own}; set by {one.set_by}"))
    rows += [el("li", f"{waiver.rule}: {waiver.words}") for waiver in inspected.inspection.set_aside]
    return el("div", el("h3", "Limits that were set, rules set aside"), el("ul", rows)) if rows else None
