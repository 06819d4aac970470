"""Debriefs as one page that fetches nothing and runs nothing: style in the page, its digest in the policy."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Iterator
from hashlib import sha256
from html import escape
from typing import Final

from riglint.debrief.classroom import Classroom
from riglint.debrief.debrief import Debrief, marks_words, reason, sections, verdict
from riglint.debrief.lessons import LABELS, Entry, Level
from riglint.debrief.text import CAUTION

_STYLE: Final = """
body{font:16px/1.45 sans-serif;max-width:70rem;margin:1rem auto;padding:0 1rem;color:#111;background:#fff}
table{border-collapse:collapse;width:100%}
th,td{border:1px solid #767676;padding:.3rem .5rem;text-align:left;vertical-align:top}
thead th{background:#eee}td.n{text-align:right;font-variant-numeric:tabular-nums}
tbody th,td:last-child{overflow-wrap:anywhere}td ul{margin:0;padding-left:1.2rem}
h2{margin-top:2rem}ul ul{list-style:none;padding-left:1rem}
b{padding:0 .3rem}.DANGER{background:#9b2423;color:#fff}.WARNING{background:#e37700;color:#000}
.CAUTION{background:#eac600;color:#000}.NOTICE{background:#005898;color:#fff}
summary{min-height:44px;cursor:pointer}
@media print{body{font-size:10pt;margin:0}tr,li{break-inside:avoid}h2,h3{break-after:avoid}
details{break-before:page}details::details-content{content-visibility:visible;block-size:auto}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}}
"""
_DIGEST: Final = b64encode(sha256(_STYLE.encode()).digest()).decode()
_POLICY: Final = f"default-src 'none'; style-src 'sha256-{_DIGEST}'; base-uri 'none'; form-action 'none'"


def one_page(one: Debrief, level: Level) -> str:
    """One plan's debrief."""
    return _page(f"Debrief of {one.handed.file}", [f"<h1>Debrief</h1>\n{_debrief(one, level, 'h2')}"])


def class_page(room: Classroom, level: Level) -> str:
    """The class: table, most common mistakes, and each plan's debrief below."""
    body = [f"<h1>{escape(room.title)}</h1>\n", _table(room), *_mistakes(room)]
    for number, one in enumerate(room.debriefs, start=1):
        marks = f": {marks_words(one.marked)}" if one.marked else ""
        body.append(f'<details id="plan-{number}"><summary>{escape(one.handed.file + marks)}</summary>\n')
        body.append(f"{_debrief(one, level, 'h3')}</details>\n")
    return _page(room.title, body)


def _page(title: str, body: Iterable[str]) -> str:
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{escape(_POLICY)}">\n'
        f'<meta name="viewport" content="width=device-width">\n<title>{escape(title)}</title>\n'
        f"<style>{_STYLE}</style></head>\n<body><main>\n{''.join(body)}<p>{escape(CAUTION)}</p>\n</main></body></html>\n"
    )


def _debrief(one: Debrief, level: Level, heading: str) -> str:
    inspected = one.handed.inspected
    head = f"<p>{escape(one.handed.file)}</p>\n"
    if inspected:
        head += f"<p>{escape(inspected.solution.rig.title)}</p>\n"
        head += f"<p><strong>{escape(verdict(one, inspected))}</strong></p>\n"
    found = ((section.heading, "".join(map(_entry, section.entries))) for section in sections(one, level))
    return head + "".join(f"<{heading}>{escape(words)}</{heading}>\n<ul>{entries}</ul>\n" for words, entries in found)


def _entry(entry: Entry) -> str:
    grade = f'<b class="{entry.grade}">{entry.grade}</b> ' if entry.grade else ""
    inner = "".join(f"<li>{_labelled(line)}</li>" for line in entry.inner)
    below = f"<ul>{inner}</ul>" if inner else ""
    return f"<li>{grade}{escape(entry.text)}{below}</li>\n"


def _labelled(line: str) -> str:
    """A line of working, what it is in bold."""
    label, colon, rest = line.partition(": ")
    return f"<strong>{escape(label)}:</strong> {escape(rest)}" if colon and label in LABELS else escape(line)


def _table(room: Classroom) -> str:
    head = "".join(f'<th scope="col">{name}</th>' for name in ("Plan", "Verdict", "Marks", "Reasons", "Same plan as"))
    rows = "".join(_row(number, one) for number, one in enumerate(room.debriefs, start=1))
    return f"<table><thead><tr>{head}</tr></thead><tbody>\n{rows}</tbody></table>\n"


def _row(number: int, one: Debrief) -> str:
    inspected = one.handed.inspected
    word = inspected.inspection.verdict.value if inspected else "can't be read"
    lost = one.marked.lost if one.marked else ()
    cells = (
        f'<th scope="row"><a href="#plan-{number}">{escape(one.handed.file)}</a></th>',
        f"<td>{word}</td>",
        f'<td class="n">{marks_words(one.marked) if one.marked else ""}</td>',
        f"<td><ul>{''.join(f'<li>{escape(reason(each))}</li>' for each in lost)}</ul></td>" if lost else "<td></td>",
        f"<td>{escape('; '.join(one.same_as))}</td>",
    )
    return f"<tr>{''.join(cells)}</tr>\n"


def _mistakes(room: Classroom) -> Iterator[str]:
    if not room.mistakes:
        return
    head = "".join(f'<th scope="col">{name}</th>' for name in ("Grade", "Mistake", "Failed", "Can't be told"))
    yield f"<h2>Most common mistakes</h2>\n<table><thead><tr>{head}</tr></thead><tbody>\n"
    for mistake in room.mistakes:
        numbers = "".join(f'<td class="n">{count or ""}</td>' for count in (mistake.failed, mistake.untold))
        name = f"{escape(mistake.title)} ({escape(mistake.rule)})"
        yield f'<tr><td><b class="{mistake.grade.value}">{mistake.grade.value}</b></td><td>{name}</td>{numbers}</tr>\n'
    yield "</tbody></table>\n<h2>Plan by plan</h2>\n"
