"""A plan's plain data filled in from a kit, before the models see it: everything after is as if written out."""

from __future__ import annotations

from copy import deepcopy
from datetime import date
from typing import Any, Literal, NamedTuple

from riglint.kit.dates import last_day
from riglint.kit.entries import Slot, piece_or_join, slots
from riglint.kit.merge import Clash, facts_for, merge
from riglint.kit.read import Gear, Kit
from riglint.reading.build import Part, pointer_of
from riglint.reading.document import Document
from riglint.reading.nearest import nearest, one_of
from riglint.reading.problems import Problem, quoted
from riglint.rig.model import KitFacts

_MOST_LISTED = 12
_RATINGS = frozenset({"working_load", "breaking", "rated", "keeps", "rated_pull", "stall_pull"})
_SEATS = ("sheave", "groove", "bore", "head")


class FilledDocument(Document):
    """A plan's text, with data that is partly a kit's: such a value stands where the plan names the gear."""

    __slots__ = ("lent",)

    def __init__(self, plan: Document, data: Any) -> None:
        super().__init__(plan.file, plan.text, plan.bom, data, plan._root)
        self.lent: dict[str, str] = {}

    def _find(self, pointer: str) -> tuple[Any, Part]:
        end = pointer.find("/", 1)
        while end > 0:
            if pointer[:end] in self.lent:
                return super()._find(self.lent[pointer[:end]])
            end = pointer.find("/", end + 1)
        return super()._find(self.lent.get(pointer, pointer))


class Filled(NamedTuple):
    """What a kit made of a plan: its document, what is wrong, and the gear by the place of the entry."""

    document: Document
    problems: list[Problem]
    unfilled: frozenset[str]
    """Entries that the kit could not fill in: what is missing there is no fault of its own."""
    kit: dict[str, KitFacts]

    def would_fill(self, problem: Problem) -> bool:
        """Whether a problem is only that something is missing which the gear that was meant would bring."""
        missing = problem.what.endswith("is missing")
        return missing and any(f"{problem.place}/".startswith(f"{entry}/") for entry in self.unfilled)


def fill(plan: Document, kit: Kit | None) -> Filled:
    """Fill in every entry that names gear; `kit` is None where there is none to look into."""
    document = FilledDocument(plan, deepcopy(plan.data))
    problems: list[Problem] = []
    unfilled: set[str] = set()
    facts: dict[str, KitFacts] = {}
    for slot in slots(document.data):
        gear, problem = _gear(slot, kit, document)
        if kit is None or gear is None:
            unfilled.add(slot.pointer)
            problems += [problem] if problem else []
            continue
        facts[slot.pointer], clashes = _fill_in(slot, gear, document)
        problems += [_clash(clash, slot, gear, kit, document) for clash in clashes]
    return Filled(document, problems, frozenset(unfilled), facts)


def _gear(slot: Slot, kit: Kit | None, document: Document) -> tuple[Gear | None, Problem | None]:
    """The gear that an entry names, or what is wrong with the name."""
    number, at = slot.entry["from_kit"], f"{slot.pointer}/from_kit"
    if kit is None:
        serves = "name the kit's file with `kit:`, or write the facts out here"
        return None, document.problem(at, f"{quoted(number)} is gear of a kit, and there is no kit", serves)
    gear = kit.gear.get(number)
    if gear is None:
        near = nearest(number, kit.gear)
        serves = f"did you mean `{near}`?" if near else f"use {one_of(list(kit.gear)[:_MOST_LISTED])}"
        return None, document.problem(at, f"{quoted(number)} is no gear of {kit.document.file}", serves)
    if facts_for(slot.kind, gear.kind, gear.written) is None:
        what = f"{quoted(number)} is a {gear.kind} in {kit.place(number)}, and a {slot.kind} belongs here"
        return None, document.problem(at, what, "use another number, or name it in another place of the plan")
    return gear, None


def _fill_in(slot: Slot, gear: Gear, document: FilledDocument) -> tuple[KitFacts, list[Clash]]:
    lent = facts_for(slot.kind, gear.kind, gear.written) or {}
    rated_here = _is_rated(slot.entry)
    lent_keys, clashes = merge(slot.entry, lent)
    at = f"{slot.pointer}/from_kit"
    document.lent |= {slot.pointer + pointer_of(list(keys)): at for keys in lent_keys}
    rated: Literal["kit", "plan", "nowhere"] = "kit" if _is_rated(gear.written) else "plan" if rated_here else "nowhere"
    return _facts(slot, gear, rated), clashes


def good_until(gear: Gear) -> date | None:
    """The last day of its inspection; None where day or interval is missing."""
    record = gear.record
    interval = record.inspection_interval
    return last_day(record.inspected, interval) if record.inspected and interval else None


def _facts(slot: Slot, gear: Gear, rated: Literal["kit", "plan", "nowhere"]) -> KitFacts:
    record = gear.record
    interval = record.inspection_interval
    return KitFacts(
        gear=gear.number,
        what=gear.kind,
        kind=piece_or_join(slot.entry) if slot.kind == "piece" else slot.kind,
        name=slot.name,
        serial=record.serial,
        inspected=record.inspected,
        interval_stated=interval is not None,
        good_until=good_until(gear),
        retired=record.retired,
        rated=rated,
    )


def _is_rated(facts: dict[str, Any]) -> bool:
    """Whether a rating or a strength is stated; of a block or ring, for each seat that it has."""
    seats = [facts[seat] for seat in _SEATS if isinstance(facts.get(seat), dict)]
    if seats:
        return all(_RATINGS & seat.keys() for seat in seats)
    return bool(_RATINGS & facts.keys())


def _clash(clash: Clash, slot: Slot, gear: Gear, kit: Kit, document: Document) -> Problem:
    place = slot.pointer + pointer_of(list(clash.keys))
    key = clash.keys[-1]
    there = f"{_shown(clash.kits)} for {gear.number} in {kit.place(gear.number)}"
    if clash.longer:
        what = f"{_shown(clash.own)} is longer than the gear: {there}"
        return document.problem(place, what, "write the length as rigged, or mend the kit")
    what = f"`{key}` is {_shown(clash.own)} here and {there}"
    return document.problem(place, what, "leave it out here, or mend the kit if that is wrong")


def _shown(value: Any) -> str:
    if isinstance(value, dict | list):
        return "a list" if isinstance(value, list) else "a mapping"
    return quoted(str(value).lower() if isinstance(value, bool) else str(value))
