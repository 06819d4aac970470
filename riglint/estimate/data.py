"""An estimate as plain data, in SI."""

from __future__ import annotations

from typing import Any

from riglint.estimate.estimate import Estimate, Place
from riglint.estimate.serves import Fit, Load
from riglint.report.compact import compact


def as_json(found: Estimate) -> str:
    """One line of JSON. Forces are in newtons, lengths in metres; what can't be told is null."""
    return compact(_data(found)) + "\n"


def _data(found: Estimate) -> dict[str, Any]:
    line, chosen = found.line, found.serves
    return {
        "estimate": 1,
        "parts": chosen.parts if chosen else None,
        "sure": found.sure,
        "done": found.is_done,
        "resistance_n": found.load_n,
        "used": found.resistance.used,
        "ladder": [
            {"parts": r.parts, "sheaves": r.sheaves, "tackle_n": r.tackle_n, "total_n": r.total_n,
             "fall_line_n": r.fall_line_n, "line_n": r.line_n, "winch_n": r.gives.pull_n, "layer": r.gives.layer,
             "serves": r.serves}
            for r in found.rungs if r.line_n < float("inf")
        ],
        "doctrine": found.doctrine and {
            "resistance_n": found.doctrine.resistance_n,
            "parts": found.doctrine.rung.parts if found.doctrine.rung.serves else None,
        },
        "line": None if line is None else {
            "out_m": line.out_m, "stays_m": line.stays_m, "needed_m": line.needed_m, "there_m": line.there_m,
            "enough": line.enough,
        },
        "places": [_place(place) for place in found.places],
        "total": _load(found.total) if found.total else None,
        "kit": [{"for": what, "gear": [_fit(fit) for fit in fits]}
                for what, fits in (("rope", found.rope_fits), *found.others) if fits],
        "missing": list(dict.fromkeys(found.missing)),
    }  # fmt: skip


def _load(load: Load) -> dict[str, Any]:
    return {"expected_n": load.expected_n, "stall_n": load.stall_n}


def _place(place: Place) -> dict[str, Any]:
    gear = [fit.number for fit in (place.block, place.connector, place.anchor) if fit]
    return {"name": place.name, "on_load": place.on_load, "lines": place.lines, **_load(place.load), "from_kit": gear}


def _fit(fit: Fit) -> dict[str, Any]:
    figures = {"carries_n": fit.carries_n, "may_n": fit.may_n}
    overdue = {"inspection_ran_out": fit.overdue.isoformat() if fit.overdue else None}
    return {"gear": fit.number, "result": fit.result.value, "why": fit.why, **figures, **overdue}
