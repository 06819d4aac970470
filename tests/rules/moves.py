"""Moving a fact of a plan the way that can only worsen a rule's outcome, and what milder means.

A fact is a place in a plan's plain data, as `Worse` of a rule names it: `points/*/rated`. Any name or number fits `*`;
in `pieces`, whose entries are mappings of one name, it fits both. Keys with `+` between them go together. A rule's
moves:

- `higher`, `lower`: every number of the quantity is multiplied, so that a range moves whole;
- `taken away`: the fact is left out of the plan, all of its keys at once;
- `nearer`: somebody's place moves up to the nearest leg that pulls, to within 6 ft of it. A move that is less may take
  somebody out of the way of a flying block and leave him in less danger.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from copy import deepcopy
from math import dist
from random import Random
from typing import Any

from riglint.mechanics.vectors import Vec
from riglint.outcome import Grade, Outcome, Result
from riglint.solve.exposure import CLEARANCE_M
from riglint.solve.solution import Solution

Path = tuple[str | int, ...]
_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_FRACTION = re.compile(r"/\d+")

Weight = int
CLEAR, UNTOLD = 0, 1


def weight(outcome: Outcome) -> Weight:
    """How grave an outcome is, which is the order of outcomes:

    inapplicable and passed < can't tell < failed NOTICE < failed CAUTION < failed WARNING < failed DANGER
    """
    if outcome.result is Result.UNTESTED:
        raise AssertionError(f"{outcome.rule}: {outcome.reason}")
    failed = [len(Grade) - finding.grade.rank for finding in outcome.findings if finding.result is Result.FAILED]
    return max(failed) + UNTOLD if failed else UNTOLD if outcome.findings else CLEAR


def is_milder(after: Weight, before: Weight, way: str) -> bool:
    """Whether the outcome got milder. Without a fact a failure may become a can't-tell, of any grade, never clear."""
    return after == CLEAR < before if way == "taken away" else after < before


def places(data: Any, fact: str) -> list[list[Path]]:
    """Where a fact stands in a plan: each time the paths of its keys, one of them or more."""
    *way, last = fact.split("/")
    found = []
    for above in _fitting(data, way):
        holder = at(data, above)
        paths = [(*above, key) for key in last.split("+") if isinstance(holder, dict) and key in holder]
        found += [paths] if paths else []
    return found


def _fitting(data: Any, way: list[str], path: Path = ()) -> Iterator[Path]:
    if not way:
        yield path
        return
    first, *rest = way
    if isinstance(data, dict):
        for key in data if first == "*" else [first] if first in data else []:
            yield from _fitting(data[key], rest, (*path, key))
    elif isinstance(data, list) and first == "*":
        for i, entry in enumerate(data):
            inside = path[-1] == "pieces"
            for key in entry if inside else [None]:
                yield from _fitting(entry[key] if inside else entry, rest, (*path, i, key) if inside else (*path, i))


def at(data: Any, path: Path) -> Any:
    """What stands at a place."""
    for key in path:
        data = data[key]
    return data


def by_chance(random: Random) -> float:
    """How far to move a fact: a factor over 1."""
    return random.choice((1.001, 1.05, 1.3, 2.0, 10.0, random.uniform(1.0, 4.0)))


def moved(data: Any, paths: list[Path], way: str, by: float, solution: Solution) -> Any:
    """The plan with a fact moved by a factor; None where it can't be moved that way."""
    data = deepcopy(data)
    for *above, key in paths:
        holder = at(data, tuple(above))
        if way == "taken away":
            del holder[key]
            continue
        factor = by if way == "higher" else 1.0 / by
        value = _nearer(solution, paths[0], by) if way == "nearer" else scaled(holder[key], factor)
        if value is None or value == holder[key]:
            return None
        holder[key] = value
    return data


def scaled(value: Any, factor: float) -> Any:
    """A quantity with each of its numbers multiplied, or None for what is no quantity."""
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return None
    if isinstance(value, int):
        return value + 1 if factor > 1.0 else value - 1 or None
    if isinstance(value, float):
        return value * factor
    fractions = {i for m in _FRACTION.finditer(value) for i in range(*m.span())}

    def put(number: re.Match[str]) -> str:
        return number[0] if number.start() in fractions else f"{float(number[0]) * factor:.9f}".rstrip("0").rstrip(".")

    joined = re.sub(r"(?<=\d)[ ,](?=\d{3})", "", value)
    return _NUMBER.sub(put, joined)


def _nearer(solution: Solution, path: Path, by: float) -> Any:
    """Somebody's place, moved towards the nearest place of a leg."""
    number = path[1]
    people = [(stage, stage.stage.people[number]) for stage in solution.stages if len(stage.stage.people) > number]
    spots = [
        (_closest(person.at, leg.start, leg.end), person.at)
        for stage, person in people if person.at
        for s in stage.stations for leg in s.legs if max(leg.tension.values(), default=1.0) > 0.0
    ]  # fmt: skip
    if not spots:
        return None
    spot, place = min(spots, key=lambda pair: (pair[0][0] - pair[1][0]) ** 2 + (pair[0][1] - pair[1][1]) ** 2)
    far = dist(place[:2], spot[:2])
    share = 1.0 - min(1.0, CLEARANCE_M / far) / by if far else 1.0
    return [f"{a + (b - a) * share:.9f} m" for a, b in zip(place[:2], spot[:2], strict=True)]


def _closest(place: Vec, start: Vec, end: Vec) -> Vec:
    way = (end[0] - start[0], end[1] - start[1])
    size = way[0] ** 2 + way[1] ** 2
    share = ((place[0] - start[0]) * way[0] + (place[1] - start[1]) * way[1]) / size if size else 0.0
    share = min(1.0, max(0.0, share))
    return (start[0] + way[0] * share, start[1] + way[1] * share, 0.0)
