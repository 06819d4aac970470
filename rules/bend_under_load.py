"""How sharp a bend rope makes, for the load that it carries.

Rope that is bent carries more on its outside. A bend that is too sharp for the load takes
strength away just where the redirect, and whatever stands inside the bend, gets the blow.

How it is judged: the bend ratio is tread over rope diameter, at the small end of the one
and the large end of the other. It is held against what two loads ask for, u being the
load over the rope's breaking strength:

    bend_ratio = tread / diameter, at least 3 + 5 u where fibre moves and 1 + 4 u where it stands

- the load that the rope carries there: too sharp for that in the pull as expected is a
  WARNING, at stall a CAUTION;
- its breaking load (u = 1): too sharp for that alone is a NOTICE.

Fibre rope asks for 3 + 5 u where it moves over the seat and 1 + 4 u where it stands: 8
and 5 at the breaking load. Wire asks for the ratio at which a standing bend leaves it the
load, and at stall twice the load, since hauling asks every element to have half of its
strength in hand then (MGN 308), but for no more than 12; at its breaking load for the
published sheaves, 20 (14 to 20 by construction, as the critical size of TB 43-0142; its
least is 18 to 34), where it moves, and 12 where it stands. Those are lifting figures, for
long life, and a winch line runs over smaller sheaves: so they weigh no more than a
NOTICE. The law never asks for less as the load rises. The hanger's bend on a redirect is
a standing one, and so is judged with its own load and strength. Rope that leaves the
fairlead within 5 degrees of straight makes no bend there.

Figures: 8 at the breaking load and less below it, the straight lines between, and 5 for a
standing bend are common practice or from memory; 3 for a thimble (of a wire sling,
DOE-STD-1090), the sheaves and the wire curve are published.

What to do: a redirect with a larger tread, a thinner or stronger rope, or fewer parts so
that less comes on it.

Worked example: 11 mm HMPE of 115 kN moving over a tread of 45 mm with 46.5 kN in it.
tread = 45 mm; rope = 11 mm; ratio = tread / rope = 4.09
load = 46.5 kN; breaking = 115 kN; asked = 3 + 5 * load / breaking = 5.02
"""

from math import inf, isfinite, radians
from typing import Final

from riglint.outcome import Formula, Result, Unit, Value, Where
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, rule
from riglint.rulebook.design_factors import HALF
from riglint.rulebook.judge import Words, at_least, first_greatest
from riglint.solve.bend import RopeBend, rope_bends
from riglint.solve.rope import stages

_MOVING = Basis("common practice", "a moving bend wants 8 diameters at the breaking load", scope="winching")
_STANDING = Basis("common practice", "a standing bend wants 5 diameters at the breaking load, less below it")
_WIRE = Basis("handbook", "sheaves of 20 rope diameters", "navedtra-14081", "p. 13-8", "lifting", "read")
_CURVE = Basis(
    "handbook", "strength that a bend leaves wire", "wire-rope-users-manual", "strength over stationary pins",
    "general", "read second hand")  # fmt: skip
_STRAIGHT = Basis("common practice", "up to here rope runs straight through a fairlead", scope="winching")

_RATIO = Formula("bend_ratio", "tread / diameter", (("tread", "m"), ("diameter", "m")), "1")
_LOAD: Final[tuple[tuple[str, Unit], ...]] = (("load", "N"), ("breaking", "N"))
_ASKED: Final = {
    True: Formula("asked", "3 + 5 * load / breaking", _LOAD, "1"),
    False: Formula("asked", "1 + 4 * load / breaking", _LOAD, "1"),
}
_REMEDY = "Use a larger tread, or rope that is thinner or stronger, or rig so that less comes on it"
_CARRIED = Words(
    "{what} is bent over {measured} times its diameter; the {load} in it ({case}) asks for {limit}",
    "{what} is bent over {measured} times its diameter; the {load} in it ({case}) asks for {limit}",
    "whether {what} is bent too sharply there can't be told",
    _REMEDY)  # fmt: skip
