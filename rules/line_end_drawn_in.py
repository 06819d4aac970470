"""A line's end that is drawn up to the fairlead or to a redirect.

Where the line is made fast there are a shackle, a hook or a thimble. Drawn against a fairlead
or into a block, they stop the load dead while the winch still pulls: the pull goes to stall
in an instant, and what is drawn in breaks, or breaks the fairlead.

How it is judged: along each leg that ends where a line is made fast and gets shorter on the
way, what is left of it where it is shortest, less the connectors that lie along it and half
the tread of the redirect at its other end, against a margin.

    left = leg - connectors - tread / 2

The margin of 0.5 m is common practice, no source: it is what a winch overruns. Drawn in is
a DANGER, inside the margin a CAUTION. A redirect whose tread is not stated may measure half a
metre, a connector whose length isn't five metres: where that decides, it can't be told.

What to do: stop earlier, or make the line fast farther back.

Worked example: a leg of 0.8 m with a shackle of 0.1 m, up to a block of 0.12 m tread.
leg = 0.8 m; connectors = 0.1 m; tread = 0.12 m; left = leg - connectors - tread / 2 = 0.64 m
"""

from typing import Final

from riglint.outcome import Formula, Grade, Result, Where
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, exceeds, first_least
from riglint.solve.rope import LARGEST_TREAD_M, LineEnd, hangers_lack, line_ends, stages, widest_tread_m
from riglint.solve.solution import Station

_BASIS = Basis("common practice", "half a metre is left before a line's end at the end of the pull")
_LEFT = Formula("left", "leg - connectors - tread / 2", (("leg", "m"), ("connectors", "m"), ("tread", "m")), "m")
_WORDS = Words(
    "at {travel} of travel {measured} is left between the end of {line} and {other}; {limit} must be",
    "{measured} is left between the end of {line} and {other}",
    "what is left between the end of {line} and {other} at {travel} of travel can't be told",
    "Stop before that, or make the line fast farther back",
)
_STILL_M: Final = 1e-3  # a leg that shortens by less isn't drawn in
_LONGEST_M: Final = 5.0  # no connector at a line's end is longer and doesn't say so; common practice


@rule(
    title="Line's end drawn up to a fairlead or a redirect", grade=Grade.WARNING, guards="line", basis=(_BASIS,),
    limits=(Limit("margin", 0.5, "m", "least length before a line's end", _BASIS, milder="lower"),),
    worse=Worse.by(higher="bodies/*/moves/distance", taken_away="redirects/*/*/tread connectors/*/length"),
)  # fmt: skip
def line_end_drawn_in(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for end in line_ends(stage):
            start, *_ = stage.stations
            nearest = _nearest(stage, end.leg)
            if start.legs[end.leg].length_m - nearest.legs[end.leg].length_m > _STILL_M:
                yield _check(stage, end, nearest, limits["margin"])


def _nearest(stage: StageSolution, leg: int) -> Station:
    """Where the leg is shortest: there is a station wherever its ends pass each other."""
    return first_least(stage.stations, lambda station: station.legs[leg].length_m)


def _check(stage: StageSolution, end: LineEnd, nearest: Station, margin_m: float) -> Check:
    tread = widest_tread_m(stage.stage, end.other) if end.other != "winch" else 0.0
    unsized = () if tread is not None else (place(stage.stage.redirects[end.other].pointer, "tread"),)
    untaped = hangers_lack(stage.stage, (), end.chain)
    leg_m, connectors_m = nearest.legs[end.leg].length_m, end.chain.length_m
    left = leg_m - connectors_m - 0.5 * (tread or 0.0)
    where = Where("line", end.line.name, end.line.pointer, "", stage.stage.index, nearest.travel_m)
    terms = (("line", end.line.name), ("other", "the fairlead" if end.other == "winch" else end.other))
    least = left - 0.5 * LARGEST_TREAD_M * len(unsized) - _LONGEST_M * len(untaped)
    missing = unsized + untaped if exceeds(margin_m, least) else ()
    step = _LEFT.step(left, leg_m, connectors_m, tread or 0.0)
    check = at_least(left, margin_m, "m", where, _WORDS, missing=missing, terms=terms, working=(step,))
    grade = Grade.DANGER if left < 1e-6 else Grade.CAUTION  # in metres: drawn in, whatever rounding leaves
    return check._replace(grade=grade) if check.result is Result.FAILED else check
