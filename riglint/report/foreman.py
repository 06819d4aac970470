"""The lines at the top of the report: what a foreman asks for at once."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.report.material import Inspected
from riglint.report.numbers import at_the_most, figures, show, travel
from riglint.report.summary import Anchor, Summary
from riglint.report.words import listed, plain, wrapped
from riglint.rig.places import level_angle

_LABEL = 23
_CASES = {"expected": "as expected", "stall": "if the winch stalls", "holding": "holding"}


def foreman(summary: Summary, inspected: Inspected, *, of_several: bool) -> list[str]:
    """One stage's lines, a label and what goes with it."""
    lines = [f"Stage {plain(summary.name)}"] if of_several else []
    if summary.refused:
        return lines + wrapped(f"This rig can't stand as planned: {plain(summary.refused)}.")
    for label, text in _rows(summary, inspected):
        lines += wrapped(text, f"  {label}".ljust(_LABEL), " " * _LABEL)
    return lines


def _rows(summary: Summary, inspected: Inspected) -> Iterator[tuple[str, str]]:
    system = inspected.system
    yield "Parts", _parts(summary)
    yield "Line", _line(summary, system)
    yield "Line pull", _pull(summary, system)
    if summary.anchors:
        yield "Worst anchor load", _anchors(summary.anchors, system)
    if summary.gives or not summary.lowers:
        yield "First past its load", _gives(summary, system)
    if summary.breaks:
        yield "First to break", _breaks(summary, system)
    if summary.flies_from:
        yield "It would fly", _flies(summary, inspected)
    if summary.gives or not summary.lowers:
        yield "Stop at", _stop(summary, system)


def _parts(summary: Summary) -> str:
    low, high = summary.pull_least, summary.pull_most
    parts = str(summary.parts)
    if low is None or high is None:
        return parts
    if figures(low) == figures(high) == "1":
        return f"{parts}; the load feels the line pull itself"
    span = figures(low) if figures(low) == figures(high) else f"{figures(low)} to {figures(high)}"
    return f"{parts}; at the start the load feels {span} times the line pull"


def _line(summary: Summary, system: str) -> str:
    needs = f"needs {show(summary.line_needed_m, 'm', system)} besides what stays on the drum"
    if summary.line_m is None:
        return f"{needs}; how much there is isn't stated"
    low, high = (show(m, "m", system) for m in summary.line_m)
    return f"{needs}, there is {low if low == high else f'{low} to {high}'}"


def _pull(summary: Summary, system: str) -> str:
    asks = _asks(summary, system)
    if summary.lowers:
        if summary.brake_n is None:
            return f"{asks}; what the winch's brake holds isn't stated"
        return f"{asks}; the winch's brake holds {show(summary.brake_n, 'N', system)}"
    return f"{asks}; {_winch(summary, system)}"


def _asks(summary: Summary, system: str) -> str:
    """By the losses, and as field manuals reckon where that is more: `enough-pull` goes by the greater."""
    needed, doctrine = summary.line_pull_n, summary.line_pull_doctrine_n
    if needed is None:
        return "what is needed can't be told"
    if needed <= 0.0:
        return "needs none: the load goes by itself"
    shown = show(needed, "N", system)
    other = show(doctrine, "N", system) if doctrine is not None and doctrine > needed else shown
    return f"needs {shown} at the worst" + ("" if other == shown else f", {other} as field manuals reckon")


def _winch(summary: Summary, system: str) -> str:
    """As the drum fills the winch pulls less: from the fullest place to the emptiest."""
    if summary.stall_n is None or summary.stall_least_n is None:
        return "what the winch can pull can't be told"
    least, most = (show(n, "N", system) for n in (summary.stall_least_n, summary.stall_n))
    if not summary.stall_stated:
        return f"the winch can pull {least} or more: where it stalls isn't stated"
    told = "" if summary.stall_told else ", as far as the plan tells"
    return f"the winch can pull {least if least == most else f'{least} to {most}'} before it stalls{told}"


def _anchors(anchors: tuple[Anchor, ...], system: str) -> str:
    """The worst in each case, a point's name once."""
    names = dict.fromkeys(anchor.name for anchor in anchors)
    return "; ".join(
        f"{plain(name)} " + listed(_anchor(a, system) for a in anchors if a.name == name) for name in names
    )


def _anchor(anchor: Anchor, system: str) -> str:
    at = f" at {travel(anchor.travel_m, system)}" if anchor.travel_m else ""
    return f"{show(anchor.load_n, 'N', system)} {_CASES[anchor.case]}{at}"


def _gives(summary: Summary, system: str) -> str:
    unknown = listed(plain(name) for name in summary.not_counted)
    if summary.gives is None:
        return "can't be told: no working load is known"
    check, pull = summary.gives.check, show(summary.gives.pull_n, "N", system)
    note = _beyond(summary, summary.gives.pull_n)
    measure = f" ({check.measure})" if check.measure else ""
    return f"{plain(check.where.component)}{measure}, at a line pull of {pull}{note}" + (
        f"; not counted, for want of facts: {unknown}" if unknown else ""
    )


def _breaks(summary: Summary, system: str) -> str:
    first = summary.breaks
    if first is None:
        return ""
    note = _beyond(summary, first.pull_n)
    unknown = len(first.unknown)
    left = f"; strength not known of {unknown} more" if unknown else ""
    name = plain(summary.flies_from)
    return f"{name}, at a line pull of {show(first.pull_n, 'N', system)}{note}{left}"


def _beyond(summary: Summary, pull_n: float) -> str:
    beyond = summary.stall_n is not None and summary.stall_told and pull_n > summary.stall_n
    return ", more than the winch can pull" if beyond else ""


def _flies(summary: Summary, inspected: Inspected) -> str:
    if summary.flies is None:
        return f"{plain(summary.flies_from)} parts: both ends whip back along the line and past its ends"
    bearing = level_angle(summary.flies.direction, inspected.solution.rig.north_rad)
    toward = f", towards {plain(summary.flies.toward)}" if summary.flies.toward else ""
    return f"what {plain(summary.flies_from)} holds, on bearing {show(bearing, 'rad', inspected.system)}{toward}"


def _stop(summary: Summary, system: str) -> str:
    if summary.stop_n is None:
        return "can't be told"
    known = ", as far as is known" if summary.not_counted else ""
    text, needed = f"a line pull of {at_the_most(summary.stop_n, system)}{known}", summary.line_pull_n
    least = summary.line_pull_least_n
    if needed is None:
        return text
    if least is not None and least > summary.stop_n:
        return f"{text}, which is less than the job needs"
    if needed > summary.stop_n:
        return f"{text}; the job may need more, where the redirects lose all that they can"
    if needed <= 0.0:
        return f"{text}; the load goes by itself, and where the line pulls, something holds it: stop and look"
    return f"{text}; past {show(needed, 'N', system)} something holds the load: stop and look"
