"""What a join leaves of the rope, against what comes on it.

A line breaks at its join long before it breaks in the free rope, and both ends then fly.

How it is judged: the working load of the weaker piece (as marked, or its breaking
strength over the design factor for rope), times what the join keeps, against the most
that comes on the join, as expected and at stall. A shackle or soft shackle is gear: it is
held against its own mark, or its own breaking strength over 5 as expected (a lifting
figure: a CAUTION while it carries less than half its strength) and 2 at stall. Past three
quarters of what the join breaks at, or twice a shackle's mark, it is a DANGER, as it is
for all other rope and gear (`working-load`).

    use = load / (breaking / factor * keeps)

What is kept: by the maker's figure (`keeps`) where one is stated. Else, loop to loop with
parallel legs and no twist 85 %: common practice, without a published test; a house limit
or a maker's figure may replace it. It is another thing than a knot tied in free ends, for
which published figures are about half (FM 5-125, from memory; a bowline 67 % by the
Cordage Institute, read second hand). A spliced eye keeps 90 % (from memory); in wire a
tucked splice 86 % up to 1/2 in, a pressed sleeve 92.5 to 95 % up to 1 in (TM 5-3810-305-10, read). Knots and cow
hitches in HMPE slip, and no figure for them is firm enough to let one pass. For loops of
two sizes there is no figure at all, nor for crossed or twisted ones, which another rule
forbids.

Design factors are those of the rule on working loads: wire 3 as expected, other rope and
the stall case 2.

What to do: a splice or a shackle of sufficient mark in place of the knot, stronger rope,
or less on the line.

Worked example: loops in rope of 115 kN at stall of 46.5 kN.
load = 46.5 kN; breaking = 115 kN; factor = 2; keeps = 0.85; use = load / (breaking / factor * keeps) = 0.951
"""

from riglint.outcome import Formula, Grade, Result, Where
from riglint.rig.model import Join
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, exceeds, here
from riglint.rulebook.loads import graded
from riglint.solve.joint import is_gear, is_set_wrong, kept, weaker
from riglint.solve.rope import stages
from riglint.solve.seats import known_n
from riglint.solve.solution import Case, Component

_LOOPS = Basis("common practice", "loop to loop with parallel legs loses 15 %; no published test", scope="winching")
_ENDS = Basis("handbook", "what ends of wire rope keep", "tm-5-3810-305-10", "table 4 p. 4-36", "lifting", "read")
_KNOTS = Basis("handbook", "knots keep half or less", "fm-5-125", "ch. 1", "general", "from memory")
_WIRE = Basis("regulation", "wire rope 3", "wyoming-osha-ch-5", "s. 5-2(c)", "winching", "read")
_HALF = Basis("handbook", "twice the winch's pull", "mgn-308", "2.1", "mooring", "read second hand")
_GEAR = Basis("standard", "shackles 5", "asme-b30-26", "26-1.2", "lifting", "read second hand")

_MAY = Formula("may_carry", "rope_may_carry * keeps", (("rope_may_carry", "N"), ("keeps", "share")), "N")
_WORDS = Words(
    "{name} ({kind}) carries {measured}; with what it leaves of the rope it may carry {limit}",
    "{name} ({kind}) carries {measured} of the {limit} that it may carry",
    "whether {name} ({kind}) holds can't be told",
    "Use a stronger join, such as a splice, or stronger rope, or rig so that less comes on it")  # fmt: skip
_STALL = _WORDS._replace(
    fails="if the winch is kept on until it stalls, {name} ({kind}) carries {measured}; it may carry {limit}"
)


