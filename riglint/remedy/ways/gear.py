"""Gear: doubled, or other gear from the kit; and what gear would be needed where nobody has named any."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.outcome import Finding, Term, Unit, Value
from riglint.reading.quantity import QuantityError, parse_quantity
from riglint.remedy.model import Proposal
from riglint.remedy.patch import Operation, put, replace, value_at
from riglint.remedy.quantity import newtons, number, rounded_up
from riglint.remedy.workshop import Workshop

_DOUBLES = frozenset({"soft shackle", "strap", "sling", "rope strop", "wire sling"})
_RIGGED = {
    "connector": ("wrapped", "leg_angle", "off_line", "pin_moused", "pin_bears", "legs", "length", "notes"),
    "redirect": ("hung_from", "hung_through", "notes"),
    "join": ("set", "twist", "notes"),
    "piece": ("notes",),
}
_WHAT = {
    "working_load": "a working load of", "breaking": "a breaking strength of", "rated": "a rating of",
    "tread": "a tread of", "brake_hold": "a brake that holds", "rated_pull": "a rated pull of",
}  # fmt: skip
_MOST_GEAR = 16


def double(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A strap or soft shackle doubled. It is half as long then, which moves what hangs by it."""
    at = finding.check.where.pointer
    facts = value_at(shop.filled, at)
    if not isinstance(facts, dict) or facts.get("kind") not in _DOUBLES or facts.get("wrapped") not in (None, "single"):
        return
    name = at.rpartition("/")[2]
    halved = _halved(facts.get("length"))
    changes = [put(shop.data, f"{at}/wrapped", "doubled")]
    words = "double {name}"
    if halved:
        changes.append(put(shop.data, f"{at}/length", halved))
        words += ", which makes it half as long: {halved}"
    if facts.get("leg_angle") is None:
        yield Proposal(words, (("name", name), ("halved", halved or "")), tuple(changes))


def _halved(length: object) -> str | None:
    try:
        low, high = parse_quantity(str(length), "length")
    except QuantityError:
        return None
    halves = [f"{number(round(x / 2, 4))} m" for x in (low, high)]
    return halves[0] if low == high else " to ".join(halves)


