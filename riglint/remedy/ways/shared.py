"""A second anchor that nobody has named yet: what it would have to hold, in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.mechanics.vectors import Vec
from riglint.outcome import Finding, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import Operation, add, replace, value_at
from riglint.remedy.quantity import exact_place, newtons, rounded_up
from riglint.remedy.ways.anchors import point_of, uses_of
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Point, RigStage

_BESIDE_M = 2.0
_LEG_M = 3.0
_SHARES = (0.5, 0.6, 0.75, 1.0)


def second_anchor(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """One of several things on a point made fast to a second point; or one thing shared by a bridle."""
    stage, load_n = shop.rig.stages[finding.check.where.stage], finding.check.measured
    point = point_of(stage, finding)
    if point is None or load_n is None or finding.check.unit != "N" or shop.data.get("stages"):
        return
    uses = list(uses_of(shop.data, stage, point.name))
    for share in _SHARES:
        needed = rounded_up(load_n * share)
        further = add("/points/second_anchor", _point(stage, point, needed))
        terms = (("point", point.name), ("needed", Value(needed, "N")), ("leg", Value(_LEG_M, "m")))
        for use in uses if len(uses) > 1 else ():
            words = "make {what} fast to a second point near {point}, rated for at least {needed}"
            changes: tuple[Operation, ...] = (further, replace(use.pointer, "second_anchor"))
            yield Proposal(words, (*terms, ("what", use.what)), changes, need=True)
        for use in uses if len(uses) == 1 else ():
            words = (
                "share {what} between {point} and a second point beside it by an equalised bridle with legs of {leg}; "
                "the second point and each leg rated for at least {needed}"
            )
            changes = (further, *_bridle(shop, use.pointer, point.name, needed))
            yield Proposal(words, (*terms, ("what", use.what)), changes, need=True)


def _point(stage: RigStage, point: Point, rated_n: float) -> dict[str, Any]:
    """Beside the point, across the pull."""
    way = stage.direction
    at: Vec = (point.at[0] - way[1] * _BESIDE_M, point.at[1] + way[0] * _BESIDE_M, point.at[2])
    kind = "ground anchor" if point.body.name == "ground" else "recovery point"
    entry = {"on": point.facts.on, "at": exact_place(tuple(round(c, 3) for c in at)), "kind": kind}
    return entry | {"rated": newtons(rated_n), "basis": "asked for"}


def _bridle(shop: Workshop, at: str, point: str, rated_n: float) -> Iterator[Operation]:
    leg = {"length": f"{_LEG_M:g} m", "working_load": newtons(rated_n)}
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
