"""Working loads of ropes, connectors, bridles' legs and the seats that rope runs through.

Gear that is loaded past what it may carry does not warn: a shackle opens, an eye tears,
and the line brings it back. Each is judged twice: by the most that it carries in the pull
as expected (or at rest on a slope, where that is more), and by the most that it carries if
the load stays put and the winch is kept on until it stalls.

    use = load / (working_load * share), or load / (breaking / factor * share)

A working load as marked is never divided again, a breaking strength always is. The share
is what the hitch or a pull off a shackle's line leaves: doubled 2, a basket 2 sin of its
legs' angle from level, choked 0.75; or what an end fitting leaves of a rope, such as 0.8
with clips (TM 5-3810-305-10) and half or less with a knot. A knot in wire rope, an end that
is only cut and a fitting of wire on fibre have no figure and can't be told. Where nothing is
said of an end it may be the poorest: wedge sockets in wire, a knot in fibre. A seat's rating
counts the pull in the line or the resultant of all rope through it, as `rated_for` says; where
it does not say, only what holds both ways passes, and only what is over both ways fails.

Factors go by the kind of gear, and their sources have scopes. Winching: wire rope 3 in the
pull as expected (Wyoming OSHA). Hauling: rope, and every other element, breaks at no less
than 2 times the most that the winch can pull (MGN 308); so 2 is the factor of the stall
for all gear, and of fibre rope in both cases, for want of any other figure for winching.
Mooring practice (MEG4) has 2 for fibre as well, general use (CI 1401) 5 to 12, the low end
for those who know it well, towing (TB 55-1900-232-10) up to 14: a house may set that.
Lifting: 5 for shackles, blocks, web and wire slings, 4 for chain, 7 for textile slings (EN
1492, from memory, the safer; DOE has 5 for web). Marks on gear are made by those, so gear
without a mark is held to them in the pull as expected; but on a winch line they cry wolf.

What a bend takes of a rope's strength is not taken off here: `bend-under-load` judges it. A
fairlead without a rating is asked for one where it turns the line by more than 15 degrees.

So the grade goes by consequence. Past a lifting factor, with at least half the breaking
strength in hand, or rope past half its strength at stall alone: CAUTION. Past a working
load as marked, rope's own factor in the pull as expected, or half of the strength of any
other gear: WARNING. Past twice a working load (the proof load of shackles) or
three quarters of the breaking strength (where fibre is damaged for good, NAVEDTRA 14160):
DANGER.

What to do: heavier gear there, fewer parts, or a stop at the line pull the report names.

Worked example: a textile sling of 250 kN breaking strength, choked, carries 30 kN.
load = 30 kN; breaking = 250 kN; factor = 7; share = 0.75
use = load / (breaking / factor * share) = 1.12
"""

from collections.abc import Iterator
from math import inf

from riglint.rulebook.author import Check, Checks, Grade, Limits, Result, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.design_factors import BASES, DESIGN_FACTORS, HALF, MARK, WINCHING
from riglint.rulebook.judge import More, Words, at_most, holds, judge, use_at_most
from riglint.rulebook.loads import capacity_shown, grade_of_use
from riglint.solve.ratings import capacity
from riglint.solve.strains import Load, Strain, strains

_REMEDY = "Use heavier gear there, or rig so that less comes on it"
_STEADY = Words(
    "{component} carries {measured}, {use} of the {limit} that it may carry",
    "{component} carries {measured} of the {limit} that it may carry",
    "whether {component} may carry what comes on it can't be told", _REMEDY)  # fmt: skip
_STALL = Words(
    "if the winch is kept on until it stalls, {component} carries {measured}, {use} of the {limit} that it may carry",
    "at stall {component} carries {measured} of the {limit} that it may carry",
    "whether {component} may carry what comes on it at stall can't be told",
    _REMEDY + ", or stop at a lower line pull")  # fmt: skip
_NO_LOAD = Words("", "", "what the gear carries in the pull as expected can't be told for all of it")
_NO_STALL = Words("", "", "what the gear carries if the winch stalls can't be told for all of it")


