"""A second anchor that nobody has named yet: what it would have to hold, in words."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import Any, NamedTuple

from riglint.mechanics.vectors import Vec
from riglint.outcome import Finding, Term, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import Operation, add, replace, value_at
from riglint.remedy.quantity import exact_place, length, newtons, rounded_up
from riglint.remedy.ways.anchors import point_of, uses_of
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Point, RigStage

_BESIDE_M = 2.0
_LEG_M = 3.0
_SHARES = (0.5, 0.6, 0.75, 1.0)
_POINT = "a second point {far} to the left of"
_MADE_FAST = f"make {{what}} fast to {_POINT} {{point}}, looking the way of the pull, rated for at least {{needed}}"
_SHARED = (
    f"share {{what}} between {{point}} and {_POINT} it, looking the way of the pull, by an equalised bridle with legs "
    "of {leg}; the second point and each leg rated for at least {needed}"
)


class _Second(NamedTuple):
    """A second point as it is tried, and what stands for it in words."""

    entry: dict[str, Any]
    leg: dict[str, Any]
    terms: tuple[Term, ...]


def second_anchor(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """One of several things on a point made fast to a second point; or one thing shared by a bridle."""
    stage, load_n = shop.rig.stages[finding.check.where.stage], finding.check.measured
    point = point_of(stage, finding)
    if point is None or load_n is None or finding.check.unit != "N" or shop.data.get("stages"):
        return
    uses = list(uses_of(shop.data, stage, point.name))
    for share in _SHARES:
        second = _second(shop.rig.reports_in, stage, point, load_n * share)
        further = add("/points/second_anchor", second.entry)
        for use in uses:
            terms = (*second.terms, ("what", use.what))
            if len(uses) > 1:
                changes: tuple[Operation, ...] = (further, replace(use.pointer, "second_anchor"))
                yield Proposal(_MADE_FAST, terms, changes, need=True)
            else:
                changes = (further, *_bridle(shop, use.pointer, point.name, second.leg))
                yield Proposal(_SHARED, terms, changes, need=True)


def _second(system: str, stage: RigStage, point: Point, load_n: float) -> _Second:
    """Beside the point, across the pull."""
    way, needed = stage.direction, rounded_up(load_n, "N", system)
    (_, far), (leg, leg_m) = (length(metres, system, up=True) for metres in (_BESIDE_M, _LEG_M))
    across = hypot(way[0], way[1]) or 1.0
    at: Vec = (point.at[0] - way[1] / across * far, point.at[1] + way[0] / across * far, point.at[2])
    kind = "ground anchor" if point.body.name == "ground" else "recovery point"
    entry = {"on": point.facts.on, "at": exact_place(tuple(round(c, 3) for c in at)), "kind": kind}
    terms = (
        ("point", point.name),
        ("needed", Value(needed, "N")),
        ("far", Value(far, "m")),
        ("leg", Value(leg_m, "m")),
    )
    rated = {"rated": newtons(needed), "basis": "asked for"}
    return _Second(entry | rated, {"length": leg, "working_load": newtons(needed)}, terms)


def _bridle(shop: Workshop, at: str, point: str, leg: dict[str, Any]) -> Iterator[Operation]:
    legs = [{"to": point} | leg, {"to": "second_anchor"} | leg]
    bridle = {"kind": "bridle", "length": "0 m", "legs": legs, "equalised": True}
    yield (
        add("/connectors/second_bridle", bridle)
        if "connectors" in shop.data
        else add("/connectors", {"second_bridle": bridle})
    )
    owner = at.rpartition("/")[0]
    in_chain = isinstance(value_at(shop.data, owner), list) and not owner.endswith("/path")
    yield replace(at, "second_bridle") if in_chain else replace(at, ["second_bridle"])
