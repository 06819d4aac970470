"""Gear from the kit is within its inspection.

Wear, a bent pin, a cut yarn and heat show themselves to whoever looks for them, and to nobody else: an inspection
is good for as long as the kit says, and no longer. Gear past it may be sound, but nobody has looked.

How it is judged: the kit's day of the last inspection and its interval by the calendar (six months from 31 August
end on the last of February), against the day of the pull. The last day still counts. Where the kit gives no day
or no interval, or the day is yet to come, it can't be told; nor can it without the date of the pull. Gear that
has missed the inspection after that as well is a WARNING.

    overdue if today > inspected + interval

How long an inspection is good is the owner's to set, by law, maker and use: this rule has no figure of its own.

What to do: have it inspected and write the day into the kit, or take other gear.

Worked example: gear inspected 255 days ago, with an interval that came to 184 days.
since = 255; interval = 184; over = since - interval = 71
"""

from collections.abc import Iterator
from datetime import date

from riglint.outcome import Term
from riglint.rig.model import KitFacts
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, Where, rule
from riglint.rulebook.judge import Words, holds

_BASIS = Basis("common practice", "gear is used only within the interval of its inspection")
_REMEDY = "Have {gear} inspected and write the day into the kit, or take other gear"
_WORDS = Words(
    "{component} is {gear}, whose inspection ran out after {until}, {over} days ago",
    "{component} is {gear}, inspected and good until {until}",
    "whether {component}, which is {gear}, is within its inspection can't be told", _REMEDY, _REMEDY,
)  # fmt: skip


@rule(title="Gear past its inspection", grade=Grade.CAUTION, guards="paper", basis=(_BASIS,))
def gear_overdue(solution: Solution, limits: Limits) -> Checks:
    for pointer, gear in solution.rig.kit.items():
        where = Where(gear.kind, gear.name, pointer)
        yield _gear(gear, where, solution.rig.today)


def _gear(gear: KitFacts, where: Where, today: date | None) -> Check:
    missing = tuple(_missing(gear, today))
    terms: tuple[Term, ...] = (("gear", gear.gear), ("until", str(gear.good_until)))
    if missing:
        return holds(None, where, _WORDS, missing=missing, terms=terms)
    assert gear.good_until and today  # noqa: S101, PT018 -- nothing is missing
    over = (today - gear.good_until).days
    missed = gear.inspected is not None and over > (gear.good_until - gear.inspected).days
    grade = Grade.WARNING if missed else None
    return holds(over <= 0, where, _WORDS, terms=(*terms, ("over", str(over))), grade=grade)


def _missing(gear: KitFacts, today: date | None) -> Iterator[str]:
    if gear.inspected is None:
        yield f"{gear.gear}: its last inspection, in the kit"
    elif today and gear.inspected > today:
        yield f"{gear.gear}: its last inspection, which the kit puts on a day to come"
    if not gear.interval_stated:
        yield f"{gear.gear}: for how long an inspection is good, in the kit"
    if today is None:
        yield "the date of the pull"
