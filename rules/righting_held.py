"""An overturned load that comes down on its wheels.

Past its point of balance a vehicle that is righted falls by itself. The line that pulled it over is slack by then and
holds nothing: it crashes on its wheels, bounces, rolls on or goes over to the other side, with its cargo and its
fuel. So a second line, to a winch or a vehicle on the side that it comes from, is kept taut and paid out.

How it is judged: an overturned load needs such a hold, planned as `secured: [tied back]` with what it is rated for in
`held_by`. Doctrine rights a vehicle with half its weight; as much is asked to let it down.

    use = weight * 0.5 / held_by

What to do: make a second line fast to the other side, high up, and pay it out as the load comes over. Where it is
dragged as it lies and not righted, say so to whoever signs, and see that it can't come up by itself.

Worked example: a van of 2.8 t on its side, held back by a line that is good for 10 kN.
weight = 27.46 kN; held_by = 10 kN; let_down = weight * 0.5 = 13.73 kN; use = let_down / held_by = 1.373
"""

from riglint.mechanics.provenance import FM_20_22
from riglint.mechanics.resistance import OVERTURN_MULTIPLE
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, holds
from riglint.solve.ground import TIED

_HELD = Basis("handbook", "a second line lets it down", FM_20_22, "overturned vehicles", "winching", "from memory")
_HALF = Basis("handbook", "half the weight rights it", *OVERTURN_MULTIPLE[1:3], "winching", "from memory")
_REMEDY = "Make a second line fast on the other side, pay it out as {name} comes over, and write `secured: [tied back]`"
_WORDS = Words(
    "{name} is overturned: past its balance it falls by itself, and nothing holds it back",
    "", "whether {name} is held back as it comes over can't be told", _REMEDY)  # fmt: skip
_STRONG = _WORDS._replace(
    fails="{name} is held back with {measured} as it comes over, and half its weight is {limit}",
    passes="{name} is held back with {measured} as it comes over; half its weight is {limit}",
    remedy="Hold it back with something stronger, or with two",
)


@rule(
    title="Overturned load held as it comes over", grade=Grade.WARNING, guards="load", basis=(_HELD, _HALF),
    worse=Worse.by(higher="bodies/*/weight", lower="bodies/*/held_by",
                   taken_away="bodies/*/secured bodies/*/held_by bodies/*/weight"))  # fmt: skip
def righting_held(solution: Solution, limits: Limits) -> Checks:
    load = solution.stages[0].stage.load
    facts, where = load.facts, Where("body", load.name, load.pointer)
    if not facts.overturned:
        return
    if not facts.secured or not TIED & set(facts.secured):
        missing = () if facts.secured is not None else (place(load.pointer, "secured"),)
        yield holds(None if missing else False, where, _WORDS, missing=missing)
        return
    needs_n = facts.weight.high * OVERTURN_MULTIPLE.value if facts.weight else None
    has_n = facts.held_by.low if facts.held_by else None
    lacks = tuple(place(load.pointer, key) for key in ("weight", "held_by") if getattr(facts, key) is None)
    yield at_least(has_n, needs_n, "N", where, _STRONG, missing=lacks, basis=_HALF)
