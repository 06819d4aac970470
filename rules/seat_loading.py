"""Seats that are loaded the way that they are rated for.

A ring with rope around its groove is pressed together; with rope through its bore it is
pulled apart. A ring strong one way may be weak the other, so each seat needs a rating of
its own. And a hanger in the same seat as the running rope gets sawn through: rope eats
a soft shackle in seconds, and then the ring flies.

How it is judged: the seat that the rope runs through says which rating counts; a rating
of another seat does not serve. The hanger must bear on another seat than the rope. What
the seat carries against its rating is the rule on working loads, which also asks for a
rating where none at all is stated.

    counts = rating of the seat that rope runs through

What to do: hang a ring by its groove where rope runs through its bore, and by its bore
where rope runs around its groove; ask the maker for the rating of the seat in use.

Worked example: two shares of one ring, apart through its bore and pressed at its groove.
bore = 80 kN; groove = 160 kN; short_by = groove - bore = 80 kN
"""

from riglint.plan import redirects
from riglint.rig.model import Redirect
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.rope import stages

_BASIS = Basis("common practice", "a ring is pulled apart by rope in its bore and pressed by rope in its groove")
_HANGER = Words(
    "rope runs over what {redirect} hangs by: both bear on its {seat}",
    "rope and hanger bear on two seats of {redirect}",
    "whether rope runs over what {redirect} hangs by can't be told",
    "Hang {redirect} by its {other}, or reeve the rope through that instead")  # fmt: skip
_RATING = Words(
    "", "the {seat} of {redirect}, through which rope runs, has a rating of its own",
    "{redirect} is rated for its {other}, and rope runs through its {seat}: the one rating doesn't serve for the other",
    to_tell="Ask for the rating of its {seat}, or reeve the rope through its {other}")  # fmt: skip


@rule(
    title="Seats loaded the way they are rated", grade=Grade.DANGER, guards="redirects", basis=(_BASIS,), once=True,
    worse=Worse.by(taken_away="redirects/*/hung_through redirects/*/*/rated+breaking"))  # fmt: skip
def seat_loading(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for redirect in stage.stage.redirects.values():
            yield from _redirect(stage, redirect)


def _redirect(stage: StageSolution, redirect: Redirect) -> Checks:
    facts = redirect.facts
    used = dict.fromkeys(t.seat_name for line in stage.stage.lines for t in line.turns if t.redirect == redirect.name)
    for seat in used:
        other = next(name for name in redirects.SEATS_OF[facts.kind] if name != seat)
        terms = (("redirect", redirect.name), ("seat", seat), ("other", other))
        where = Where("redirect", redirect.name, redirect.pointer, "", stage.stage.index)
        if redirect.hanger and (facts.hung_through or facts.kind == "ring"):
            missing = () if facts.hung_through else (place(redirect.pointer, "hung_through"),)
            yield holds(facts.hung_through != seat, where, _HANGER, missing=missing, terms=terms)
        if _rated(facts, seat):
            yield holds(True, where, _RATING, terms=terms)
        elif _rated(facts, other):
            missing = (place(redirect.pointer, f"rated of its {seat}"),)
            yield holds(None, where, _RATING, missing=missing, terms=terms, grade=Grade.WARNING)


def _rated(facts: redirects.Redirect, name: str) -> bool:
    return (seat := facts.seat(name)) is not None and (seat.rated or seat.breaking) is not None
