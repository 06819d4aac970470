"""What a component may carry, as the plan states it: working load or breaking strength, and what its use leaves of it.

For rules. A fact that is not there leaves a range, from the least to the most that it could be, and is named.
"""

from collections.abc import Sequence
from math import pi
from typing import Final, NamedTuple

from riglint.mechanics.capacity import hitch_factor, shackle_side_factor
from riglint.plan.redirects import Seat
from riglint.reading.quantity import Span
from riglint.rig.model import BridleArm, Connector, Piece, Redirect
from riglint.solve.ends import left_by_ends
from riglint.solve.solution import Component

SHACKLES: Final = frozenset({"bow shackle", "dee shackle"})
SLINGS: Final = frozenset({"strap", "sling", "wire sling", "chain", "rope strop", "recovery strap"})
SOFT: Final = frozenset({"soft shackle", "strap", "sling", "rope strop", "recovery strap"})

# The kind of gear that a design factor goes by: names of limits of the rules that divide by it.
GEAR: Final = {
    "bow shackle": "shackle", "dee shackle": "shackle", "hook": "fitting", "link": "fitting", "swivel": "fitting",
    "chain": "chain", "sling": "sling", "strap": "strap", "recovery strap": "strap", "wire sling": "wire_sling",
    "soft shackle": "soft_gear", "rope strop": "soft_gear", "bridle": "bridle",
}  # fmt: skip
_ANY_CONNECTOR: Final = tuple(dict.fromkeys(GEAR.values()))
STRAIGHT: Final = Span(1.0, 1.0)
_UNTOLD_HITCH: Final = Span(0.0, 2.0)  # from a basket that lies flat to an upright one
_UNTOLD_ANGLE: Final = Span(0.0, 2.0)  # a basket lies anywhere from flat to upright


class Capacity(NamedTuple):
    """What may be carried in a case: the least and the most that it could be."""

    low_n: float
    high_n: float


class Rating(NamedTuple):
    """What is stated of a component. `share` is left of it for the way that it is used."""

    working_n: float | None  # not divided again
    breaking_n: float | None  # divided by a design factor
    gear: tuple[str, ...]  # kinds of gear that it may be: one, unless its kind is not stated
    share: Span
    missing: tuple[str, ...]


def capacity(rating: Rating, factors: Sequence[float]) -> Capacity | None:
    """Working load, or else breaking strength over a design factor, times what the use leaves of it.

    Equation: C = WL h, or C = BS h / f
    Units: WL working load [N], BS breaking strength [N], h share left, f each factor that may count
    Range: f > 0; None where neither strength is stated
    Source: definition, as in `mechanics.capacity`
    """
    low, high = rating.share
    if rating.working_n is not None:
        return Capacity(rating.working_n * low, rating.working_n * high)
    if rating.breaking_n is None:
        return None
    return Capacity(rating.breaking_n * low / max(factors), rating.breaking_n * high / min(factors))


def rating_of(component: Component) -> Rating | None:
    """What a piece, connector or bridle's leg may carry; None for others, and for a bridle that its legs speak for."""
    item = component.item
    if isinstance(item, Piece):
        return _of_piece(item)
    if isinstance(item, Connector):
        return _of_connector(item)
    if isinstance(item, BridleArm):
        return _of_arm(item, component)
    return None


def place(pointer: str, facts: str) -> str:
    """What is missing, in the words in which every rule asks for it."""
    return f"{pointer[1:]}: {facts}"


def _of_piece(piece: Piece) -> Rating:
    rope = piece.facts.rope
    gear: tuple[str, ...] = ("wire_rope", "fibre_rope")
    if rope is not None:
        gear = ("wire_rope",) if rope.startswith("wire") else ("fibre_rope",)
    working, breaking = _low(piece.facts.working_load), _low(piece.facts.breaking)
    if working is None and breaking is None:
        return Rating(None, None, gear, STRAIGHT, (place(piece.pointer, "breaking"),))
    left = left_by_ends(piece)
    return Rating(working, breaking, gear, left.share, tuple(place(piece.pointer, fact) for fact in left.missing))


def _of_connector(connector: Connector) -> Rating | None:
    facts = connector.facts
    working, breaking = _low(facts.working_load), _low(facts.breaking)
    unrated = working is None and breaking is None
    if facts.kind == "bridle" and unrated:
        return None  # its legs are judged one by one
    gear = _gear(connector)
    share, missing = share_of_use(connector)
    if unrated:
        missing = (place(connector.pointer, "working_load or breaking"), *missing)
    elif facts.kind is None:
        missing = (place(connector.pointer, "kind"),)
    return Rating(working, breaking, gear, share, missing)


def _gear(connector: Connector) -> tuple[str, ...]:
    kind = connector.facts.kind
    if kind is None:
        return _ANY_CONNECTOR
    if kind == "rope strop" and connector.facts.material == "wire":
        return ("wire_sling",)
    return (GEAR[kind],)


def share_of_use(connector: Connector) -> tuple[Span, tuple[str, ...]]:
    """What the hitch and a pull off a shackle's line leave of a connector's straight pull, and what isn't stated."""
    facts = connector.facts
    if facts.kind in SHACKLES:
        left = shackle_side_factor(min(facts.off_line.high, pi)) if facts.off_line else 1.0
        return Span(left or 0.0, left or 0.0), ()
    if facts.wrapped is None:
        if facts.kind in SLINGS or facts.kind is None:
            return _UNTOLD_HITCH, (place(connector.pointer, "wrapped"),)
        return STRAIGHT, ()
    if facts.wrapped != "basket":
        left = hitch_factor(facts.wrapped).value
        return Span(left, left), ()
    if facts.leg_angle is None:
        return _UNTOLD_ANGLE, (place(connector.pointer, "leg_angle"),)
    from_level = 0.5 * (pi - facts.leg_angle.high)
    left = hitch_factor("basket", min(from_level, 0.5 * pi)).value if from_level > 0.0 else 0.0
    return Span(left, left), ()


def _of_arm(arm: BridleArm, component: Component) -> Rating:
    working, breaking = _low(arm.facts.working_load), _low(arm.facts.breaking)
    missing = () if working or breaking else (place(component.pointer, "working_load or breaking of its legs"),)
    return Rating(working, breaking, ("bridle",), STRAIGHT, missing)


def seat_rating(redirect: Redirect, name: str) -> tuple[Seat | None, Rating]:
    """A redirect's seat and what it may carry, by the line or by the resultant as it says."""
    seat = redirect.facts.seat(name)
    working, breaking = (_low(seat.rated), _low(seat.breaking)) if seat else (None, None)
    missing = [] if working or breaking else [place(redirect.pointer, f"rated of its {name}")]
    if seat is None or seat.rated_for is None:
        missing.append(place(redirect.pointer, f"rated_for of its {name}"))
    return seat, Rating(working, breaking, (redirect.facts.kind,), STRAIGHT, tuple(missing))


def _low(span: Span | None) -> float | None:
    return None if span is None else span.low