@rule(
    title="Strength of joins", grade=Grade.WARNING, guards="line", basis=(_LOOPS, _KNOTS, _ENDS, _WIRE, _HALF),
    limits=(
        Limit("loops", 0.85, "share", "what a loop-to-loop join with parallel legs keeps", _LOOPS, "higher"),
        Limit("wire_rope", 3.0, "1", "wire rope's breaking strength over its load, as expected", _WIRE, "lower"),
        Limit("fibre_rope", 2.0, "1", "fibre rope's breaking strength over its load, as expected", _HALF, "lower"),
        Limit("gear", 5.0, "1", "breaking strength of a shackle without a mark over its load", _GEAR, "lower"),
        Limit("stall", 2.0, "1", "breaking strength over the load at stall", _HALF, "lower"),
    ),
    worse=Worse.by(higher="winch/stall_pull",
                   lower="lines/*/pieces/*/breaking lines/*/pieces/*/working_load lines/*/pieces/*/keeps",
                   taken_away="lines/*/pieces/*/breaking+working_load lines/*/pieces/*/set lines/*/pieces/*/twist"),
)  # fmt: skip
def join_strength(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for component in stage.components:
            if isinstance(component.item, Join):
                yield from _join(stage, component, component.item, limits)


def _join(stage: StageSolution, component: Component, join: Join, limits: Limits) -> Checks:
    """Both cases, but one can't-tell is enough, and none where a case fails or another rule forbids the join."""
    cases: tuple[Case, ...] = ("stall", "expected") if stage.stage.works == "hauling" else ("expected",)
    checks = [_case(stage, component, join, case, limits) for case in cases]
    told = [check for check in checks if check.result is not Result.CANT_TELL]
    yield from told
    if len(told) < len(checks) and not is_set_wrong(join) and not any(check.result is Result.FAILED for check in told):
        yield next(check for check in checks if check.result is Result.CANT_TELL)


def _case(stage: StageSolution, component: Component, join: Join, case: Case, limits: Limits) -> Check:
    peak = stage.peak(component, case)
    load = peak.load_n if peak else None
    where = here(stage, component, case, peak.station if peak else None)
    judged = _of_gear if is_gear(join) else _of_rope
    measured = load if case == "stall" else known_n(stage, load)
    check = judged(join, measured, where, stage.missing[case], limits)
    pull = stage.stations[peak.station].legs[0].tension.get("stall") if peak and case == "stall" else None
    return check._replace(terms=(("kind", join.facts.kind),), pull_n=pull, measure="working load")


def _of_rope(join: Join, load: float | None, where: Where, missing: tuple[str, ...], limits: Limits) -> Check:
    stall = where.case == "stall"
    factors = (limits["stall"], limits["stall"]) if stall else (limits["wire_rope"], limits["fibre_rope"])
    rope, left = weaker(join, *factors), kept(join, limits["loops"])
    may = None if rope.may_n is None else rope.may_n * left.share
    breaks_n = None if rope.breaking_n is None else rope.breaking_n * left.share
    return at_most(
        load, may, "N", where, _STALL if stall else _WORDS, missing=left.missing + rope.missing + missing,
        working=() if rope.may_n is None else (_MAY.step(rope.may_n * left.share, rope.may_n, left.share),),
        grade=_danger(load, None, breaks_n),
    )  # fmt: skip


def _danger(load: float | None, working_n: float | None, breaking_n: float | None) -> Grade | None:
    return Grade.DANGER if load is not None and graded(load, working_n, breaking_n) is Grade.DANGER else None


def _of_gear(join: Join, load: float | None, where: Where, missing: tuple[str, ...], limits: Limits) -> Check:
    stall, facts = where.case == "stall", join.facts
    marked, breaking = (span.low if span else None for span in (facts.working_load, facts.breaking))
    may, grade = marked, _danger(load, marked, breaking)
    if may is None and breaking is not None:
        may = breaking / limits["stall" if stall else "gear"]
        grade = grade if load is None or exceeds(load, breaking / limits["stall"]) else Grade.CAUTION
    missing = missing if may else (place(join.pointer, "working_load or breaking"), *missing)
    return at_most(load, may, "N", where, _STALL if stall else _WORDS, missing=missing, grade=grade)
