"""A body that weighs more than it is made for.

Frame, axles, tyres, brakes and the points on a vehicle are made for its largest mass with its load in it. Mud in the
body, water and cargo that slid bring it over that unseen, and a body over its largest mass leaves less in hand
everywhere than its plates say: a tow eye that bears half of that mass by law bears a smaller share of what is there.

    use = weight / laden_mass

Weight is taken at its high end, laden mass at its low end. Judged for every body that states its laden mass, the load
and what stays alike; a plan needs none, and without it this rule has nothing to say. Body and trailer are told apart:
the laden mass is that of the one vehicle, not of the train.
The regulation says what the figure is; that a pull asks more of a body over it is a matter of course, and by how much
no source says.

What to do: check both figures, the units first; unload it, or dig it out and wash it down. If it must be pulled so,
share the pull over several points and take the weight as it is for what holds it.

Worked example: a truck made for 7.5 t that stands in mud with 8.1 t.
weight = 8.1 t; laden_mass = 7.5 t; use = weight / laden_mass = 1.08
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, at_most

_LARGEST = Basis("regulation", "the largest mass that a vehicle is made for, laden", "eu-1230-2012", "Art. 2",
                 "general", "from memory")  # fmt: skip
_WORDS = Words(
    "{name} weighs {measured}, and it is made for {limit} at the most",
    "{name} weighs {measured} of the {limit} that it is made for",
    "whether {name} weighs more than it is made for can't be told",
    "Check both figures; unload it, or share the pull over several points",
)


@rule(
    title="Bodies over their laden mass", grade=Grade.CAUTION, guards="load", basis=(_LARGEST,),
    worse=Worse.by(higher="bodies/*/weight", lower="bodies/*/laden_mass", taken_away="bodies/*/weight"),
)  # fmt: skip
def over_laden(solution: Solution, limits: Limits) -> Checks:
    for body in solution.stages[0].stage.bodies.values():  # no stage changes a body
        weight, laden = body.facts.weight, body.facts.laden_mass
        if laden is None:
            continue
        yield at_most(
            weight.high if weight else None, laden.low, "N weight", Where("body", body.name, body.pointer), _WORDS,
            missing=() if weight else (place(body.pointer, "weight"),), grade=None if weight else Grade.NOTICE,
        )  # fmt: skip