@rule(
    title="Load over what the gear may carry", grade=Grade.WARNING, guards="connectors", basis=(HALF, WINCHING, MARK),
    limits=DESIGN_FACTORS,
    worse=Worse.by(higher="connectors/*/off_line,leg_angle bodies/*/weight winch/stall_pull,rated_layer "
                   "bodies/*/resistance/steady",
                   lower="connectors/*/working_load,breaking connectors/*/legs/*/working_load,breaking "
                   "lines/*/pieces/*/working_load,breaking redirects/*/*/rated,breaking winch/fairlead/rated",
                   taken_away="connectors/*/working_load+breaking,wrapped,leg_angle,kind winch/stall_pull,rated_layer "
                   "connectors/*/legs/*/breaking+working_load lines/*/pieces/*/breaking+working_load redirects/*/loss "
                   "redirects/*/*/rated+breaking,rated_for winch/fairlead/rated"))  # fmt: skip
def working_load(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        if stage.refused is None:
            yield from _stage(stage, limits)


def _stage(stage: StageSolution, limits: Limits) -> Checks:
    untold: set[str] = set()  # cases in which some load is not known, though all ratings are
    for strain in strains(stage):
        unrated = None
        for check, load in _cases(stage, strain, limits):
            if check.result is not Result.CANT_TELL:
                yield check
                if check.grade is Grade.CAUTION and load.most_n == inf:
                    untold.add(load.case)  # it may be worse than that
            elif strain.rating.missing:
                unrated = check
            else:
                untold.add(load.case)
        if unrated:  # the same facts in both cases
            yield unrated
    index, body = stage.stage.index, stage.stage.load
    if "stall" in untold:
        yield holds(None, Where("winch", "winch", "/winch", "stall", index), _NO_STALL, missing=stage.missing["stall"])
    if untold - {"stall"}:
        where = Where("load", body.name, body.pointer, "expected", index)
        yield holds(None, where, _NO_LOAD, missing=stage.missing["expected"])


def _cases(stage: StageSolution, strain: Strain, limits: Limits) -> Iterator[tuple[Check, Load]]:
    """Stall first: where that settles the pull as expected, too, what is not known of the latter is not missed."""
    factors = tuple([limits[gear] for gear in strain.rating.gear])
    steady = strain.steady or Load.untold("expected")
    if stage.stage.works == "hauling":
        stall = strain.stall or Load.untold("stall")
        yield _judged(stage, strain, stall, (limits["stall"],), limits), stall
        may = capacity(strain.rating, factors) if steady.most_n == inf else None
        if may is not None and judge(use_at_most(stall.most_n, may.low_n)) is Result.PASSED:
            return
    yield _judged(stage, strain, steady, factors, limits), steady


def _judged(stage: StageSolution, strain: Strain, load: Load, factors: tuple[float, ...], limits: Limits) -> Check:
    rating, may, at_stall = strain.rating, capacity(strain.rating, factors), load.case == "stall"
    words, travel_m = _STALL if at_stall else _STEADY, stage.stations[load.station].travel_m
    where = Where(strain.kind, strain.name, strain.pointer, load.case, stage.stage.index, travel_m)
    if may is None:
        return at_most(None, None, "N", where, words, missing=rating.missing)
    more: More = {"pull_n": load.pull_n, "measure": "working load", "working": (capacity_shown(rating, may, factors),)}
    more["basis"] = MARK if rating.working_n else BASES["stall" if at_stall else rating.gear[0]]
    check = at_most(load.most_n, may.low_n, "N", where, words, **more)
    if check.result is Result.FAILED:
        more["missing"] = rating.missing or stage.missing[load.case]
        check = at_most(load.least_n, may.high_n, "N", where, words, **more)
    if check.result is Result.FAILED:
        return check._replace(grade=grade_of_use(load.least_n, rating, limits["stall"], at_stall=at_stall))
    return check
