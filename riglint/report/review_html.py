"""A review as one page for the safety officer: a table of rigs, worst first, that sorts, opens and prints.

Nothing is fetched: style, script and sketches are in the page, and it reads as well without the script.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from typing import Any, Final

from riglint.outcome import Grade, Result
from riglint.report.figures import ENDLESS
from riglint.report.review_page import FOOT, SCRIPT, STYLE
from riglint.report.reviewed import VERDICTS, Record, Reviewed, Tally, Whole, changes, fault, what_is_gone
from riglint.report.spool import Spool
from riglint.report.words import for_day, listed

_COLUMNS: Final = ("Verdict", "Plan", "Sketch", *(g.value for g in Grade), "To find out", "Most used", "Use")
_SHAPES: Final = {
    "not clear": "✕", "can't tell": "?", "clear": "✓", "can't be read": "!", "program failed": "!", "gone": "-",
}  # fmt: skip
_STATES: Final = {"new": "new", "worse": "worse", "better": "better"}


class HtmlForm:
    """The form `html`. One section: the plan's rows."""

    def part(self, one: Reviewed, rule_index: dict[str, int]) -> tuple[str, ...]:
        """One plan's row, and below it what was found."""
        if one.record["verdict"] == "no plan":
            return ("",)
        details = "".join(_details(one))
        below = f'<tr class="found"><td colspan="{len(_COLUMNS)}"><ul>{details}</ul></td></tr>' if details else ""
        return (f"<tbody>{_row(one, opens=bool(details))}{below}</tbody>\n",)

    def whole(self, whole: Whole, spool: Spool) -> Iterator[str]:
        """The page, piece by piece."""
        yield '<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>Review of rigs</title>\n'
        yield f"{STYLE}</head>\n"
        yield f"<body><main><h1>Review of rigs</h1>\n{_first(whole)}\n<h2>Rigs, worst first</h2>\n"
        yield '<table id="rigs"><thead><tr>'
        yield "".join(f'<th scope="col"><button type="button">{name}</button></th>' for name in _COLUMNS)
        yield "</tr></thead>\n"
        yield from spool.sorted(0)
        yield f"</table>\n{_rules(whole.tally)}\n{FOOT}\n</main>\n{SCRIPT}</body></html>\n"


def _first(whole: Whole) -> str:
    tally = whole.tally
    counts = [f"{n} {verdict}" for verdict in VERDICTS if (n := tally.verdicts.get(verdict)) and verdict != "no plan"]
    part = f", part {whole.slice}" if whole.slice else ""
    day = for_day(whole.about["day"])
    books = listed(f"{book['title']} {book['version']}" for book in whole.about["rulebooks"])
    text = (
        f"{tally.plans} plans reviewed{day}{part}: {listed(counts) or 'none'}. Halts at {whole.about['halting_grade']}"
    )
    text += f" and above. {books}; riglint {whole.about['program']['version']}."
    if whole.since:
        text += f" Since the earlier review: {tally.new} new or worse, {tally.gone} gone."
    broke = "".join(f" Rule {rule} broke and was not applied to {n}." for rule, n in sorted(tally.untested.items()))
    lines = [text + broke]
    for other, n in sorted(tally.elsewhere.items()):
        lines.append(f"{n} {'plan' if n == 1 else 'plans'} can't be read for a fault of another file: {other}")
    return "\n".join(f"<p>{escape(line)}</p>" for line in lines)


def _row(one: Reviewed, *, opens: bool) -> str:
    record = one.record
    verdict = "program failed" if record["untested"] else record["verdict"]
    rank = VERDICTS.index(verdict)
    counts = one.standing()
    used = record["most_used"]
    name = escape(one.name)
    title = f"<br><small>{escape(record['title'])}</small>" if record["title"] else ""
    since = f"<br><small><b>{changed}</b> since the earlier review</small>" if (changed := changes(record)) else ""
    plan = f'<button type="button" class="open" aria-expanded="false">{name}</button>' if opens else name
    use = f'<td class="n" data-key="{_sorted_by(used["use"])}">{used["percent"]}</td>' if used else None
    cells = [
        f'<td class="v{rank}" data-key="{rank}"><span aria-hidden="true">{_SHAPES[verdict]}</span> {verdict}</td>',
        f'<th scope="row" data-key="{name}">{plan}{title}{since}</th>',
        f"<td>{drawn(record['sketch'], name)}</td>",
        *(_count(number, grade) for grade, number in counts.failed.items()),
        _count(counts.cant_tell, "ask"),
        f"<td>{escape(used['component']) if used else ''}</td>",
        use or '<td data-key="-1"></td>',
    ]
    return f"<tr>{''.join(cells)}</tr>"


