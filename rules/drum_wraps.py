"""Wraps that must stay on the drum.

The rope's fastening on the drum is not made to hold the pull: the wraps that stay hold
it, by friction. With too few of them the fastening lets go, and the load and a whipping
rope's end are free at once.

How it is judged: at the station where fewest wraps are on the drum, at the short end of
every length. Wire keeps 5 wraps, fibre rope the whole bottom layer and never fewer than
wire. Where the plan does not say how far the fairlead stands from the drum, half a metre
of rope is put by for it. What the wraps pass on to the fastening is T exp(-2 pi mu n),
with the low end of what rope grips (HMPE 0.05, others 0.1, from memory), and is checked
where the fastening's own strength is stated.

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

from riglint.mechanics.provenance import TM_9_2320_279_10
from riglint.outcome import Formula, Grade, Value, Where
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, at_most
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
    "the wraps that stay on the drum can't be told",
    "Keep {short} more rope on the drum: an extension, or a shorter way from winch to load",
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
        Limit("unstated_run", 0.5, "m", "rope put by between drum and fairlead if not stated", _RUN, "lower"),
    ),
    worse=Worse.by(higher="winch/fairlead/from_drum", lower="winch/drum/fastening lines/*/pieces/*/length",
                   taken_away="winch/fairlead/from_drum lines/*/pieces/*/length winch/drum lines/*/pieces/*/rope"),
)  # fmt: skip
def drum_wraps(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        yield from _fewest(stage, fewest_wraps(stage), limits)


def _fewest(stage: StageSolution, left: Wraps, limits: Limits) -> Checks:
    winch, wraps = stage.stage.winch, left.wraps
    where = Where("drum", "drum", winch.pointer, "", stage.stage.index, left.station.travel_m)
    if left.lacks:
        yield at_least(None, None, "wraps", where, _WORDS, missing=left.lacks)
        return
    must = left.must_stay(limits["wire_wraps"], limits["fibre_layers"])
    missing: tuple[str, ...] = () if left.rope else (place(stage.stage.haul.pieces[0].pointer, "rope"),)
    fairlead = winch.facts.fairlead
    if not (fairlead and fairlead.from_drum) and must <= wraps < must + limits["unstated_run"] / left.one_m:
        missing += (place("/winch/fairlead", "from_drum"),)
    yield at_least(
        wraps, must, "wraps", where, _WORDS, missing=missing,
        terms=(("left", Value(left.left_n(1.0), "share")), ("short", Value((must - wraps) * left.one_m, "m"))),
        working=(_WRAPS.step(wraps, left.on_drum_m, left.one_m),) if 0.0 < wraps <= left.in_bottom else (),
    )  # fmt: skip
    if winch.facts.drum and winch.facts.drum.fastening:
        missing = stage.missing["stall" if stage.stage.works == "hauling" else "expected"]
        yield _fastening(left, winch.facts.drum.fastening.low, where, missing)


def _fastening(left: Wraps, holds_n: float, where: Where, missing: tuple[str, ...]) -> Check:
    pull_n = left.pull_n
    passed_on = None if pull_n is None else left.left_n(pull_n)
    working = () if pull_n is None else (_LEFT.step(left.left_n(pull_n), pull_n, left.mu, left.wraps),)
    return at_most(passed_on, holds_n, "N", where, _FASTENING, missing=missing, working=working, measure="fastening",
                   basis=_CAPSTAN)  # fmt: skip
