"""The top of the sheet: what plan this is, the verdict and the figures that a foreman asks for first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from riglint.outcome import Grade, Result, Verdict
from riglint.report.foreman import foreman
from riglint.report.material import Inspected, verdict_words
from riglint.report.summary import summaries
from riglint.report.words import listed, sentence
from riglint.sheet.markup import Html, el, inner, trusted
from riglint.sheet.words import against, anchor, pairs, signal, to_find_out, why_not
from riglint.version import VERSION

_LABEL: Final = 23
_SHOWN: Final = 6
_SHAPES: Final = {
    Verdict.CLEAR: '<circle cx="24" cy="24" r="22"/><path class="hole" d="m10 25 10 10 18-20-4-4-14 15-6-6Z"/>',
    Verdict.NOT_CLEAR: '<path d="M15 2h18l13 13v18L33 46H15L2 33V15Z"/>'
    '<path class="hole" d="m14 18 4-4 6 6 6-6 4 4-6 6 6 6-4 4-6-6-6 6-4-4 6-6Z"/>',
    Verdict.CANT_TELL: '<path d="M24 1 47 24 24 47 1 24Z"/><path class="hole" d="M16 19c0-11 16-11 16 0 0 6-6 6-6 11h-4'
    'c0-8 6-8 6-11 0-4-8-4-8 0ZM22 33h4v4h-4Z"/>',
}


def form_head(inspected: Inspected, digest: str) -> Html:
    """Title, and what the sheet was made from: what a record must name."""
    books = listed(f"{o.title}, version {o.version}" for o in inspected.rulebook.origins)
    boxes = (
        ("Plan file", inspected.file),
        ("Plan digest, SHA-256", el("code", digest)),
        ("Program", f"riglint {VERSION}"),
        ("Rulebook", books),
        *((("For a pull on", day),) if (day := inspected.solution.rig.day) else ()),
        ("Halts at", f"{inspected.inspection.halting.value} and above"),
    )
    cells = [el("div", el("dt", label), el("dd", text)) for label, text in boxes]
    return el(
        "header",
        el("p", "Pre-pull sheet", class_="form-name"),
        el("h1", inspected.solution.rig.title),
        el("dl", cells, class_="boxes"),
        class_="form-head",
    )


def verdict(inspected: Inspected) -> Html:
    """The word, what it rests on, and the first stage's figures; a later stage's stand with its run."""
    return el("section", _band(inspected), _reasons(inspected), figures(inspected, 0), id="verdict",
              aria_labelledby="verdict-word")  # fmt: skip


def figures(inspected: Inspected, index: int) -> Html:
    """What a foreman asks for at once about one stage."""
    stages = inspected.solution.stages
    summary = summaries(stages, inspected.inspection)[index]
    lines = foreman(summary, inspected, of_several=False)
    if summary.refused:
        return el("p", " ".join(lines))
    first = len(stages) > 1 and index == 0
    title = el("h3", f"Stage 1: {summary.name}; the others with the run") if first else None
    rows = [el("div", el("dt", label), el("dd", text)) for label, text in pairs(lines, _LABEL)]
    return inner(title, el("dl", rows, class_="figures"))


def _band(inspected: Inspected) -> Html:
    word = inspected.inspection.verdict
    shape = trusted(f'<svg viewBox="0 0 48 48" aria-hidden="true" focusable="false">{_SHAPES[word]}</svg>')
    text = el("h2", el("b", word.value.upper()), f": {verdict_words(inspected.inspection)}", id="verdict-word")
    return el("div", shape, el("div", text, el("p", _counted(inspected))), class_=f"band {word.name.lower()}")


def _counted(inspected: Inspected) -> str:
    findings = inspected.inspection.findings
    failed = [f.grade for f in findings if f.result is Result.FAILED]
    counted = [f"{failed.count(grade)} {grade.value}" for grade in Grade if grade in failed]
    unknown = len(to_find_out(inspected))
    asks = f"; {unknown} {'thing' if unknown == 1 else 'things'} to find out" if unknown else ""
    return f"{listed(counted) or 'No findings'}{asks}."


def _reasons(inspected: Inspected) -> Html | None:
    """What stands against the pull, each leading to where it is explained."""
    rows = list(_rows(inspected))
    if not rows:
        return None
    shown, left = rows[:_SHOWN], len(rows) - _SHOWN
    if left > 0:
        shown.append(el("li", el("a", f"and {left} more, under Findings", href="#findings")))
    return el("div", el("h3", "Why not"), el("ul", shown, class_="reasons"), class_="why")


def _rows(inspected: Inspected) -> Iterator[Html]:
    for finding in against(inspected):
        can_t = finding.result is Result.CANT_TELL
        words = f"{finding.title}: can't be told" if can_t else finding.title
        href = "#to-find-out" if can_t else f"#{anchor(finding)}"
        yield el("li", signal(finding.grade), " ", el("a", words, href=href))
    for reason in why_not(inspected)[len(against(inspected)) :]:
        yield el("li", sentence(reason))