def _sorted_by(use: float | str | None) -> float | str:
    """What the page sorts a use by, which must be a number with an end."""
    return 1e308 if use == ENDLESS else use or 0.0


def _count(number: int, kind: str) -> str:
    return f'<td class="n{f" {kind}" if number else ""}" data-key="{number}">{number or ""}</td>'


def drawn(sketch: Record | None, name: str) -> str:
    """A sketch as SVG: lines, the winch a square, the load a bar through its points, people as rings."""
    if not sketch:
        return ""
    body = "".join(f'<polyline points="{" ".join(f"{x},{y}" for x, y in line)}"/>' for line in sketch["lines"])
    if load := sketch["load"]:
        xs, ys = [x for x, _ in load], [y for _, y in load]
        width, height = max(xs) - min(xs) + 6, max(ys) - min(ys) + 6
        body += f'<rect class="l" x="{min(xs) - 3}" y="{min(ys) - 3}" width="{width}" height="{height}"/>'
    if at := sketch["winch"]:
        body += f'<rect x="{at[0] - 2}" y="{at[1] - 2}" width="4" height="4"/>'
    body += "".join(f'<circle cx="{x}" cy="{y}" r="2.5"/>' for x, y in sketch["people"])
    return f'<svg viewBox="0 0 160 64" width="160" height="64" role="img" aria-label="sketch of {name}">{body}</svg>'


def _details(one: Reviewed) -> Iterator[str]:
    record = one.record
    if record["reason"]:
        yield f"<li>{escape(record['reason'])}</li>"
    for p in record["problems"]:
        yield f"<li>{escape(fault(p, one.name))}</li>"
    for broke in record["untested"]:
        yield f"<li>Rule {escape(broke['rule'])} broke: {escape(broke['reason'])}</li>"
    for finding in record["findings"]:
        yield _finding(finding)
    for gone in record.get("gone", ()):
        text = what_is_gone(gone)
        yield f"<li><b>gone</b> {escape(str(gone.get('ruleId', '')))}: {escape(text)}</li>"


def _finding(finding: Record) -> str:
    grade, failed = finding["grade"], finding["result"] == Result.FAILED.value
    mark = f'<b class="{grade}">{grade}</b>' if failed else f'<b class="ask">can\'t tell</b> ({grade})'
    state = f" <i>{_STATES[s]}</i>" if (s := finding.get("state")) in _STATES else ""
    return f"<li>{mark}{state} {escape(finding['rule'])}: {escape(finding['message'])}{_after(finding)}</li>"


def _after(finding: dict[str, Any]) -> str:
    text = f" Line {finding['region'][0]}."
    if finding["missing"]:
        text += f" Not stated: {listed(finding['missing'])}."
    if finding["remedy"]:
        text += f" Put right: {finding['remedy']}"
    if waived := finding["waived"]:
        until = f" until {waived['until']}" if waived["until"] else ""
        text += f" Waived by {waived['allowed_by']}{until}: {waived['reason']}"
    for remedy in finding.get("remedies", ()):
        text += f" Would put it right: {remedy['says']} Then {remedy['then']}."
    return escape(text)


def _rules(tally: Tally) -> str:
    if not tally.rules:
        return ""
    head = "".join(f'<th scope="col">{c}</th>' for c in ("Grade", "Rule", "Failed", "Can't tell", "Waived", "Plans"))
    rows = ""
    for found in tally.by_rule():
        grade = list(Grade)[found.rank].value
        counts = (found.failed, found.cant_tell, found.waived, found.plans)
        numbers = "".join(f'<td class="n">{n or ""}</td>' for n in counts)
        name = f"{escape(found.rule)}<br><small>{escape(found.title)}</small>"
        rows += f'<tr><td class="{grade}">{grade}</td><th scope="row">{name}</th>{numbers}</tr>\n'
    return f"<h2>Rules, worst first</h2>\n<table><thead><tr>{head}</tr></thead><tbody>\n{rows}</tbody></table>"
