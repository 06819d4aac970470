"""Bodies: what keeps a vehicle where it is, and a pull that ends before the trouble begins."""

from __future__ import annotations

from collections.abc import Iterator

from riglint.outcome import Finding, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import put, replace, value_at
from riglint.remedy.quantity import length, newtons, rounded_up
from riglint.remedy.workshop import Workshop

_SHORTER = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2)


def secure(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Brakes on and chocks under the wheels."""
    at = finding.check.where.pointer + "/secured"
    known = value_at(shop.data, at) or []
    missing = [how for how in ("brakes", "chocks") if how not in known]
    if missing and finding.rule == "vehicle-slides":
        terms = (("name", finding.check.where.name), ("how", " and ".join(missing)))
        yield Proposal("secure {name} with {how}", terms, (put(shop.data, at, [*known, *missing]),))


def tie_back(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """What a tie-back would have to hold, in words: who has one must say what it is rated for."""
    check, where = finding.check, finding.check.where
    if finding.rule != "vehicle-slides" or check.measured is None or check.limit is None:
        return
    known = value_at(shop.data, f"{where.pointer}/secured") or []
    for over in (1.0, 1.1, 1.5, 2.0):
        needed = rounded_up((check.measured - check.limit) * over, "N", shop.rig.reports_in)
        if needed <= 0.0:
            return
        changes = (
            put(shop.data, f"{where.pointer}/held_by", newtons(needed)),
            put(shop.data, f"{where.pointer}/secured", [*known, *{"tied back"} - set(known)]),
        )
        terms = (("name", where.name), ("needed", Value(needed, "N")))
        yield Proposal("tie {name} back with something rated for at least {needed}", terms, changes, need=True)


def end_sooner(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A pull that ends short of where the finding begins; the rest has to be rigged anew."""
    where = finding.check.where
    stage = shop.rig.stages[where.stage]
    at = f"{stage.load.pointer}/moves/distance"
    if shop.data.get("stages") or not where.travel_m or value_at(shop.data, at) is None:
        return
    for travel_m in (where.travel_m - 0.1, *(where.travel_m * share for share in _SHORTER)):
        text, exact = length(travel_m, shop.rig.reports_in, up=False)
        if 0.0 < exact < stage.travel.low:
            terms = (("new", Value(exact, "m")), ("rest", Value(stage.travel.high - exact, "m")))
            words = "end this pull after {new} and re-rig there: the last {rest} are then a pull of their own"
            yield Proposal(words, terms, (replace(at, text),))


def rewind(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Rope wound on again under a steady pull."""
    if finding.rule == "spooled-loose":
        change = put(shop.data, "/winch/spooled", "under tension")
        yield Proposal("pay the line out and wind it on again under a steady pull", (), (change,))


def mouse(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A shackle's screw pin secured, and its bow toward what moves."""
    at = finding.check.where.pointer
    if finding.rule != "pin-bears-on-rope":
        return
    terms = (("name", finding.check.where.name),)
    if dict(finding.check.terms).get("what"):
        change = put(shop.data, f"{at}/pin_bears", "eye")
        yield Proposal("turn {name} round, so that its bow takes what moves", terms, (change,))
    yield Proposal("wire the pin of {name} to its body", terms, (put(shop.data, f"{at}/pin_moused", True),))
