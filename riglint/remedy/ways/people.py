"""People: out to where nothing reaches them, and somebody to watch a join."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from riglint.outcome import Finding, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import add, put, under, value_at
from riglint.remedy.quantity import place
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Person

_BEARINGS = 8
_LEAST_M = 0.5
_FAR_M = (2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0)


def move(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Places out along eight bearings, the nearest first."""
    person = _person(shop, finding)
    if person is None or person.at is None:
        return
    system, short = shop.rig.reports_in, _short(finding)
    for far in sorted(far for far in {*_FAR_M, *short} if far >= min(short, default=0.0)):
        for turn in range(_BEARINGS):
            angle = 2.0 * pi * turn / _BEARINGS
            at = (person.at[0] + far * cos(angle), person.at[1] + far * sin(angle), person.at[2])
            written = place(at, system)
            terms = (("who", person.who), ("far", Value(far, "m")), ("place", ", ".join(written)))
            changes = (put(shop.data, f"{person.pointer}/at", written),)
            yield Proposal("move {who} by {far}, to [{place}]", terms, changes)


def _short(finding: Finding) -> tuple[float, ...]:
    """By how much somebody is too near, a little more for the rounding, and by no less than is worth telling anybody.

    No shorter way leads far enough.
    """
    check = finding.check
    if check.unit != "m" or check.measured is None or check.limit is None or check.limit <= check.measured:
        return ()
    return tuple(max(_LEAST_M, check.limit * times - check.measured + 0.2) for times in (1.0, 1.42, 2.0))


def watch(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Give a join to somebody who is there already: who watches least, and is on foot, first."""
    if finding.rule != "join-watched":
        return
    join = finding.check.where.name
    people = shop.rig.stages[finding.check.where.stage].people
    for person in sorted(people, key=lambda p: (p.body is not None, len(p.facts.watches or ()), p.pointer)):
        at = f"{person.pointer}/watches"
        known = value_at(shop.data, at)
        change = add(under(at, "-"), join) if known else put(shop.data, at, [join])
        yield Proposal("have {who} watch {join}", (("who", person.who), ("join", join)), (change,))


def _person(shop: Workshop, finding: Finding) -> Person | None:
    where = finding.check.where
    people = shop.rig.stages[where.stage].people
    return next((p for p in people if p.pointer == where.pointer), None)
