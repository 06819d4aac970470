"""Somebody watches a join come to a redirect.

A knot, a shackle or a splice that comes to a block or ring under load jams, and what it jams in breaks or
bends. Even a join that may pass, and one that a stop is planned for, has to be seen coming: distances in a plan
are only as good as a tape and a knot's place in the line. So somebody keeps each join that reaches a redirect,
or that redirect, in sight, and the plan names it in what the person `watches`.

The winch operator looks at the drum and is not counted on for it, unless the plan says so by naming it.

    they meet where way_from_redirect_to_dead_end = join_to_dead_end

What to do: put a spotter where the redirect can be seen from outside the danger areas, and agree on the signal
to stop.

Worked example: a join 24 m from the dead end; the way to the redirect shortens by 2 m a metre.
way = 31.8 m; join = 24 m; rate = 2; arrives = (way - join) / rate = 3.9 m
"""

from riglint.rig.model import Join
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.solution import Event

_BASIS = Basis("common practice", "somebody watches a join pass a redirect")
_WORDS = Words(
    "nobody watches {join} come to {redirect}, {travel} into the travel",
    "{who} watches {join} come to {redirect}",
    "it isn't said who watches {join} come to {redirect}, {travel} into the travel",
    "Have somebody keep {redirect} in sight from outside the danger areas, and write it in `watches`",
)


@rule(
    title="Joins watched at redirects", grade=Grade.CAUTION, guards="people", basis=(_BASIS,),
    worse=Worse.by(taken_away="people/*/watches people"),
)  # fmt: skip
def join_watched(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        met: dict[tuple[str, str], Check] = {}
        for event in stage.events:
            if event.kind == "join at seat":
                assert event.join is not None  # noqa: S101 -- events of this kind have one
                met.setdefault((event.join.name, event.redirects[0]), _event(stage, event.join, event))
        yield from met.values()


def _event(stage: StageSolution, join: Join, event: Event) -> Check:
    redirect, *_ = event.redirects
    where = Where("join", join.name, join.pointer, "", stage.stage.index, event.travel_m)
    watching = [p.who for p in stage.stage.people if {join.name, redirect} & set(p.facts.watches or ())]
    terms = (("join", join.name), ("redirect", redirect), ("who", watching[0] if watching else ""))
    if not stage.stage.people_stated:
        return holds(None, where, _WORDS, missing=("people: who stands where",), terms=terms)
    return holds(bool(watching), where, _WORDS, terms=terms)
