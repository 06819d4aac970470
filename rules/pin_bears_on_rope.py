"""Shackle pins that moving gear bears on, and screw pins that can turn out.

A rope that runs over a pin, or a part that rolls on it, turns the pin. A screw pin turned
that way backs out under load, and then everything that the shackle held comes free.

How it is judged: nothing that runs or rolls may bear on a pin. A screw pin of a shackle
that a redirect hangs by works with every change of the pull; it is to be secured against
turning out (moused). Not to be moused there is a CAUTION; not to say so, or what pin the
shackle has, can't be told.

Sources: WAC 296-155-33905 puts the pin to the choking eye and the screw pin fully home,
secured where it stays long (lifting); TB 55-1900-232-10, D-13, has no screw pins in towing
connections at all, since they back out (towing). For winching there is no published rule;
this takes the safer practice that crews can keep with the shackles they have. No equation.

What to do: turn the shackle round so that the bow takes what moves; wire the pin to the
body; or use a bolt with nut and cotter.

Worked example: of two shackles of a block's hanger one has a moused pin.
shackles = 2; moused = 1; left_to_secure = shackles - moused = 1
"""

from riglint.mechanics.provenance import TB_55_1900_232_10, WAC_296_155
from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, StageSolution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.hangers import Link, links
from riglint.solve.ratings import SHACKLES

_PIN = Basis("regulation", "the pin goes to the eye; a screw pin is secured", WAC_296_155, "(1)-(2)", "lifting", "read")
_BACKS_OUT = Basis("handbook", "screw pins back out", TB_55_1900_232_10, "D-13", "towing", "read")
_BEARS = Words(
    "{what} bears on the pin of {name} and turns it",
    "nothing that moves bears on the pin of {name}",
    remedy="Turn {name} round, so that its bow takes what moves")  # fmt: skip
_MOUSED = Words(
    "the screw pin of {name} can turn out: {redirect} hangs by it and works it",
    "the pin of {name} is secured",
    "whether the pin of {name}, by which {redirect} hangs, is secured against turning out can't be told",
    "Wire the pin to the body, or use a bolt with nut and cotter")  # fmt: skip


@rule(
    title="Shackle pins that turn", grade=Grade.WARNING, guards="connectors", basis=(_PIN, _BACKS_OUT), once=True,
    worse=Worse.by(taken_away="connectors/*/pin_moused connectors/*/pin"))  # fmt: skip
def pin_bears_on_rope(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        if stage.stations:
            # Of the chains that a shackle is in, those of redirects come first.
            for link in {link.connector.name: link for link in links(stage)[::-1]}.values():
                if link.connector.facts.kind in SHACKLES:
                    yield from _shackle(stage, link)


def _shackle(stage: StageSolution, link: Link) -> Checks:
    shackle, facts = link.connector, link.connector.facts
    where = Where("connector", shackle.name, shackle.pointer, "", stage.stage.index)
    if facts.pin_bears:
        grade = Grade.DANGER if facts.pin == "screw" and not facts.pin_moused else None
        still = facts.pin_bears == "eye"
        yield holds(still, where, _BEARS, terms=(("what", facts.pin_bears),), grade=grade)
    redirect = link.hung.redirect
    if facts.pin in ("screw", None) and redirect:
        fact = "pin_moused" if facts.pin else "pin"
        secured = facts.pin_moused if facts.pin else facts.pin_moused or None
        missing = () if secured is not None else (place(shackle.pointer, fact),)
        terms = (("redirect", redirect.name),)
        yield holds(secured, where, _MOUSED, missing=missing, terms=terms, grade=Grade.CAUTION)
