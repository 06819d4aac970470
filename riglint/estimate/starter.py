"""A plan to start from: what was given and what the ladder says, and nothing that nobody gave.

Ratings come from the question or the kit alone. Places across the pull are a sketch, and say so.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final, NamedTuple

from riglint.estimate.estimate import LOAD, Estimate, Place
from riglint.estimate.serves import Fit, seat_of
from riglint.kit.merge import facts_for
from riglint.outcome import Result
from riglint.plan.redirects import Redirect
from riglint.remedy.flow import flow

_APART_M: Final = 0.1  # between what stands side by side, until somebody measures
_MEASURE: Final = "  # MEASURE: across the pull this is a sketch"


class NoStartError(ValueError):
    """There is nothing to start from: no number of parts does it, or the places aren't known."""


class _Names(NamedTuple):
    point: str
    connector: str


def starter(found: Estimate, folder: Path) -> str:
    """The plan's text; whether its kit can be named hangs on the `folder` where it will stand. Raises NoStartError."""
    if found.serves is None:
        raise NoStartError("no plan is written: no number of parts does it, or it can't be told")
    question = found.asked.question
    if question.reach is None or question.distance is None:
        lacks = "reach" if question.reach is None else "distance"
        raise NoStartError(f"no plan is written: give `{lacks}`, without which nothing has a place")
    return "\n".join([*_lines(found, _kit_name(found, folder)), ""])


def _kit_name(found: Estimate, folder: Path) -> str | None:
    """The kit from the plan's folder on; None where it doesn't stand below, and its facts are written out."""
    if found.asked.kit_path is None:
        return None
    try:
        return found.asked.kit_path.resolve().relative_to(folder.resolve()).as_posix()
    except ValueError:
        return None


def _lines(found: Estimate, kit: str | None) -> Iterator[str]:
    data, parts = found.asked.data, found.serves.parts if found.serves else 0
    count = "one part" if parts == 1 else f"{parts} parts"
    yield f"# A plan to start from, by `riglint estimate`: {count} by doctrine's ladder. It holds what was given and"
    yield "# what the kit has, and no rating besides: complete it, measure what is marked, and let prepull check it."
    if found.asked.kit_path is not None and kit is None:
        yield "# The kit doesn't stand below this plan's folder: gear is written out, and no inspection asked for."
    yield "rig_plan: 1"
    yield f"title: {flow(data.get('title') or f'Estimate, {count}')}"
    if "reports_in" in data:
        yield f"reports_in: {data['reports_in']}"
    if kit:
        yield f"kit: {flow(kit)}"
    yield from ["", "bodies:", *_load(data), "  winch_vehicle: {}", "", "points:"]
    yield from _points(found, kit)
    yield from ["", f"winch: {flow(_winch(data, kit))}", "", "lines:", "  haul:", "    pieces:"]
    yield f"      - mainline: {flow(_rope(found, kit))}"
    yield f"    path: {flow(_path(found))}"
    yield from _section("redirects", ((place.name, _block(found, place, kit)) for place in _blocks(found)))
    yield from _section("connectors", ((_names(found, p).connector, _gear(found, p.connector, "connector", kit))
                                       for p in found.places if p.connector))  # fmt: skip


def _section(name: str, entries: Iterator[tuple[str, dict[str, Any]]]) -> list[str]:
    lines = [f"  {key}: {flow(entry)}" for key, entry in entries]
    return ["", f"{name}:", *lines] if lines else []


def _load(data: dict[str, Any]) -> Iterator[str]:
    yield f"  {LOAD}:"
    yield f"    moves: {{distance: {flow(data['distance'])}, bearing: 0 deg}}"
    for key in ("weight", "ground", "overturned", "running_gear"):
        if key in data:
            yield f"    {key}: {flow(data[key])}"
    if "resistance" in data:
        yield f"    resistance: {{steady: {flow(data['resistance'])}}}"


def _points(found: Estimate, kit: str | None) -> Iterator[str]:
    span = found.asked.question.reach
    # A place is one point: of a range, the far end is taken.
    reach = found.asked.data["reach"] if span is None or span.exact else f"{round(span.high, 4):.10g} m"
    for i, place in enumerate(found.places):
        on = LOAD if place.on_load else "winch_vehicle" if place.name == "winch" else "ground"
        at = ["0 m" if place.on_load else reach, f"{_APART_M * i:.10g} m"]
        entry = {"on": on, "at": at} | (_gear(found, place.anchor, "point", kit) if place.anchor else {})
        yield f"  {_names(found, place).point}: {flow(entry)}" + (_MEASURE if i else "")


def _names(found: Estimate, place: Place) -> _Names:
    if place.name == "winch":
        return _Names("winch_mount", "")
    number = sum(other.on_load == place.on_load for other in found.places[1 : found.places.index(place) + 1])
    end = place.name.removeprefix("block_") if place.name.startswith("block_") else "end"
    return _Names(f"{'load_point' if place.on_load else 'anchor'}_{number}", f"connector_{end}")


def _blocks(found: Estimate) -> list[Place]:
    return [place for place in found.places if place.is_block]


def _held(found: Estimate, place: Place) -> list[str]:
    names = _names(found, place)
    return [names.connector, names.point] if place.connector else [names.point]


def _path(found: Estimate) -> list[Any]:
    turns = [f"{place.name}.{_seat(found, place)}" for place in _blocks(found)]
    held = _held(found, found.places[-1])
    return ["winch", *turns, held if len(held) > 1 else held[0]]


def _facts_of(found: Estimate, fit: Fit | None) -> Any:
    kit = found.asked.kit
    return kit.gear[fit.number] if fit and kit else None


def _seat(found: Estimate, place: Place) -> str:
    gear = _facts_of(found, place.block)
    return seat_of(gear.record) if gear and isinstance(gear.record, Redirect) else "sheave"


def _block(found: Estimate, place: Place, kit: str | None) -> dict[str, Any]:
    entry = _gear(found, place.block, "redirect", kit) if place.block else {}
    return (entry or {"kind": "block", "sheave": {}}) | {"hung_from": _held(found, place)}


def _gear(found: Estimate, fit: Fit | None, kind: str, kit: str | None) -> dict[str, Any]:
    """Gear by its number where the plan can name the kit, else with the facts that the kit has of it."""
    gear = _facts_of(found, fit)
    if gear is None:
        return {}
    return {"from_kit": gear.number} if kit else facts_for(kind, gear.kind, gear.written) or {}


def _winch(data: dict[str, Any], kit: str | None) -> dict[str, Any]:
    facts = dict(data["winch"])
    number = facts.pop("from_kit", None)
    facts.pop("mounted", None)
    return {"mounted": "winch_mount"} | ({"from_kit": number} if number and kit else facts)


def _rope(found: Estimate, kit: str | None) -> dict[str, Any]:
    given = dict(found.asked.data.get("rope") or {})
    number = given.pop("from_kit", None) or (found.rope if not given else None)
    if number and kit:
        return {"from_kit": number}
    return given or (_gear(found, Fit(number, Result.CANT_TELL), "piece", None) if number else {})
