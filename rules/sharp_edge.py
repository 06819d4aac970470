"""Straps, slings and lines that bear on a sharp edge.

Over the edge of a frame or a kerb all the pull comes on a few fibres or wires at one place. Webbing is cut through in
one pull, wire takes a kink that never comes out, a chain's link is bent.

How it is judged: an edge is sharp where its radius is less than the thickness of what bears on it: the diameter of
rope, the thickness of webbing, the bar of a chain. Under a line the thickest of its pieces counts, since any of them
may come to lie there. What is kept off the edge passes, whatever the edge; that the protection is strong enough and
can't slip out is for somebody to look at. Where nothing is said of protection there is none.

    sharp if radius < thickness

Judged where a plan states an `edge`. One that states none says that its gear bears on none; the checklist has somebody
go and see. What a round edge takes of the strength is no part of this rule.

Sources: the radius is that of the German rule for slings in lifting; B30.9 asks for protection at edges and has no
radius.

What to do: put pipe, corner pieces or a sleeve that is made for it between, or make fast elsewhere.

Worked example: a strap 7 mm thick round a beam whose edge is rounded to 2 mm.
radius = 2 mm; thickness = 7 mm; ratio = radius / thickness = 0.29
"""

from collections.abc import Sequence

from riglint.plan.edges import Edge
from riglint.reading.quantity import Span
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limit, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, holds

_RADIUS = Basis("handbook", "an edge is sharp where its radius is less than the sling's thickness", "dguv-109-017",
                "sharp edges", "lifting", "from memory")  # fmt: skip
_KEPT_OFF = Basis("standard", "slings are protected where they bear on edges", "asme-b30-9", "9-2.10.4, 9-5.10.4",
                  "lifting", "from memory")  # fmt: skip
_WORDS = Words(
    "{component} bears on an edge rounded to {measured}; for what lies on it one below {limit} is sharp",
    "{component} bears on an edge rounded to {measured}, and {limit} is enough",
    "whether the edge that {component} bears on is sharp can't be told",
    "Put pipe, corner pieces or a sleeve made for it between, or make fast elsewhere",
)
_KEPT = Words("", "{component} is kept off the edge that it would bear on")


@rule(
    title="Sharp edges", grade=Grade.WARNING, guards="connectors", basis=(_RADIUS, _KEPT_OFF), once=True,
    limits=(Limit("radius", 1.0, "1", "least radius of an edge over the thickness of what bears on it", _RADIUS,
                  "lower"),),
    worse=Worse.by(higher="connectors/*/diameter", lower="connectors/*/edge/radius lines/*/edge/radius",
                   taken_away="connectors/*/edge/radius,protected lines/*/edge/radius,protected connectors/*/diameter"),
)  # fmt: skip
def sharp_edge(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for connector in stage.stage.connectors.values():
            if connector.facts.edge:
                where = Where("connector", connector.name, connector.pointer)
                yield _edge(connector.facts.edge, [(connector.pointer, connector.facts.diameter)], where, limits)
        for line in stage.stage.lines:
            if line.edge:
                sizes = [(piece.pointer, piece.facts.diameter) for piece in line.pieces]
                yield _edge(line.edge, sizes, Where("line", line.name, line.pointer), limits)


def _edge(edge: Edge, sizes: Sequence[tuple[str, Span | None]], where: Where, limits: Limits) -> Check:
    if edge.protected:
        return holds(True, where, _KEPT, basis=_KEPT_OFF)
    missing = tuple(place(pointer, "diameter") for pointer, size in sizes if size is None)
    missing += () if edge.radius else (place(where.pointer, "edge/radius"),)
    thickest = max((size.high for _, size in sizes if size), default=None)
    least = None if thickest is None else limits["radius"] * thickest
    return at_least(edge.radius.low if edge.radius else None, least, "m", where, _WORDS, missing=missing)
