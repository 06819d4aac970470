"""What else is wrong with a plan whose shape is refused: names that stand for nothing, circles, things named twice.

To look names up there must be a whole plan. So what is refused is put aside, step by step, until the models take
the rest, and of what is then found only that is told which holds whatever was meant at the places put aside.
Looked at only once something is wrong, so nothing here needs to be quick.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from copy import deepcopy
from typing import Any, Final

from pydantic import ValidationError

from riglint.plan.faults import MOST_PROBLEMS, ROUNDS, is_echo, nothings, place_of
from riglint.plan.plan import Plan
from riglint.reading.build import pointer_of
from riglint.reading.document import Document
from riglint.reading.nearest import nearest
from riglint.reading.problems import Problem
from riglint.rig.faults import Fault, RigFaults
from riglint.rig.resolve import resolve

Place = list[str | int]


def further_problems(document: Document, unfilled: Iterable[str] = ()) -> list[Problem]:
    """Faults of names and circles in a plan that its models refuse; none where too little of it is left to tell.

    `unfilled` are the places of entries whose gear no kit has: what they are isn't known.
    """
    rest = _Rest(document.data, unfilled)
    plan = rest.plan()
    if plan is None:
        return []
    try:
        resolve(plan)
    except RigFaults as error:
        faults = [fault for fault in error.faults if rest.holds(fault)]
        return [document.problem(f.pointer, f.what, f.serves, key=f.key) for f in faults]
    return []


class _Rest:
    """What is left of a plan's data, and what was put aside."""

    def __init__(self, data: Any, unfilled: Iterable[str]) -> None:
        self.written = set(_keys(data))
        self.aside = list(unfilled)
        self._nameless = False  # whether a piece or join was put aside that bears no name
        self._data = deepcopy(data)

    def plan(self) -> Plan | None:
        """The rest as a plan, once the models take it."""
        if not isinstance(self._data, dict):
            return None
        for place in list(nothings(self._data)):
            self._put_aside(place)
        for _ in range(ROUNDS):
            if not self._names_all():
                return None
            try:
                return Plan.model_validate(self._data)
            except ValidationError as error:
                details = [d for d in error.errors(include_url=False) if not is_echo(d)]
            if len(details) > MOST_PROBLEMS:
                return None
            places = [place_of(d, self._data)[: -1 if d["type"] == "missing" else None] for d in details]
            for place in sorted(places, key=len, reverse=True):
                self._put_aside(place)
        return None

    def _names_all(self) -> bool:
        """Whether there is still all to look names up in."""
        gone = any(place.rpartition("/")[2] in _NAMING for place in self.aside)
        return not gone and "bodies" in self._data and "points" in self._data

    def holds(self, fault: Fault) -> bool:
        """Whether a fault is one whatever was meant at the places put aside."""
        if fault.name is not None:
            name = fault.name.split(" ")[0]  # a person is `in` the cab of a body: its name comes first
            meant = nearest(name, [place.rpartition("/")[2] for place in self.aside])
            if (fault.key and "/lines" in self.aside) or (self._nameless and "/watches/" in fault.pointer):
                return False  # what bears the name may have been put aside with it
            return name not in self.written and meant is None and not self._is_aside(fault.pointer)
        entry = _entry(fault.pointer)
        touched = any(_within(place, entry) or _within(entry, place) for place in self.aside)
        return not touched and not fault.of_whole and not any(f"`{name}`" in fault.what for name in self._spoilt())

    def _is_aside(self, pointer: str) -> bool:
        return any(_within(pointer, place) for place in self.aside)

    def _spoilt(self) -> Iterator[str]:
        """The names of entries that something was put aside of."""
        return (_entry(place).rpartition("/")[2] for place in self.aside)

    def _put_aside(self, place: Place) -> None:
        """Take a place out of the data; in a list its neighbour stands in for it, so that the others keep theirs."""
        if not place:
            self._stand_in()
            return
        *above, last = place
        holder = _at(self._data, above)
        if last == "pieces" or (above[-1:] in (["lines"], ["pieces"]) and not isinstance(_at(holder, [last]), dict)):
            self._nameless = True
        if isinstance(holder, dict) and last in holder:
            del holder[last]
        elif isinstance(holder, list) and isinstance(last, int) and last < len(holder):
            if len(holder) == 1:
                self._put_aside(above)
                return
            holder[last] = deepcopy(holder[last - 1 if last else 1])
        else:
            return
        self.aside.append(pointer_of(place))

    def _stand_in(self) -> None:
        """What every plan must have, where it isn't there or was put aside."""
        for key, value in _STAND_INS.items():
            if key not in self._data:
                self._data[key] = deepcopy(value)
                self.aside.append(pointer_of([key]))
        if "/winch" in self.aside:
            points = self._data.get("points")
            self._data["winch"] = {"mounted": next(iter(points), "") if isinstance(points, dict) else ""}


_NAMING: Final = ("bodies", "points", "redirects", "connectors")
_STAND_INS: Final[dict[str, Any]] = {
    "rig_plan": 1,
    "title": "a plan",
    "winch": {},
    "lines": {"line": {"pieces": [{"rope": {}}], "path": ["winch", "point"]}},
}


def _keys(data: Any) -> Iterator[str]:
    """Every key that is written anywhere: what bears one of these as its name may be what was meant."""
    if isinstance(data, dict):
        yield from data
    for value in data.values() if isinstance(data, dict) else data if isinstance(data, list) else ():
        yield from _keys(value)


def _at(data: Any, place: Place) -> Any:
    for step in place:
        if isinstance(data, dict):
            data = data.get(step)
        else:
            data = data[step] if isinstance(data, list) and isinstance(step, int) and step < len(data) else None
    return data


def _entry(pointer: str) -> str:
    """The named entry that a place is in: `/points/ash` of `/points/ash/at/0`."""
    steps = pointer.split("/")
    return "/".join(steps[: 5 if steps[1:2] == ["stages"] else 3])


def _within(pointer: str, place: str) -> bool:
    return f"{pointer}/".startswith(f"{place}/")
