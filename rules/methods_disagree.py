"""Where two methods give different figures, both are shown.

Two questions have two answers in the books. What a load resists with: recovery doctrine gives multiples of the
weight (by the depth of the mire; on any slope the whole weight), engineering texts rolling by the surface plus
the slope's share of the weight. Doctrine's figures are upper bounds for planning; which one the verdict uses
goes by what the ground is. And what tackle friction costs: field manuals add 10 % of the load's resistance for
each sheave (FM 4-30.31), engineering texts compound the loss of each turn.

    greater <= what the winch can give, or what the verdict reckons with

It is a NOTICE where the verdict reckons with the lesser figure and the winch could not pull the greater: then
it matters who is right. Tackle friction is a NOTICE where the two differ by more than the limit:

    apart = greater / lesser - 1

Neither is a fault of the rig; it says how far to trust the number. The checks of pull and strength use the
safer of two methods of one scope. A resistance that is stated with how it was found is believed over both.

What to do: a trial pull with a gauge tells which is nearer the truth.

Worked example: 20 % of slope, 18,000 lb: doctrine the weight, texts 22 % of it.
greater = 18000 lb; lesser = 3960 lb; apart = greater / lesser - 1 = 3.55
"""

from math import inf

from riglint.mechanics.provenance import CIVIL_FORMULAS, FM_4_30_31, FM_9_43_2
from riglint.outcome import Value, Where
from riglint.rulebook.author import Basis, Checks, Formula, Grade, Limit, Limits, Solution, StageSolution, Worse, rule
from riglint.rulebook.judge import Words, at_most, exceeds, first_greatest
from riglint.solve.pull import needs
from riglint.solve.rope import stages
from riglint.solve.solution import Station

_DOCTRINE = Basis("handbook", "multiples of the weight", FM_9_43_2, "ch. 2", "winching", "from memory")
_TACKLE = Basis("handbook", "10 % of the load for each sheave", FM_4_30_31, "ch. 3", "winching", "read second hand")
_TEXT = Basis("handbook", "rolling, and 1 % of the weight for 1 % of slope", CIVIL_FORMULAS, "earthmoving", "general",
              "read second hand")  # fmt: skip
_APART_BY = Basis("common practice", "methods within a quarter of each other agree")
_APART = Formula("apart", "greater / lesser - 1", (("greater", "N"), ("lesser", "N")), "share")
_RESISTANCE = Words(
    "doctrine gives {name} a resistance of {doctrine}, the texts {surface}; used here: {used}; the winch "
    "can give {limit}",
    "doctrine gives {name} a resistance of {doctrine}, the texts {surface}",
    "what {name} resists with can't be told by either method",
    "Make a trial pull with a gauge",
)
_FRICTION = Words(
    "with 10 % of the load for each sheave the line pull is {doctrine}, with each turn's own loss {surface}",
    "with 10 % of the load for each sheave the line pull is {doctrine}, with each turn's own loss {surface}",
    "", "Reckon with the greater, or make a trial pull with a gauge",
)  # fmt: skip


@rule(
    title="Methods that disagree", grade=Grade.NOTICE, guards="load", basis=(_DOCTRINE, _TEXT, _TACKLE),
    limits=(Limit("apart", 0.25, "share", "how far apart two reckonings of friction may lie", _APART_BY, "higher"),),
    worse=Worse.by(lower="winch/rated_pull", taken_away="winch/rated_pull"),
)  # fmt: skip
def methods_disagree(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        if stage.stage.works == "hauling":
            load = stage.stage.load
            where = Where("load", load.name, load.pointer, "expected", stage.stage.index)
            yield from _resistance(stage, where)
            yield from _friction(stage, where, limits["apart"])


def _resistance(stage: StageSolution, where: Where) -> Checks:
    stated = stage.stage.load.facts.resistance
    if stated and stated.found_by:
        return  # measured or reckoned by the crew: better than either
    found = [check for station in stage.stations for check in _by_both(station, where)]
    if found:
        yield first_greatest(found, lambda check: check.use or inf)
        return
    lacks = next((s.resistance.missing for s in stage.stations if s.resistance.hauling is None), None)
    if lacks is not None:
        yield at_most(None, None, "N", where, _RESISTANCE, missing=lacks)


def _by_both(s: Station, where: Where) -> Checks:
    """Where both methods give something: the greater, and what the winch gives or the verdict reckons with."""
    used = s.resistance.hauling
    doctrine_n = max((part.force.high for part in s.resistance.doctrine), default=0.0)
    surface_n = max(0.0, sum(part.force.high for part in s.resistance.surface))
    if used and doctrine_n and surface_n:
        greater_n = max(doctrine_n, surface_n)
        gives_n = [s.drum.pull_n * s.ratio_least] if s.drum and s.drum.pull_n else []
        missing = () if gives_n or not exceeds(greater_n, used.high) else ("winch: rated_pull, and its drum",)
        limit_n = None if missing else max([used.high, *gives_n])
        terms = (("doctrine", Value(doctrine_n, "N")), ("surface", Value(surface_n, "N")), ("used", s.resistance.used))
        at = where._replace(travel_m=s.travel_m)
        yield at_most(greater_n, limit_n, "N", at, _RESISTANCE, terms=terms, missing=missing)


def _friction(stage: StageSolution, where: Where, apart: float) -> Checks:
    found = [(need.doctrine_n, need.compounded_n, need.station) for need in needs(stage)
             if 0.0 < need.compounded_n < inf]  # fmt: skip
    if found and stage.stage.haul.turns:
        doctrine_n, own_n, s = first_greatest(found, lambda f: max(f[:2]) / min(f[:2]))
        greater_n, lesser_n = max(doctrine_n, own_n), min(doctrine_n, own_n)
        share = greater_n / lesser_n - 1.0
        yield at_most(
            share, apart, "share", where._replace(travel_m=s.travel_m), _FRICTION,
            terms=(("doctrine", Value(doctrine_n, "N")), ("surface", Value(own_n, "N"))),
            working=(_APART.step(share, greater_n, lesser_n),),
        )  # fmt: skip
