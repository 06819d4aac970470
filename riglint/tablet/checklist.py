"""The checks before the pull, made from this plan: what somebody must go and look at, and tick."""

from __future__ import annotations

from typing import Any

from riglint.outcome import Result, Verdict
from riglint.plan.plan import Plan
from riglint.report.material import Inspected


def checklist(inspected: Inspected, plan: Plan) -> dict[str, Any]:
    """Sections of items, and whether the plan may be signed as clear, or why not."""
    sections = [
        ("Winch and brakes", [*_winch(plan), *_bodies(plan)]),
        ("Line and joins", _line(plan)),
        ("Redirects", [(f"redirects/{n}", f"{n}: {r.kind} closed, pinned and free to align") for n, r in plan.redirects.items()]),
        ("Connectors", [(f"connectors/{n}", f"{n}: {c.kind or 'connector'} seated, closed and pulled in line") for n, c in plan.connectors.items()]),
        ("Anchors and points", [(f"points/{n}", f"{n}: {p.kind or 'point'} on {p.on} looked over") for n, p in plan.points.items()]),
        ("People and signals", _people(plan)),
    ]
    return {
        "sections": [
            {"title": title, "items": [{"id": key, "text": text} for key, text in items]} for title, items in sections if items
        ],
        "may_be_clear": inspected.inspection.verdict is Verdict.CLEAR,
        "why_not": _why(inspected),
    }


def _why(inspected: Inspected) -> list[str]:
    halting = inspected.inspection.halting
    grave = [f for f in inspected.inspection.findings if f.grade.at_least(halting) and not f.waived]
    words = {Result.FAILED: "", Result.CANT_TELL: " (can't tell)"}
    found = [f"{f.grade.value}: {f.title}{words[f.result]}" for f in grave]
    found += [f"rule {o.rule} broke" for o in inspected.inspection.untested]
    found += [f"stage {s.stage.name} can't stand as planned" for s in inspected.solution.stages if s.refused]
    return list(dict.fromkeys(found)) if inspected.inspection.verdict is not Verdict.CLEAR else []


def _winch(plan: Plan) -> list[tuple[str, str]]:
    return [("winch", "Winch secured, brake tried, drum wound tight"), ("winch/freespool", "Clutch engaged, remote or lever tried")]


def _bodies(plan: Plan) -> list[tuple[str, str]]:
    held = [(n, ", ".join(b.secured)) for n, b in plan.bodies.items() if b.secured and not b.moves]
    return [(f"bodies/{n}", f"{n}: {what} set") for n, what in held]


def _line(plan: Plan) -> list[tuple[str, str]]:
    items = []
    for name, line in plan.lines.items():
        for entry in line.pieces:
            for part, facts in entry.items():
                what = getattr(facts, "kind", None)
                items.append((f"lines/{name}/{part}", f"{part}: {what} set right and pulled tight" if what else f"{part}: looked over along its length"))
    return items


def _people(plan: Plan) -> list[tuple[str, str]]:
    items = [("people/clear", "Nobody beside, over or in line with the rope; all bystanders back")]
    items += [(f"people/{i}", f"{p.who} in place") for i, p in enumerate(plan.people or ())]
    items.append(("signals", f"Signals tried: {plan.signals.by}" if plan.signals else "Signals agreed and tried; anybody may call stop"))
    if plan.dampers:
        items.append(("dampers", "Dampers laid on the legs"))
    items += [(f"stops/{i}", f"All know the stop: {s.do}") for i, s in enumerate(plan.stops)]
    return items
