"""A tow eye of which nothing is known but what the law asks of it.

A type-approved vehicle's towing device bears, forwards and backwards, a static force of at least half the
vehicle's technically permissible maximum laden mass ((EU) 1005/2010). That is for towing on a road. A mired
vehicle may ask for one to three times its weight, so that an eye of the least lawful strength fails every mired
case unless the load is shared.

    use = load / (0.5 * laden_mass * g)

It says least, and nothing about a pull to the side. So a load above it fails. One below it passes only where the
plan says that the vehicle was approved under that law: `basis: type approval`, with the approval's number behind it
if it is known, or `basis: (EU) 1005/2010`. It may be older than the law, or not under it. Any other basis is read as
none, since a plate or a guess says nothing of the law.
A tow eye whose rating is stated is judged by that, in `anchor-rating`; a tow eye of a vehicle without a laden mass
is asked for its rating there.

What to do: find the eye's rating in the handbook, share the pull between two eyes with an equalising bridle, or
use the frame.

Worked example: a van of 3,000 kg laden mass, mired to the hub.
load = 29.4 kN; laden_mass = 3 t; g = 9.81 m/s2; use = load / (0.5 * laden_mass * g) = 2.00
"""

from riglint.outcome import Formula
from riglint.rig.model import Point
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words
from riglint.rulebook.loads import Capacity, against
from riglint.solve.rated import says_type_approved
from riglint.solve.solution import Component
from riglint.solve.worst import points

_LAW = Basis("regulation", "half the maximum laden mass", "eu-1005-2010", "Annex II", "towing", "read")
_BEARS = Formula("bears", "share * laden_weight", (("share", "share"), ("laden_weight", "N weight")), "N")
_WORDS = Words(
    "{component} carries {measured}; the law lets it be made for no more than {limit}, half its vehicle's laden mass",
    "{component} carries {measured} of the {limit} that the law asks of a tow eye at least",
    "whether {component} holds can't be told",
    "Find its rating, share the pull between two eyes, or make fast to the frame",
    "Find its rating, or write `basis: type approval` if the vehicle was approved under that law",
)
_AT_STALL = _WORDS._replace(
    fails="if the winch is kept on until it stalls, {component} carries {measured}; the law lets it be made for no "
    "more than {limit}, half its vehicle's laden mass"
)  # fmt: skip


@rule(
    title="Tow eyes of the least lawful strength", grade=Grade.DANGER, guards="anchors", basis=(_LAW,),
    limits=(Limit("share", 0.5, "share", "share of the laden mass that a towing device bears", _LAW, "higher"),),
    worse=Worse.by(higher="winch/stall_pull", lower="bodies/*/laden_mass",
                   taken_away="points/*/rated+breaking points/*/basis"),
)  # fmt: skip
def towing_device(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component, point in points(stage):
            facts, laden = point.facts, point.body.facts.laden_mass
            if facts.kind == "tow eye" and laden is not None and facts.rated is None and facts.breaking is None:
                bears_n = limits["share"] * laden.low
                capacity = (bears_n, (_BEARS.step(bears_n, limits["share"], laden.low),))
                yield from _eye(stage, component, point, capacity)


def _eye(stage: StageSolution, component: Component, point: Point, capacity: Capacity) -> Checks:
    missing = () if says_type_approved(point.facts.basis) else (place(point.pointer, "rated"),)
    yield from against(stage, component, lambda _: capacity, (_WORDS, _AT_STALL), "lawful minimum", missing=missing)
