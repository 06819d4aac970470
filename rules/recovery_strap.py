"""Recovery straps in a winch rig.

A recovery strap is made to stretch, for a snatch by another vehicle. In a winch line it
stores what the winch puts in and gives it all back at once when anything lets go. And its
strength is matched to a vehicle, not to a winch.

How it is judged: a recovery strap that the winch's pull comes on is a WARNING, whatever
it is rated for; any other strap passes. Its breaking strength must be 2 to 3 times the
laden mass of the lighter vehicle: less breaks it, more stretches too little and breaks
the vehicle's points instead.

    2 * laden_mass <= breaking <= 3 * laden_mass

Sources: the Australian standard of 2017 for the strength and its label (towing); it does
not cover other straps, rope, wire or chain. That such a strap has no place in a winch rig
is common practice.

What to do: use a plain strap or a sling in its place.

Worked example: the lighter vehicle is 2500 kg laden.
mass = 2500 kg; g = 9.80665 m/s2
least = 2 * mass * g = 49.03 kN
"""

from math import inf

from riglint.outcome import Where
from riglint.rig.model import Connector
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, at_most, holds
from riglint.solve.hangers import links

_STANDARD = Basis("regulation", "breaks at 2 to 3 times the lighter vehicle's laden mass", "au-recovery-straps",
                  "strength and label", "towing", "read")  # fmt: skip
_NOT_HERE = Basis("common practice", "a strap made to stretch has no place in a winch rig")
_KIND = Words(
    "{name} is a recovery strap, made to stretch, and the winch pulls on it",
    "{name} is not made to stretch",
    "whether {name} is a strap that is made to stretch can't be told",
    "Use a plain strap or a sling in its place",
)
_WEAK = Words(
    "recovery strap {name} breaks at {measured}; for {body}, the lighter vehicle, it must be {limit} at the least",
    "recovery strap {name} breaks at {measured}, {limit} at the least for {body}",
    "whether recovery strap {name} is strong enough for the lighter vehicle can't be told",
    "Use a strap made for that vehicle",
)
_STIFF = Words(
    "recovery strap {name} breaks at {measured}; for {body}, the lighter vehicle, {limit} is the most",
    "recovery strap {name} breaks at {measured}, {limit} at the most for {body}",
    "whether recovery strap {name} stretches enough for the lighter vehicle can't be told",
    "Use a strap made for that vehicle",
)
_STRAPS = ("strap", "sling", "recovery strap")


@rule(
    title="Recovery straps in a winch rig", grade=Grade.WARNING, guards="connectors", basis=(_STANDARD, _NOT_HERE),
    once=True,
    limits=(
        Limit("least", 2.0, "1", "strength of a recovery strap over the lighter vehicle", _STANDARD, milder="lower"),
        Limit("most", 3.0, "1", "strength of a recovery strap over the lighter vehicle", _STANDARD, milder="higher"),
    ),
    worse=Worse.by(taken_away="connectors/*/kind"),
)  # fmt: skip
def recovery_strap(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        if stage.stations:
            for strap in {link.connector.name: link.connector for link in links(stage)}.values():
                yield from _strap(stage, strap, limits)


def _strap(stage: StageSolution, strap: Connector, limits: Limits) -> Checks:
    facts = strap.facts
    where = Where("connector", strap.name, strap.pointer, "", stage.stage.index)
    if facts.kind in _STRAPS:
        yield holds(facts.kind != "recovery strap", where, _KIND, basis=_NOT_HERE)
    elif facts.kind is None and facts.material != "steel":
        yield holds(None, where, _KIND, missing=(place(strap.pointer, "kind"),), basis=_NOT_HERE)
    if facts.kind == "recovery strap":
        yield from _strength(stage, strap, where, limits)


def _strength(stage: StageSolution, strap: Connector, where: Where, limits: Limits) -> Checks:
    bodies = [body for body in stage.stage.bodies.values() if body.name != "ground"]
    missing = tuple(place(body.pointer, "laden_mass") for body in bodies if body.facts.laden_mass is None)
    if strap.facts.breaking is None:
        missing = (*missing, place(strap.pointer, "working_load or breaking"))
    if missing:
        yield at_least(None, None, "N", where, _WEAK, missing=missing)
        return
    assert strap.facts.breaking is not None  # noqa: S101 -- nothing is missing
    lighter = min(bodies, key=lambda body: body.facts.laden_mass.low if body.facts.laden_mass else inf)
    laden = lighter.facts.laden_mass or strap.facts.breaking
    terms = (("body", lighter.name),)
    least, most = limits["least"] * laden.high, limits["most"] * laden.low
    yield at_least(strap.facts.breaking.low, least, "N", where, _WEAK, terms=terms)
    yield at_most(strap.facts.breaking.high, most, "N", where, _STIFF, terms=terms)
