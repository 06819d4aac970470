"""Wraps that must stay on the drum.

The rope's fastening on the drum is not made to hold the pull: the wraps that stay hold
it, by friction. With too few of them the fastening lets go, and the load and a whipping
rope's end are free at once.

How it is judged: at the station where fewest wraps are on the drum, at the short end of
every length and the long end of the drum's and the rope's thickness. Wire keeps 5 wraps,
fibre rope the whole bottom layer and never fewer than wire. Where the plan does not say
how far the fairlead stands from the drum, the rope on that way is counted in at first,
and then half a metre of it is put by: what is enough without that much passes, what is
too little with it fails, and in between it can't be told. What the wraps pass on to the
fastening is T exp(-2 pi mu n), with the low end of what rope grips (HMPE 0.05, others
0.1, from memory), and is checked where the fastening's own strength is stated.

    left_to_fastening = line_pull * exp(-2 * pi * friction * wraps)

Sources for winches differ: 5 wraps in the operator's manuals of heavy trucks (TM
9-2320-279-10-2), 4 in that of a light truck (TM 9-2320-280-10), 3 in a regulation for
well servicing (Wyoming OSHA ch. 5), and 2 from memory in a European standard. The safest
is taken. For fibre rope no published figure was found: the whole bottom layer is common
practice, since such rope grips about half as well as wire.

What to do: move the anchor or the winch nearer, put an extension in, or stop sooner.

Worked example: five wraps of wire, 47 kN in the rope.
pull = 47 kN; mu = 0.1; wraps = 5; fastening = pull * exp(-2 * pi * mu * wraps) = 2.031 kN
"""

from math import inf

from riglint.mechanics.provenance import TM_9_2320_279_10
from riglint.outcome import Formula, Grade, Value, Where
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, at_most, either_end
from riglint.solve.drum_figures import UNTOLD_RUN_M
from riglint.solve.rope import stages
from riglint.solve.wraps import Wraps, fewest_wraps

_WIRE = Basis("handbook", "at least 5 wraps stay on the drum", TM_9_2320_279_10, "p. 2-660", "winching", "read")
_FIBRE = Basis("common practice", "fibre rope: the whole bottom layer stays on the drum", scope="winching")
_RUN = Basis("common practice", "rope between drum and fairlead, where it isn't stated", scope="winching")
_CAPSTAN = Basis("derivation", "wraps hold by friction: T exp(-2 pi mu n)", scope="winching")

_WRAPS = Formula("wraps", "rope_on_drum / one_wrap", (("rope_on_drum", "m"), ("one_wrap", "m")), "wraps")
_LEFT = Formula(
    "left_to_fastening", "line_pull * exp(-2 * pi * friction * wraps)",
    (("line_pull", "N"), ("friction", "1"), ("wraps", "wraps")), "N",
)  # fmt: skip
_WORDS = Words(
    "only {measured} stay on the drum, {limit} must; they leave {left} of the pull to the rope's fastening",
    "{measured} stay on the drum, {limit} must; they leave {left} of the pull to the rope's fastening",
    "whether enough wraps stay on the drum can't be told",
    "Keep {short} more rope on the drum: an extension, or a shorter way from winch to load",
)
_UNSTATED = _WORDS._replace(
    fails="only {measured} stay on the drum, less the way to the fairlead, which isn't stated; {limit} must; they "
    "leave at least {left} of the pull to the rope's fastening",
    passes="{measured} stay on the drum, with {run} put by for the way to the fairlead, which isn't stated; {limit} "
    "must; they leave {left} of the pull to the rope's fastening",
    unknown="whether enough wraps stay on the drum can't be told: there are {most} less the way to the fairlead, which "
    "isn't stated, and {least} with {run} put by for it",
)
_FASTENING = Words(
    "the wraps leave {measured} to the rope's fastening, which holds {limit}",
    "the wraps leave {measured} to the rope's fastening, which holds {limit}",
    "what the wraps leave to the rope's fastening can't be told",
    "Keep more wraps on the drum",
)


@rule(
    title="Wraps left on the drum", grade=Grade.DANGER, guards="drum", basis=(_WIRE, _FIBRE, _CAPSTAN),
    limits=(
        Limit("wire_wraps", 5.0, "wraps", "least wraps of wire rope", _WIRE, "lower"),
        Limit("fibre_layers", 1.0, "layers", "least layers of fibre rope", _FIBRE, "lower"),
        Limit("unstated_run", UNTOLD_RUN_M, "m", "rope put by between drum and fairlead if not stated", _RUN, "lower"),
    ),
    worse=Worse.by(higher="winch/fairlead/from_drum", lower="winch/drum/fastening lines/*/pieces/*/length",
                   taken_away="winch/fairlead/from_drum lines/*/pieces/*/length winch/drum lines/*/pieces/*/rope"),
)  # fmt: skip
def drum_wraps(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        yield from _fewest(stage, fewest_wraps(stage), limits)


def _fewest(stage: StageSolution, most: Wraps, limits: Limits) -> Checks:
    drum, fairlead, pointer = stage.stage.winch.facts.drum, stage.stage.winch.facts.fairlead, stage.stage.winch.pointer
    where = Where("drum", "drum", pointer, "", stage.stage.index, most.station.travel_m)
    if most.lacks:
        yield at_least(None, None, "wraps", where, _WORDS, missing=most.lacks)
        return
    stated = bool(fairlead and fairlead.from_drum)
    least = most if stated else most.without(limits["unstated_run"])
    ends = ((least, ()), (most, () if stated else (place("/winch/fairlead", "from_drum"),)))
    must = most.must_stay(limits["wire_wraps"], limits["fibre_layers"])
    terms = (
        ("short", Value((must - least.wraps) * least.one_m, "m")), ("run", Value(limits["unstated_run"], "m")),
        ("most", Value(most.wraps, "wraps")), ("least", Value(least.wraps, "wraps")),
    )  # fmt: skip
    rope: tuple[str, ...] = () if most.rope else (place(stage.stage.haul.pieces[0].pointer, "rope"),)
    yield either_end(*(
        at_least(
            left.wraps, must, "wraps", where, _WORDS if stated else _UNSTATED, missing=rope + lacks,
            terms=(("left", Value(left.left_n(1.0), "share")), *terms),
            working=(_WRAPS.step(left.wraps, left.on_drum_m, left.one_m),) if left.one_by_one else (),
        ) for left, lacks in ends))  # fmt: skip
    if drum and drum.fastening:
        pull = stage.missing["stall" if stage.stage.works == "hauling" else "expected"]
        yield either_end(*(_fastening(left, drum.fastening.low, where, pull + lacks) for left, lacks in ends))


def _fastening(left: Wraps, holds_n: float, where: Where, missing: tuple[str, ...]) -> Check:
    pull_n = left.pull_n
    passed_on = None if pull_n is None else left.left_n(pull_n)
    working = (_LEFT.step(left.left_n(pull_n), pull_n, left.mu, left.wraps),) if pull_n and pull_n < inf else ()
    return at_most(passed_on, holds_n, "N", where, _FASTENING, missing=missing, working=working, measure="fastening",
                   basis=_CAPSTAN)  # fmt: skip
