"""Soft shackles and strops on a pin that is too small for them.

A soft shackle bears on whatever it is put through. Round a bolt or a plate's edge its
fibres are bent and cut at one place, and it parts far below its strength.

How it is judged: the diameter of what it bears on (a point's `pin_diameter`, the steel
connector next to it, the head of a block), over its own. Both ends count.

    ratio = bearing / rope

The least ratio of 1, a pin as thick as the rope of the shackle, is common practice, no
source: rope that is bent round its own like keeps about half its strength. It is judged
for soft shackles and rope strops; flat straps bear on their width. At a tree or a rock
nothing is asked; at a vehicle's point, and of steel next to it, the diameter is. How much of the strength
a bend leaves is the rule on bends.

What to do: put a steel shackle between, or use a point with a thicker pin.

Worked example: a soft shackle of 13 mm rope on a 10 mm bolt.
bearing = 10 mm; rope = 13 mm; ratio = bearing / rope = 0.77
"""

from collections.abc import Iterator
from typing import NamedTuple

from riglint.outcome import Formula, Grade, Where
from riglint.reading.quantity import Span
from riglint.rig.model import Connector
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least
from riglint.solve.hangers import Link, links
from riglint.solve.ratings import SOFT

_BASIS = Basis("common practice", "a pin at least as thick as the rope that bears on it")
_RATIO = Formula("ratio", "bearing / rope", (("bearing", "m"), ("rope", "m")), "1")
_WORDS = Words(
    "{name} bears on {on}, which is {measured} times as thick as its rope; at least {limit} is asked for",
    "{name} bears on {on}, {measured} times as thick as its rope",
    "whether {name} is cut by {on} can't be told",
    "Put a steel shackle between, or use a thicker pin")  # fmt: skip
_SOFT = ("soft shackle", "rope strop")
_ROUND = ("tree", "stump", "rock", "picket holdfast", "deadman")  # nothing there is a pin


class _Bearing(NamedTuple):
    on: str
    diameter: Span | None
    pointer: str
    fact: str


@rule(
    title="A soft shackle on a small pin", grade=Grade.WARNING, guards="connectors", basis=(_BASIS,), once=True,
    limits=(Limit("pin", 1.0, "1", "least diameter of a pin over that of the rope on it", _BASIS, milder="lower"),),
    worse=Worse.by(lower="points/*/pin_diameter redirects/*/head/tread",
                   taken_away="points/*/pin_diameter connectors/*/diameter redirects/*/head/tread "
                   "redirects/*/head"))  # fmt: skip
def soft_shackle_on_edge(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for link in links(stage) if stage.stations else ():
            facts = link.connector.facts
            if facts.kind in _SOFT and facts.material in (None, "fibre"):
                for bearing in _bearings(link):
                    yield _check(stage, link, bearing, limits["pin"])


def _bearings(link: Link) -> Iterator[_Bearing]:
    """What the soft connector bears on: steel next to it, the point that it is put through, the head of a block."""
    for other in (link.before, link.beyond):
        if other and _is_hard(other):
            yield _Bearing(other.name, other.facts.diameter, other.pointer, "diameter")
    point = link.hung.chain.point
    if point and link.beyond is None and point.facts.kind not in _ROUND:
        yield _Bearing(point.name, point.facts.pin_diameter, point.pointer, "pin_diameter")
    redirect = link.hung.redirect if link.before is None else None
    if redirect and redirect.facts.kind == "block":
        head = redirect.facts.head
        yield _Bearing(f"{redirect.name}.head", head.tread if head else None, redirect.pointer, "tread of its head")


def _is_hard(other: Connector) -> bool:
    """Of steel or wire, or of what nobody says; straps and the like are fibre unless they say otherwise."""
    stated, kind = other.facts.material, other.facts.kind
    return stated != "fibre" if stated else kind not in SOFT and kind != "bridle"


def _check(stage: StageSolution, link: Link, bearing: _Bearing, least: float) -> Check:
    soft = link.connector
    where = Where("connector", soft.name, soft.pointer, "", stage.stage.index, related=((bearing.pointer, "the pin"),))
    terms = (("on", bearing.on),)
    rope, pin = soft.facts.diameter, bearing.diameter
    if rope is None or pin is None:
        missing = () if pin else (place(bearing.pointer, bearing.fact),)
        missing = missing if rope else (*missing, place(soft.pointer, "diameter"))
        return at_least(None, least, "1", where, _WORDS, missing=missing, terms=terms)
    ratio = pin.low / rope.high
    return at_least(ratio, least, "1", where, _WORDS, terms=terms, working=(_RATIO.step(ratio, pin.low, rope.high),))
