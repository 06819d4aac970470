"""A tree or a stump used as an anchor.

A tree holds by its roots, and nobody can see those. It fails by tipping its root plate or by breaking at the
strap, and it comes down along the line. A dead or rotten one is no anchor (FM 4-30.31). The strap belongs near
the ground (FM 21-305): the higher it sits, the longer the lever on the roots. No source gives a height; half a
metre is common practice.

No published figure lets a tree pass. Forest texts have a rule for stumps, from memory and not to be trusted
far:

    holds = diameter^2 / 3, in decimetres and tonnes of force

So that is used one way only: a load above it fails. Below it, the tree can't be told unless somebody has tested
or judged it and the plan states what it is `rated` for; `anchor-rating` then judges by that.

What to do: a thicker, living tree with the strap at its foot, or two trees lashed one behind the other.

Worked example: a stump of 42 cm, 4.2 dm.
d = 4.2; holds = d ** 2 / 3 = 5.88
"""

from collections.abc import Iterator

from riglint.mechanics.anchors import tree_holding_n
from riglint.mechanics.provenance import FM_4_30_31, FM_21_305, FOREST_TEXT
from riglint.outcome import Formula, Step
from riglint.rig.model import Point
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, exceeds, here, holds
from riglint.solve.solution import Case, Component, Peak
from riglint.solve.worst import line_pull_n, points, untold, worst

_SOUND = Basis("handbook", "no dead or rotten trees", FM_4_30_31, "anchors", "winching", "read second hand")
_LOW = Basis("handbook", "attach near the ground", FM_21_305, "ch. 22", "winching", "read")
_HEIGHT = Basis("common practice", "half a metre is near the ground")
_ROOTS = Basis("handbook", "stumps hold D squared over 3", FOREST_TEXT, "stump anchors", "winching", "from memory")
_HOLDS = Formula("holds", "(10 * diameter) ** 2 / 3 * tonne", (("diameter", "m"), ("tonne", "N")), "N")
_TONNE = 9806.65
_STRENGTH = Words(
    "{component} is pulled with {measured}, more than the {limit} that forest texts give a sound one of its size",
    "{component} is rated, and the pull of {measured} is no more than forest texts give one of its size",
    "whether {component} holds can't be told: no figure lets a tree pass without a test",
    "Use a thicker tree, or two lashed one behind the other, or another anchor",
    "Have it judged or try it with a gauge, and write what it is rated for and on what basis",
)
_AT_STALL = _STRENGTH._replace(
    fails="if the winch is kept on until it stalls, {component} is pulled with {measured}, more than the {limit} that "
    "forest texts give a sound one of its size"
)
_ALIVE = Words("{component} is dead or rotten", "{component} is alive", "", "Use another anchor")
_STRAP = Words(
    "the strap sits {measured} up {component}, {limit} at most", "the strap sits {measured} up {component}", "",
    "Move the strap down to the foot of the tree",
)  # fmt: skip


@rule(
    title="Trees and stumps as anchors", grade=Grade.WARNING, guards="anchors", basis=(_SOUND, _LOW, _ROOTS),
    limits=(Limit("strap_height", 0.5, "m", "highest place for the strap", _HEIGHT, "higher"),),
    worse=Worse.by(higher="points/*/strap_height winch/stall_pull", lower="points/*/diameter",
                   taken_away="points/*/diameter points/*/strap_height points/*/alive points/*/rated+breaking"),
)  # fmt: skip
def tree_anchor(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component, point in points(stage, "tree", "stump"):
            yield from _tree(stage, component, point, limits["strap_height"])


def _tree(stage: StageSolution, component: Component, point: Point, height_m: float) -> Checks:
    facts = point.facts
    if facts.alive is not None:
        where = here(stage, component)._replace(pointer=f"{component.pointer}/alive")
        yield holds(facts.alive, where, _ALIVE, grade=Grade.DANGER)
    if facts.strap_height is not None:
        where = here(stage, component)._replace(pointer=f"{component.pointer}/strap_height")
        yield at_most(facts.strap_height.high, height_m, "m", where, _STRAP, grade=Grade.CAUTION)
    most = worst(stage, component)
    missing = _missing(point) + untold(stage)
    if most is None:
        yield at_most(None, None, "N", here(stage, component), _STRENGTH, missing=missing)
        return
    holds_n, steps = _holds(facts.diameter.low) if facts.diameter else (None, ())
    for case, peak in _judged(stage, component, most, holds_n):
        words = _AT_STALL if case == "stall" else _STRENGTH
        yield at_most(
            peak.load_n, holds_n, "N", here(stage, component, case, peak.station), words, missing=missing,
            working=steps, pull_n=line_pull_n(stage, case, peak), measure="forest texts' figure",
        )  # fmt: skip


def _judged(
    stage: StageSolution, component: Component, most: tuple[Case, Peak], holds_n: float | None
) -> Iterator[tuple[Case, Peak]]:
    """The worst case, and the pull as expected where that alone is too much: watching the winch doesn't help then."""
    yield most
    expected = stage.peak(component, "expected")
    if most[0] != "expected" and expected and holds_n is not None and exceeds(expected.load_n, holds_n):
        yield "expected", expected


def _holds(diameter_m: float) -> tuple[float, tuple[Step, ...]]:
    """What a tree so thick holds, and how that comes out."""
    holds_n = tree_holding_n(diameter_m).value
    return holds_n, (_HOLDS.step(holds_n, diameter_m, _TONNE),)


def _missing(point: Point) -> tuple[str, ...]:
    facts = point.facts
    there = (
        ("diameter", facts.diameter), ("strap_height", facts.strap_height), ("alive", facts.alive),
        ("rated", facts.rated or facts.breaking),
    )  # fmt: skip
    return tuple(place(point.pointer, fact) for fact, value in there if value is None)