def from_kit(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Gear of the same kind from the kit that isn't in the rig, the weakest that might serve first."""
    entry = _entry(shop, finding)
    if entry is None or shop.kit is None:
        return
    kind, at = entry
    own, used = value_at(shop.data, at), in_use(shop.data)
    facts = value_at(shop.filled, at)
    if not isinstance(own, dict) or not isinstance(facts, dict):
        return
    gear = [g for g in shop.kit.gear.values() if g.number not in used and not g.record.retired]
    fitting = [g for g in gear if g.kind == kind and g.written.get("kind") == facts.get("kind")]
    for one in sorted(fitting, key=lambda g: (strength(g.written), g.number))[:_MOST_GEAR]:
        kept = {key: own[key] for key in _RIGGED[kind] if key in own}
        terms: tuple[Term, ...] = (("name", at.rpartition("/")[2]), ("gear", one.number))
        entry_new = {"from_kit": one.number} | kept
        yield Proposal("take {gear} from the kit as {name}", terms, (replace(at, entry_new),))


def _entry(shop: Workshop, finding: Finding) -> tuple[str, str] | None:
    """What kind of gear the finding is about, and where its entry stands."""
    where = finding.check.where
    kind = "redirect" if where.kind in ("redirect", "seat") else where.kind
    if kind not in _RIGGED:
        return None
    at = where.pointer
    if kind == "redirect":
        at = "/".join(at.split("/")[: at.split("/").index("redirects") + 2]) if "/redirects/" in at else ""
    elif kind == "connector" and "/connectors/" not in at:
        return None
    return (kind, at) if at else None


def in_use(data: Any) -> set[str]:
    """The numbers of the kit's gear that the plan names anywhere."""
    if isinstance(data, dict):
        own = {data["from_kit"]} if isinstance(data.get("from_kit"), str) else set()
        return own.union(*map(in_use, data.values()))
    return set().union(*map(in_use, data)) if isinstance(data, list) else set()


def strength(facts: Any) -> float:
    """What gear is rated for, roughly: for trying the weakest first."""
    best = 0.0
    for key, share in (("working_load", 1.0), ("rated", 1.0), ("breaking", 0.25)):
        best = max(best, (_low(facts.get(key), "N") or 0.0) * share) if isinstance(facts, dict) else best
    inner = [v for v in facts.values() if isinstance(v, dict)] if isinstance(facts, dict) else []
    return max([best, *map(strength, inner)])


def need(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """How strong, or how wide, what failed would have to be. Only words: who has such gear must name it."""
    check = finding.check
    at = _rated_at(finding)
    facts = value_at(shop.filled, at)
    if check.use is None or not 1.0 < check.use < 1e6 or not isinstance(facts, dict):
        return
    key = _key(finding, facts)
    unit: Unit = "m" if key == "tread" else "N"
    low = _low(facts.get(key), unit)
    if low is None and (check.where.kind != "point" or check.unit != "N" or check.measured is None):
        return
    least = low * check.use if low is not None else check.measured or 0.0
    for over in (1.0, 1.1, 1.5):
        yield _needed(shop, at, facts, key, Value(rounded_up(least * over, unit, shop.rig.reports_in), unit))


def _key(finding: Finding, facts: dict[str, Any]) -> str:
    """The fact that the finding hangs on."""
    check = finding.check
    if check.where.kind == "winch":
        return "brake_hold" if check.measure == "brake" else "rated_pull"
    if check.unit == "1":
        return "tread"
    return next((key for key in ("working_load", "rated", "breaking") if key in facts), "rated")


def _needed(shop: Workshop, at: str, facts: dict[str, Any], key: str, needed: Value) -> Proposal:
    text = newtons(needed.si) if needed.unit == "N" else f"{number(needed.si)} m"
    mine = {k: v for k, v in facts.items() if k not in ("from_kit", key) and not _weaker(k, v, needed)}
    terms: tuple[Term, ...] = (("name", _name(shop.filled, at)), ("what", _WHAT[key]), ("needed", needed))
    if key == "rated_pull" and "stall_pull" not in mine and "stall_pull" in facts:
        mine["stall_pull"] = text  # a winch stalls at no less than it is rated for
    change = _of_other_gear(shop, at, mine | {key: text})
    return Proposal("{name} needs {what} at least {needed}", terms, (change,), need=True)


def _of_other_gear(shop: Workshop, at: str, facts: dict[str, Any]) -> Operation:
    """The facts put in; where the seat of a redirect came with it from the kit, the whole of another redirect."""
    if value_at(shop.data, at) is not None:
        return replace(at, facts)
    owner, _, seat = at.rpartition("/")
    lent = value_at(shop.filled, owner) or {}
    return replace(owner, {k: v for k, v in lent.items() if k != "from_kit"} | {seat: facts})


def _weaker(key: str, value: Any, needed: Value) -> bool:
    """A strength or stall pull beside the rating, which could no longer stand beside it."""
    low = _low(value, "N") if key in ("breaking", "stall_pull") and needed.unit == "N" else None
    return low is not None and low < needed.si


def _name(data: Any, at: str) -> str:
    """What stands at a place, in words: `ring_a.bore`, `bow_b`."""
    steps = at.split("/")
    if "legs" in steps[-2:-1]:
        return f"the leg of {steps[-3]} to {value_at(data, at)['to']}"
    return ".".join(steps[-2:]) if "redirects" in steps[-3:-2] else "the winch" if at == "/winch" else steps[-1]


def _rated_at(finding: Finding) -> str:
    where = finding.check.where
    seat = where.name.rpartition(".")[2]
    if where.kind == "seat" and not where.pointer.endswith(f"/{seat}"):
        return f"{where.pointer}/{seat}"
    return where.pointer


def _low(value: object, unit: Unit) -> float | None:
    try:
        return parse_quantity(str(value), "length" if unit == "m" else "mass or force").low if value else None
    except QuantityError:
        return None
