"""Deadmen: a log or timber buried across the pull, and the ground in front of it.

What holds is the ground: so much for each square foot of face, more the deeper it lies and the flatter the
pull.

    holds = ground * face * (length - trench)

`ground` is the table of FM 5-125 and TM 5-5420-278-10 (table 9) in loam, between its rows in proportion; what it
has for pulls steeper than 1:1, and for 7 ft at 1:2, is from memory. Rock or hardpan holds five times that, wet
fine-grained ground half. Wet clays, which the table does not name, are taken as wet and fine-grained. A pull
flatter than 1:4 counts as 1:4, one deeper than 7 ft as 7 ft. Above 3 ft the table ends: more than 3 ft would hold
fails, less can't be told. The trench that the line lies in takes its own width away (FM 5-125: 1 or 2 ft; TM
5-5420-278-10: 1 ft); where it isn't stated, 2 ft. A log is no longer than 5 times its diameter, a timber than 9
times its thickness, or it breaks as a beam.

Both manuals make a deadman as strong as the rope that breaks on it. Here it is held against what comes on it, by
what the ground holds and with no factor on that: milder than they are, where the rope has strength to spare.

Over that as expected, or at rest on a slope, is a DANGER; at stall a WARNING, and a DANGER past twice that.

What to do: deeper, a longer or higher face, a flatter pull, or another anchor.

Worked example: 5 ft deep, pulled at 1:4, 18 in face, 7 ft long, trench 1 ft.
ground = 4100 lb/ft2; face = 1.5 ft; length = 7 ft; trench = 1 ft; holds = ground * face * (length - trench) = 36900 lbf
"""

from riglint.mechanics.deadman import SLENDERNESS, deadman_slenderness_ratio
from riglint.mechanics.provenance import FM_5_125, TM_5_5420_278_10
from riglint.outcome import Formula
from riglint.rig.model import Point
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, here
from riglint.rulebook.loads import against
from riglint.solve.ground import holding_of
from riglint.solve.solution import Component
from riglint.solve.worst import points

_TABLE = Basis(
    "handbook", "holding power by depth and slope", TM_5_5420_278_10, "table 9 p. 0035 00-22", "general", "read"
)
_LENGTH = Basis("handbook", "the trench takes its width away", FM_5_125, "ch. 4", "general", "from memory")
_BEAM = Basis("handbook", "length at most 5 diameters (log), 9 thicknesses (timber)", TM_5_5420_278_10, "p. 0035 00-23",
              "general", "read")  # fmt: skip
_HOLDS = Formula(
    "holds", "ground * face * (length - trench)",
    (("ground", "Pa"), ("face", "m"), ("length", "m"), ("trench", "m")), "N",
)  # fmt: skip
_WORDS = Words(
    "{component} carries {measured}; the ground in front of it holds {limit}",
    "{component} carries {measured} of the {limit} that the ground in front of it holds",
    "whether {component} holds can't be told",
    "Bury it deeper, give it a longer or higher face, pull flatter, or use another anchor",
)
_BREAKS = Words(
    "{component} is {measured} times as long as it is thick, {limit} at most: it breaks as a beam",
    "{component} is {measured} times as long as it is thick", "whether {component} breaks as a beam can't be told",
    "Use a thicker one, or a shorter one buried deeper",
)  # fmt: skip


@rule(
    title="Deadman anchors", grade=Grade.DANGER, guards="anchors", basis=(_TABLE, _LENGTH, _BEAM),
    limits=(
        Limit("log", SLENDERNESS["log"].value, "1", "length over diameter of a log", _BEAM, "higher"),
        Limit("timber", SLENDERNESS["timber"].value, "1", "length over thickness of a timber", _BEAM, "higher"),
    ),
    worse=Worse.by(higher="points/*/deadman/trench points/*/deadman/pull_slope winch/stall_pull",
                   lower="points/*/deadman/depth points/*/deadman/face points/*/deadman/thickness",
                   taken_away="points/*/deadman points/*/deadman/soil"),
)  # fmt: skip
def deadman_anchor(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component, point in points(stage, "deadman"):
            yield from _deadman(stage, component, point, limits)


def _deadman(stage: StageSolution, component: Component, point: Point, limits: Limits) -> Checks:
    facts = point.facts.deadman
    if facts is None:
        nothing = (place(point.pointer, "deadman"),)
        yield at_most(None, None, "N", here(stage, component), _WORDS, missing=nothing)
        return
    thick = facts.face if facts.material == "log" else facts.thickness
    ratio = deadman_slenderness_ratio(facts.length.high, thick.low) if thick else None
    lacks = () if thick else (place(point.pointer, "deadman/thickness"),)
    where = here(stage, component)
    yield at_most(ratio, limits[facts.material], "1", where, _BREAKS, missing=lacks, grade=Grade.WARNING)
    held, lacking = holding_of(facts)
    missing = tuple(place(point.pointer, f"deadman/{fact}") for fact in lacking)
    steps = (_HOLDS.step(held.holds_n, *held[1:]),) if held else ()
    capacity, both = (held.holds_n if held else None, steps), (_WORDS, _WORDS)
    yield from against(
        stage, component, lambda _: capacity, both, "what the ground holds", missing=missing, steady=Grade.DANGER
    )
