"""Remedies and headroom as text: what was tried on a copy of the plan, and what came of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import degrees

from riglint.outcome import Check, Finding, Result, Verdict, Where
from riglint.remedy.model import Figure, Remedy
from riglint.remedy.room.model import Headroom
from riglint.report.material import Inspected
from riglint.report.numbers import fixed, pair, percent, show
from riglint.report.words import listed, message, plain, sentence, wrapped

_MOST_FIGURES = 4
_LABELS = {"parts": "", "least wraps": "least on the drum "}  # where the unit says the rest
_NO_PLACE = Where("", "", "")


def remedies(inspected: Inspected, found: Sequence[Remedy]) -> list[str]:
    """Each finding with what would put it right, numbered over the plan; what nothing was found for at the end."""
    findings = inspected.inspection.findings
    failed = [i for i, finding in enumerate(findings) if finding.result is Result.FAILED]
    if not failed:
        return []
    lines = ["What would put it right, tried on a copy of the plan:"]
    for index in failed:
        mine = [(number, r) for number, r in enumerate(found, start=1) if r.finding == index]
        if mine:
            finding = findings[index]
            twice = sum(_alike(finding, findings[other]) for other in failed) > 1
            measure = f", {finding.check.measure}" if twice and finding.check.measure else ""
            of = f"{finding.rule}, {finding.check.where.component}{_case(finding)}{measure}"
            lines += wrapped(plain(f"{finding.grade.value} {of}:"), "  ", "    ")
        for number, remedy in mine:
            lines += _remedy(number, remedy, inspected)
    bare = [findings[i] for i in failed if not any(r.finding == i for r in found)]
    if bare:
        names = listed(dict.fromkeys(plain(f"{f.rule} ({f.check.where.component})") for f in bare))
        lines += wrapped(f"Nothing that was tried puts right: {names}.", "  ", "    ")
    return lines


def _case(finding: Finding) -> str:
    return {"stall": ", winch stalled", "expected": ", expected pull"}.get(finding.check.where.case, "")


def _alike(one: Finding, other: Finding) -> bool:
    """Whether two findings would be headed alike."""
    return (one.rule, one.check.where.component, one.check.where.case) == (
        other.rule, other.check.where.component, other.check.where.case
    )  # fmt: skip


def _also(other: Finding, own: Finding) -> str:
    """Another finding that goes as well: of the same rule and component by its case, or by what it measures."""
    where = other.check.where
    same = (other.rule, where.component) == (own.rule, own.check.where.component)
    which = (_case(other) or f", {other.check.measure}".rstrip(", ")) if same else ""
    return plain(f"{other.rule} ({where.component}{which})")


def says(remedy: Remedy, system: str) -> str:
    """What to do, with its numbers."""
    return message(Check(Result.PASSED, _NO_PLACE, remedy.says, terms=remedy.terms), system)


def _remedy(number: int, remedy: Remedy, inspected: Inspected) -> Iterator[str]:
    yield from wrapped(sentence(plain(says(remedy, inspected.system))), f"   {number:>2}. ", "       ")
    yield from wrapped(comes_of(remedy, inspected), "       ")


def comes_of(remedy: Remedy, inspected: Inspected) -> str:
    """What the plan is like with it: verdict, figures before and after, what else goes and what comes."""
    findings = inspected.inspection.findings
    parts = [_figure(figure, inspected.system) for figure in remedy.figures if figure.after is not None]
    told = f"Then {remedy.verdict.value}"
    told += f": {'; '.join(parts[:_MOST_FIGURES])}." if parts else "."
    also = [_also(findings[i], findings[remedy.finding]) for i in remedy.clears]
    told += f" Puts right {listed(dict.fromkeys(also))}, too." if also else ""
    brings = [f"{f.grade.value} {plain(f.rule)} ({plain(f.check.where.component)})" for f in remedy.brings]
    return told + (f" But brings {listed(dict.fromkeys(brings))}." if brings else "")


def _figure(figure: Figure, system: str) -> str:
    if figure.what == "use" and figure.before is not None and figure.after is not None:
        return f"use {percent(figure.before)} before, {percent(figure.after)} after"
    before, after = figure.before, figure.after
    if before is None or after is None:
        return figure.what
    one, other = pair(before, after, figure.unit, system)
    return f"{_LABELS.get(figure.what, f'{figure.what} ')}{one} before, {other} after"


def headroom(inspected: Inspected, found: Sequence[Headroom]) -> list[str]:
    """How far the resistance, the slope, the way of the load and an angle can change before the verdict does."""
    verdict = inspected.inspection.verdict
    until = "no longer clear" if verdict is Verdict.CLEAR else f"better than {verdict.value}"
    lines = [f"Headroom, before the verdict is {until}:"]
    for one in (one for one in found if not _is_helpless(one) or one.of != "angle"):
        text = sentence(plain(_headroom(one, inspected.system)))
        if not one.steady:
            text += " Beyond, the verdict goes back and forth" + (": take no more than this." if one.growing else ".")
        lines += wrapped(text, "  - ", "    ")
    for side in ("wider", "tighter"):
        names = [one.name for one in found if one.side == side and _is_helpless(one)]
        if names:
            lines += wrapped(f"No {side} angle at {plain(listed(names))} makes it better.", "  - ", "    ")
    steps = [one.step for one in found if one.of != "resistance" and one.step]
    if steps:
        far = f"{fixed(degrees(min(steps)), 1)} to {fixed(degrees(max(steps)), 1)} deg"
        words = f"Angles were looked at in steps of {far}: what comes and goes within one step isn't seen."
        lines += wrapped(words, "  ", "  ")
    return lines


def _is_helpless(one: Headroom) -> bool:
    return not one.why_not and one.at is None and not one.growing


def _headroom(one: Headroom, system: str) -> str:
    if one.why_not:
        return f"{_ABOUT[one.of].format(name=one.name)}: {one.why_not}"
    if _is_helpless(one):
        return _HELPLESS[one.of]
    how = _FORMS[one.of](one, system)
    if one.at is None:
        return f"{how}, and the verdict stays"
    why = f" ({listed(one.rules)})" if one.rules else ""
    return f"{how}; there it becomes {one.then.value if one.then else ''}{why}"


def _resistance(one: Headroom, system: str) -> str:
    now, to = pair(one.now or 0.0, _to(one), "N", system)
    times = one.change if one.change is not None else _to(one) / one.now if one.now else 1.0
    verb = "may grow" if one.growing else "has to fall"
    return f"{one.name}'s resistance {verb} from {now} to {to}, {fixed(times, 2)} times as much"


def _slope(one: Headroom, system: str) -> str:
    verb = "may grow" if one.growing else "has to fall"
    return f"the slope under {one.name} {verb} from {_tilt(one.now or 0.0)} to {_tilt(_to(one))}"


def _tilt(slope_rad: float) -> str:
    turn = fixed(abs(degrees(slope_rad)), 1)
    return "level" if turn == "0" else f"{turn} deg {'up' if slope_rad > 0.0 else 'down'}"


def _swing(one: Headroom, system: str) -> str:
    turn = fixed(degrees(_to(one)), 1)
    return f"the way of {one.name} {'may' if one.growing else 'has to'} swing by {turn} deg to one side or the other"


def _angle(one: Headroom, system: str) -> str:
    verb = {"wider": "open", "tighter": "close"}[one.side]
    turns = f"{fixed(degrees(one.now or 0.0), 1)} deg to {fixed(degrees(_to(one)), 1)} deg"
    text = f"the angle at {one.name} {'may' if one.growing else 'has to'} {verb} from {turns}"
    if one.anchor:
        far = show(abs(one.anchor.by_m), "m", system)
        text += f", with {one.anchor.point} {far} {'farther out' if one.anchor.by_m > 0.0 else 'farther in'}"
    return text


def _to(one: Headroom) -> float:
    return (one.at if one.at is not None else one.looked_to) or 0.0


_HELPLESS = {
    "resistance": "no less resistance makes it better",
    "slope": "no gentler slope makes it better",
    "swing": "no other way for the load makes it better",
}
_FORMS = {"resistance": _resistance, "slope": _slope, "swing": _swing, "angle": _angle}
_ABOUT = {
    "resistance": "{name}'s resistance", "slope": "the slope under {name}", "swing": "the way of {name}",
    "angle": "the angle at {name}",
}  # fmt: skip
