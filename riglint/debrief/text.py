"""Debriefs as text."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.debrief.classroom import Classroom
from riglint.debrief.debrief import Debrief, marks_words, reason, sections, verdict
from riglint.debrief.lessons import Entry, Level
from riglint.report.words import plain, wrapped

CAUTION = (
    "Arithmetic on what the plan says, to learn from, not leave to pull. Makers' ratings and instructions, local rules"
    " and the licensed person in charge on the ground come first."
)
_MORE = {
    1: "For the question to ask yourself: --hints 2. For the working: --hints 3.",
    2: "For the working with its numbers: --hints 3.",
    3: "",
}


def report(one: Debrief, level: Level) -> str:
    """One plan's debrief, ending with a newline."""
    blocks = [_head(one)]
    for section in sections(one, level):
        blocks.append([f"{section.heading}:", *(line for entry in section.entries for line in _entry(entry))])
    more = _MORE[level] if one.handed.inspected else ""  # of what can't be read there is no more to ask for
    blocks += [wrapped(" ".join(filter(None, (more, CAUTION))))]
    return "\n\n".join("\n".join(lines) for lines in blocks) + "\n"


def _head(one: Debrief) -> list[str]:
    lines = wrapped(f"DEBRIEF of {plain(one.handed.file)}")
    inspected = one.handed.inspected
    return (
        [*lines, *wrapped(plain(inspected.solution.rig.title)), *wrapped(verdict(one, inspected))]
        if inspected
        else lines
    )


def _entry(entry: Entry) -> Iterator[str]:
    text = f"{entry.grade}: {entry.text}" if entry.grade else entry.text
    yield from wrapped(text, "  - ", "    ")
    for line in entry.inner:
        yield from wrapped(line, "      ", "        ")


def table(room: Classroom) -> str:
    """A class in text: marks with reasons, the most common mistakes, and what was handed in twice."""
    lines = [*wrapped(f"CLASS: {plain(room.title)}"), ""]
    for one in room.debriefs:
        marks = f", {marks_words(one.marked)}" if one.marked else ""
        inspected = one.handed.inspected
        word = inspected.inspection.verdict.value if inspected else "can't be read"
        lines += wrapped(f"{plain(one.handed.file)}: {word}{marks}", "", "  ")
        lines += [line for name in one.same_as for line in wrapped(f"the same plan as {plain(name)}", "    ", "      ")]
        for lost in one.marked.lost if one.marked else ():
            lines += wrapped(f"lost {reason(lost)}", "    ", "      ")
    if room.mistakes:
        lines += ["", "Most common mistakes:"]
    for mistake in room.mistakes:
        counts = f"{mistake.failed} failed, {mistake.untold} can't be told"
        lines += wrapped(f"{counts}: {mistake.title} ({mistake.rule})", "  ", "    ")
    return "\n".join([*lines, "", *wrapped(CAUTION)]) + "\n"
