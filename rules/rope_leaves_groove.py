"""Rope that can leave an open groove when the pull goes slack.

Around an open groove only the pull holds the rope. Let the load roll up, stop to re-rig or
lower, and a slack loop falls off; at the next pull it saws at what the ring hangs by, or
lies between ring and shackle, and the ring is gone under load.

How it is judged: a seat that slack rope can leave (`open_side`, or a ring's groove that
does not say that it is closed) is a finding where the plan lets the line go slack: it
works by paying out, it has a stop at which something else holds the load or something is
re-rigged, another stage follows, or the rope turns back over the seat in the pull. A
person who keeps that redirect in sight (`watches`) answers it. A bore keeps the rope in.

Common practice, no source. No equation.

What to do: reeve the rope through the bore; or have somebody watch the redirect and see
the rope lie right each time slack is taken up.

Worked example: one planned stop at which chocks hold the load, one open groove.
stops = 1; open_grooves = 1; places_to_look = stops * open_grooves = 1
"""

from riglint.rig.model import Turn
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.rope import stages

_BASIS = Basis("common practice", "a line pulled slack can leave an open groove; a bore keeps it in")
_WORDS = Words(
    "the line goes slack ({cause}), and slack rope can leave the {seat} of {redirect}",
    "rope stays in the {seat} of {redirect}",
    "the line goes slack ({cause}); whether rope stays in the {seat} of {redirect} can't be told",
    "Use a seat that keeps slack rope in, or have somebody watch {redirect} while slack is taken up")  # fmt: skip


@rule(
    title="Slack rope in an open groove", grade=Grade.WARNING, guards="redirects", basis=(_BASIS,),
    worse=Worse.by(taken_away="people/*/watches redirects/*/groove/open_side"))  # fmt: skip
def rope_leaves_groove(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        cause = _slack(stage, stage is not solution.stages[-1])
        seats = {(t.redirect, t.seat_name): t for line in stage.stage.lines for t in line.turns}
        for turn in seats.values():
            yield from _seat(stage, turn, cause or _turns_back(stage, turn))


def _seat(stage: StageSolution, turn: Turn, cause: str) -> Checks:
    open_side, groove = turn.seat.open_side, turn.seat_name == "groove"
    if open_side is None and not groove:
        return  # a sheave between cheeks and a bore are closed unless it is said that they aren't
    pointer = stage.stage.redirects[turn.redirect].pointer
    where = Where("seat", f"{turn.redirect}.{turn.seat_name}", pointer, "", stage.stage.index)
    terms = (("redirect", turn.redirect), ("seat", turn.seat_name), ("cause", cause))
    watched = any(turn.redirect in (person.facts.watches or ()) for person in stage.stage.people)
    kept_in = open_side is False or watched or not cause
    missing = () if kept_in or open_side else (place(pointer, f"open_side of its {turn.seat_name}"),)
    yield holds(True if kept_in else False if open_side else None, where, _WORDS, missing=missing, terms=terms)


def _slack(stage: StageSolution, another_follows: bool) -> str:
    """Why the line goes slack, in words; empty if the plan keeps the pull on."""
    if stage.stage.works == "paying out":
        return "the winch pays out"
    if any(stop.names or stop.facts.load_held_by for stop in stage.stage.stops):
        return "at a planned stop"
    return "for the next stage" if another_follows else ""


def _turns_back(stage: StageSolution, turn: Turn) -> str:
    ways = {t.slip for s in stage.stations for t in s.turns if t.turn.pointer == turn.pointer}
    return "the rope turns back over it" if ways.issuperset((1, -1)) else ""
