"""Two legs in the bow of one shackle.

With two legs in its bow a shackle is pulled apart as well as along: wider than 120 degrees
they spread the bow more than its mark allows for.

How it is judged: the angle between the legs as stated for the shackle, or for the basket
sling next to it whose two ends lie in its bow. A shackle that two chains or two lines end
at has two legs, whether an angle is stated or not.

    use = leg_angle / 120 degrees

Source: ASME B30.26, 26-1.9 (two legs in the bow: 120 degrees at full working load), seen
second hand; lifting, and the same for a winch line.

What to do: a longer sling, or a master link for the two legs.

Worked example: two legs at 135 degrees.
angle = 135 deg; limit = 120 deg; use = angle / limit = 1.125
"""

from collections import Counter

from riglint.mechanics.capacity import BOW_INCLUDED_MAX_RAD
from riglint.mechanics.provenance import ASME_B30_26
from riglint.reading.quantity import Span
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_most
from riglint.solve.hangers import Link, links
from riglint.solve.ratings import SHACKLES, place

_BASIS = Basis("standard", "two legs in a bow, 120 degrees at the most", ASME_B30_26, "26-1.9", "lifting",
               "read second hand")  # fmt: skip
_WORDS = Words(
    "two legs stand {measured} apart in the bow of {name}; {limit} is the most",
    "two legs stand {measured} apart in the bow of {name}, {limit} at the most",
    "how wide the two legs in the bow of {name} stand can't be told",
    "Use a longer sling, or join the legs with a link")  # fmt: skip


@rule(
    title="Two legs in a shackle's bow", grade=Grade.WARNING, guards="connectors", basis=(_BASIS,), once=True,
    limits=(
        Limit("bow", BOW_INCLUDED_MAX_RAD.value, "rad", "widest angle of two legs in a bow", _BASIS, milder="higher"),
    ),
    worse=Worse.by(higher="connectors/*/leg_angle"))  # fmt: skip
def shackle_bow_angle(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        chained = list(links(stage)) if stage.stations else []
        chains = Counter(link.connector.name for link in chained)
        for link in {link.connector.name: link for link in chained}.values():
            if link.connector.facts.kind in SHACKLES:
                yield from _shackle(stage, link, limits["bow"], two_legs=chains[link.connector.name] > 1)


def _shackle(stage: StageSolution, link: Link, limit: float, *, two_legs: bool) -> Checks:
    shackle = link.connector
    angle = shackle.facts.leg_angle or _of_basket(link)
    if angle or two_legs:
        where = Where("connector", shackle.name, shackle.pointer, "", stage.stage.index)
        missing = () if angle else (place(shackle.pointer, "leg_angle"),)
        yield at_most(angle.high if angle else None, limit, "rad", where, _WORDS, missing=missing)


def _of_basket(link: Link) -> Span | None:
    """The angle of a basket whose ends lie in this shackle."""
    baskets = [c.facts for c in (link.before, link.beyond) if c and c.facts.wrapped == "basket"]
    angle: Span | None = next((facts.leg_angle for facts in baskets if facts.leg_angle), None)
    return angle
