"""The gear list: what each piece must hold, against what it is rated for."""

from __future__ import annotations

from collections.abc import Iterator
from math import isclose
from typing import Final, NamedTuple

from riglint.mechanics.rounding import surpasses
from riglint.outcome import Check
from riglint.picture.uses import uses
from riglint.report.material import Inspected
from riglint.report.numbers import percent, show
from riglint.report.words import compared
from riglint.sheet.markup import Html, el
from riglint.sheet.words import CASES, part
from riglint.solve.solution import CASES as ALL_CASES
from riglint.solve.solution import Component, StageSolution

_GEAR: Final = {
    "winch": "Winch", "fairlead": "Winch", "piece": "Rope", "join": "Join", "redirect": "Redirect", "seat": "Redirect",
    "connector": "Connector", "bridle leg": "Connector", "point": "Point", "body": "Anchor vehicle",
}  # fmt: skip
_ORDER: Final = tuple(_GEAR)


class Row(NamedTuple):
    """One line of the list. `use` is None where the rating isn't known."""

    kind: str
    name: str
    pointer: str
    holds: str
    when: str
    rated: str
    use: float | None
    untold: bool


def _order(row: Row) -> tuple[int, bool, float, str]:
    return (_ORDER.index(row.kind), row.use is not None, -round(row.use or 0.0, 9), row.name)


def gear(inspected: Inspected) -> Html:
    """The table, worst use of each kind first, a thing with no known rating ahead of all."""
    rows = sorted(
        _rows(inspected), key=lambda r: (_ORDER.index(r.kind), r.use is not None, -round(r.use or 0.0, 9), r.name)
    )
    kit = inspected.solution.rig.kit
    columns = ["Gear", "What", *(["Kit number"] if kit else []), "Must hold", "Rated for", "Use"]
    head = el("tr", [el("th", name, scope="col") for name in columns])
    body = [_line(row, inspected) for row in rows]
    caption = el("caption", "The worst over the whole pull")
    table = el("table", caption, el("thead", head), el("tbody", body), class_="gear")
    return el("section", part("Gear list"), table, id="gear")


def _line(row: Row, inspected: Inspected) -> Html:
    kit = inspected.solution.rig.kit
    known = kit.get(row.pointer)
    number = f"{known.gear}{f', serial {known.serial}' if known.serial else ''}" if known else "not from the kit"
    over = row.use is not None and row.use > 1.0
    use = el("b", "not known") if row.use is None else el("b", percent(row.use), " OVER") if over else percent(row.use)
    return el(
        "tr",
        el("th", row.name, scope="row"),
        el("td", _GEAR[row.kind]),
        el("td", number) if kit else None,
        el("td", row.holds, " ", el("small", row.when)),
        el("td", row.rated),
        el("td", use, el("small", " not all of it known") if row.untold and row.use is not None else None),
        class_="over" if over else "unknown" if row.use is None or row.untold else None,
    )


def _rows(inspected: Inspected) -> Iterator[Row]:
    """One row a thing: over several stages the worst, and what isn't known goes before what is."""
    worst: dict[tuple[str, str], Row] = {}
    for stage in inspected.solution.stages:
        for row in _of_stage(stage, inspected):
            before = worst.get((row.kind, row.name))
            if before is None or _graver(row, before):
                worst[row.kind, row.name] = row
    yield from worst.values()


def _graver(row: Row, before: Row) -> bool:
    if (row.use is None) != (before.use is None):
        return row.use is None
    return surpasses(row.use or 0.0, before.use or 0.0)


def _compared(stage: StageSolution, inspected: Inspected) -> dict[tuple[str, str], Check]:
    """Each thing's gravest check of a load against what may be carried."""
    checks = [check for outcome in inspected.inspection.outcomes for check in outcome.checks]
    here = [check for check in checks if check.where.stage == stage.stage.index and _carries(check)]
    here.sort(key=lambda check: round(check.use or 0.0, 9))
    return {(check.where.kind, check.where.name): check for check in here}


def _carries(check: Check) -> bool:
    if check.unit != "N" or check.use is None or not check.limit or check.measured is None:
        return False
    return isclose(check.use, check.measured / check.limit)


def _of_stage(stage: StageSolution, inspected: Inspected) -> Iterator[Row]:
    known = _compared(stage, inspected)
    untold = uses(inspected.inspection, stage.stage.index).untold
    seats = {name.split(".")[0] for kind, name in known if kind == "seat"}
    for (kind, name), check in known.items():
        if kind in _GEAR:
            yield _known(check, (kind, name) in untold, inspected.system)
    for component in stage.components:
        ground = component.kind == "body" and component.name == "ground"
        seated = component.kind == "redirect" and component.name in seats
        if component.kind in _GEAR and component.key not in known and not ground and not seated:
            yield _unknown(component, stage, inspected.system)


def _known(check: Check, untold: bool, system: str) -> Row:
    where = check.where
    holds, limit = compared(check, system)
    when = CASES.get(where.case, where.case)
    rated = f"{limit} {check.measure}".strip()
    return Row(where.kind, where.name, where.pointer, holds, when, rated, check.use, untold)


def _unknown(component: Component, stage: StageSolution, system: str) -> Row:
    peaks = [(peak.load_n, case) for case in ALL_CASES if (peak := stage.peak(component, case))]
    if not peaks:
        return Row(*component.key, component.pointer, "can't be told", "", "not known", None, True)
    load_n, case = max(peaks)
    return Row(*component.key, component.pointer, show(load_n, "N", system), CASES[case], "not known", None, True)
