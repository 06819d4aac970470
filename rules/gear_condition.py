"""What was seen when connectors, blocks and rings were looked over.

A shackle that was bent straight again, a ring that a rope ran hot on, a sling with a cut edge: each may still hold the
weight of a hand, and nobody can say what is left of it.

How it is judged: by the words of `condition`, and by how much of its own size is gone where it is worn most. Bent,
stretched, cracked, burnt (blue from heat, or with weld spatter on it), welded on, with a damaged thread, or with a
sheave that wobbles, hardware is taken out of use; so is fibre and wire that is damaged as rope would be, and webbing
with broken stitches. Corroded, gouged or without its mark it is looked into by somebody who knows: a CAUTION.

    worn = 1 - size_there / size_when_new

Gear that is stated as worn, but not by how much, can't be told. Of gear that states nothing this rule says nothing:
whether it was looked over is on the checklist, and whether it is in date is `gear-overdue`.

Sources: B30.26 takes hardware out of use for these, and for a loss of 10 % of any dimension; for a hook's opening
others draw the line elsewhere (15 % by NAVEDTRA 14081), and what shows there is `stretched` here. TB 43-0142 has the
list for webbing.

What to do: take it out of use, mark it so that nobody puts it back, and rig sound gear.

Worked example: a shackle's pin of 19 mm that is worn to 16.5 mm.
there = 16.5 mm; new = 19 mm; worn = 1 - there / new = 0.132
"""

from riglint.plan.conditions import words_of
from riglint.rig.model import Connector, Redirect
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, holds
from riglint.rulebook.seen import damage

_HARDWARE = Basis("standard", "bent, cracked, heated, welded or 10 % worn hardware is taken out of use", "asme-b30-26",
                  "26-1.8.5", "lifting", "from memory")  # fmt: skip
_WEBBING = Basis("handbook", "burns, melting, cuts, broken stitches, no tag", "tb-43-0142", "C-1e", "lifting", "read")

_REMEDY = "Take it out of use, and rig sound gear in its place"
_DAMAGE = Words(
    "what was seen on {name} speaks against its use: {seen}", "{name} was looked over and shows no damage", "", _REMEDY
)
_WORN = Words(
    "{name} has lost {measured} of its size where it is worn most; {limit} is the most",
    "{name} has lost {measured} of its size where it is worn most",
    "whether {name} is worn too far can't be told", _REMEDY,
    "Measure it where it is worn most and where it isn't, and state how much is gone",
)  # fmt: skip


@rule(
    title="Condition of connectors and redirects", grade=Grade.WARNING, guards="connectors", once=True,
    basis=(_HARDWARE, _WEBBING),
    limits=(Limit("worn", 0.1, "share", "most that may be gone of any dimension", _HARDWARE, "higher"),),
    worse=Worse.by(higher="connectors/*/worn redirects/*/worn"),
)  # fmt: skip
def gear_condition(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for connector in stage.stage.connectors.values():
            yield from _gear(connector, Where("connector", connector.name, connector.pointer), limits)
        for redirect in stage.stage.redirects.values():
            yield from _gear(redirect, Where("redirect", redirect.name, redirect.pointer), limits)


def _gear(gear: Connector | Redirect, where: Where, limits: Limits) -> Checks:
    seen, worn = words_of(gear.facts.condition), gear.facts.worn
    bad = damage(seen, where, _DAMAGE)
    if bad:
        yield bad
    elif set(seen) - {"worn"}:
        yield holds(True, where, _DAMAGE)
    if worn or "worn" in seen:
        missing = () if worn else (place(gear.pointer, "worn"),)
        yield at_most(worn.high if worn else None, limits["worn"], "share", where, _WORN, missing=missing)