_BREAKING = Words(
    "{what} is bent over {measured} times its diameter; its breaking load would ask for {limit}",
    "{what} is bent over {measured} times its diameter, as much as its breaking load asks for",
    remedy="Use a larger tread where there is one")  # fmt: skip


@rule(
    title="Sharp bend under load", grade=Grade.WARNING, guards="line", basis=(_MOVING, _STANDING, _WIRE, _CURVE, HALF),
    limits=(Limit("straight", radians(5.0), "rad", "turn at the fairlead that is no bend", _STRAIGHT, "higher"),),
    # Not a thicker line: it fills the drum sooner, and so the winch pulls less at stall.
    worse=Worse.by(higher="winch/stall_pull bodies/*/resistance/steady connectors/*/diameter",
                   lower="redirects/*/*/tread winch/fairlead/radius lines/*/pieces/*/breaking connectors/*/breaking",
                   taken_away="redirects/*/*/tread redirects/*/hung_through connectors/*/diameter connectors/*/kind "
                   "winch/fairlead/radius lines/*/pieces/*/diameter lines/*/pieces/*/rope"))  # fmt: skip
def bend_under_load(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        alike: dict[tuple[object, ...], list[Check]] = {}  # of the pieces that lie in one seat
        for bend in rope_bends(stage):
            for check in _judged(stage, bend) if bend.turn_rad > limits["straight"] else ():
                key = (check.where.pointer, check.message, check.grade, bend.what if check.missing else "")
                alike.setdefault(key, []).append(check)
        yield from (first_greatest(checks, lambda check: check.use or inf) for checks in alike.values())


def _judged(stage: StageSolution, bend: RopeBend) -> Checks:
    """By the breaking load alone if the bend serves for that; else by what it carries, then by the breaking load."""
    travel_m = stage.stations[bend.station].travel_m
    where = Where("redirect" if bend.hanger else "seat", bend.at, bend.pointer, "", stage.stage.index, travel_m)
    asked, terms, working = bend.asked_at_breaking, (("what", bend.what),), tuple(_RATIO.step(*n) for n in bend.shown)
    breaking = at_least(bend.ratio, asked, "1", where, _BREAKING, grade=Grade.NOTICE, terms=terms, working=working)
    checks = [] if breaking.result is Result.PASSED else _carried(stage, bend, where)
    yield from checks
    if breaking.result is not Result.CANT_TELL and not any(check.result is Result.FAILED for check in checks):
        yield breaking


def _carried(stage: StageSolution, bend: RopeBend, where: Where) -> list[Check]:
    """The pull as expected carries no more than the stall: what the bend serves for at stall is settled."""
    missing = stage.missing
    checks = []
    if stage.stage.works == "hauling":
        stall = _case(bend, bend.stall_n, where._replace(case="stall"), missing["stall"])
        if stall.result is Result.PASSED:
            return []
        checks.append(stall._replace(grade=Grade.CAUTION) if stall.result is Result.FAILED else stall)
    steady = _case(bend, bend.steady_n, where._replace(case="expected"), missing["expected"])
    if steady.result is Result.FAILED:
        return [steady]
    if steady.result is Result.CANT_TELL:
        checks = [check for check in checks if check.result is Result.FAILED] + [steady]
    return checks


def _case(bend: RopeBend, load_n: float | None, where: Where, missing: tuple[str, ...]) -> Check:
    asked = bend.asked(load_n, at_stall=where.case == "stall")
    working = tuple(_RATIO.step(*n) for n in bend.shown)
    if bend.rope == "fibre" and bend.breaking_n and load_n is not None and isfinite(load_n):
        working += (_ASKED[bend.moving].step(asked, load_n, bend.breaking_n),)
    check = at_least(
        bend.ratio, asked, "1", where, _CARRIED, missing=bend.missing + missing, working=working,
        terms=(("what", bend.what), ("load", Value(load_n or 0.0, "N"))),
    )  # fmt: skip
    soft = check.result is Result.CANT_TELL and (bend.hanger or bend.at == "fairlead")
    return check._replace(grade=Grade.CAUTION) if soft else check
