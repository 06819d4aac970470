"""Redirects that meet, or come too near each other, before the end of the travel.

Two blocks drawn together (two-blocked) stop the load dead while the winch still pulls:
the line pull is no longer shared among the parts, and goes to stall in an instant.

How it is judged: along each leg that ends at redirects, or at a redirect and the winch's
fairlead, the clear length where it is least over the travel, redirects counted at half
their tread each, against a margin.

    clear = leg - (tread_1 + tread_2) / 2

The margin of 0.5 m is common practice, no source: it is what a block hangs over and what
a winch overruns. Touching is a DANGER, inside the margin a CAUTION. A redirect whose
tread is not stated is taken to be up to half a metre: where that alone decides, it can't
be told. Nor can it be where rope runs straight past a redirect, or hangs slack: it may then
stand anywhere.

What to do: stop earlier, move the anchor back, or re-rig with shorter connectors.

Worked example: a leg of 0.8 m between blocks of 0.12 m and 0.1 m tread.
leg = 0.8 m; tread_1 = 0.12 m; tread_2 = 0.1 m; margin = 0.5 m
clear = leg - (tread_1 + tread_2) / 2 = 0.69 m
"""

from math import inf
from typing import NamedTuple

from riglint.outcome import Formula, Grade, Result, Where
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, first_least
from riglint.solve.loose import stands_loose, where_it_stands
from riglint.solve.rope import LARGEST_TREAD_M, hangers_lack, stages, stands_between, widest_tread_m
from riglint.solve.solution import Leg

_BASIS = Basis("common practice", "half a metre is left between redirects at the end of the pull")
_CLEAR = Formula("clear", "leg - sizes / 2", (("leg", "m"), ("sizes", "m")), "m")
_WORDS = Words(
    "at {travel} of travel {measured} is left between {one} and {other}; {limit} must be",
    "{one} and {other} stay {measured} apart",
    "what is left between {one} and {other} at {travel} of travel can't be told",
    "Stop before that, or set {one} and {other} farther apart",
)

_LOOSE = _WORDS._replace(unknown="what is left between {one} and {other} can't be told: nothing draws them anywhere")


class _Near(NamedTuple):
    leg: Leg
    length_m: float
    travel_m: float
    loose: tuple[str, ...]  # of its redirects those that may stand anywhere at some station


@rule(
    title="Redirects meeting before the end of the travel", grade=Grade.WARNING, guards="redirects", basis=(_BASIS,),
    limits=(Limit("margin", 0.5, "m", "least clear length between redirects", _BASIS, milder="lower"),),
    worse=Worse.by(higher="redirects/*/*/tread bodies/*/moves/distance connectors/*/length",
                   taken_away="redirects/*/*/tread"),
)  # fmt: skip
def redirects_meet(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        start, *_ = stage.stations
        legs = [_named(stage, leg) for leg in start.legs]
        pairs = {frozenset((leg.begins, leg.ends)): i for i, leg in enumerate(legs) if _counts(stage, leg)}
        for index in pairs.values():
            yield _check(stage, _nearest(stage, index, legs[index]), limits["margin"])


def _nearest(stage: StageSolution, index: int, leg: Leg) -> _Near:
    """A leg where it is shortest: there is a station wherever redirects that pass each other are nearest."""
    own = [name for name in (leg.begins, leg.ends) if name != "winch"]
    loose = [[name for name in own if stands_loose(stage, s, name)] for s in stage.stations]
    told = tuple(dict.fromkeys(name for names in loose for name in names))
    held = [s for s, names in zip(stage.stations, loose, strict=True) if not names]
    found = [_Near(s.legs[index], s.legs[index].length_m, s.travel_m, told) for s in held]
    return first_least(found, lambda near: near.length_m) if found else _Near(leg, inf, inf, told)


def _named(stage: StageSolution, leg: Leg) -> Leg:
    """The leg with the names of the redirects that it runs between."""
    begins, ends = stands_between(stage.line(leg.line), leg.index, leg.begins, leg.ends)
    return leg._replace(begins=begins, ends=ends)


def _counts(stage: StageSolution, leg: Leg) -> bool:
    """Whether a leg runs from redirect to redirect, or from the winch to one."""
    redirects = stage.stage.redirects
    return leg.ends in redirects and (leg.begins in redirects or leg.begins == "winch") and leg.begins != leg.ends


def _check(stage: StageSolution, near: _Near, margin_m: float) -> Check:
    leg = _named(stage, near.leg)
    treads = {name: widest_tread_m(stage.stage, name) for name in (leg.begins, leg.ends) if name != "winch"}
    missing = tuple(place(stage.stage.redirects[n].pointer, "tread") for n, tread in treads.items() if tread is None)
    untaped = hangers_lack(stage.stage, treads)
    untaped += tuple(map(where_it_stands, near.loose))
    sizes = sum(tread or 0.0 for tread in treads.values())
    first = stage.stage.redirects[leg.ends]
    where = Where("redirect", first.name, first.pointer, "", stage.stage.index, near.travel_m)
    terms = (("one", leg.begins), ("other", leg.ends))
    if near.length_m == inf:
        return at_least(None, margin_m, "m", where._replace(travel_m=None), _LOOSE, missing=untaped, terms=terms)
    least = near.length_m - 0.5 * (sizes + LARGEST_TREAD_M * len(missing))
    sure = at_least(least, margin_m, "m", where, _WORDS, terms=terms, missing=untaped)
    if missing and sure.result is Result.PASSED:
        return sure
    clear = near.length_m - 0.5 * sizes
    step = _CLEAR.step(clear, near.length_m, sizes)
    # In metres: they touch, whatever rounding leaves between them.
    grade = Grade.DANGER if clear < 1e-6 else Grade.CAUTION
    check = at_least(clear, margin_m, "m", where, _WORDS, missing=missing + untaped, terms=terms, working=(step,))
    return check._replace(grade=grade) if check.result is Result.FAILED else check
