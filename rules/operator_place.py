"""Where the winch operator is.

The operator has to be at the winch, and the winch is the end of the line. On foot he stands at least 6 ft from
it and never in line with the pull (NAVEDTRA 14160, for handlers of synthetic line); a long remote control is
better. The cone in which a broken end comes back opens by 15 deg on either side, common practice. A cab is a
place to operate from (whether it is shielded is for `people-clear`, and so is anybody whom the line would strike
within one length of a leg). A plan that does not say where the
operator is can't be told.

    distance to the winch >= 6 ft, and angle off the first leg's line >= 15 deg, on either end of it

What to do: operate from the cab, by remote control from the side, or move out of the line.

Worked example: an operator 1.2 m behind and 1.5 m beside the winch.
behind = 1.2 m; beside = 1.5 m; distance = sqrt(behind ** 2 + beside ** 2) = 1.921 m
"""

from math import inf, radians

from riglint.mechanics.danger import STAND_OFF_FLOOR
from riglint.mechanics.plan_view import cone_reach_m, plan_distance_m
from riglint.mechanics.vectors import sub
from riglint.reading.nearest import one_of
from riglint.rig.model import Person, RigStage
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_least, holds
from riglint.solve.exposure import struck

_HANDLERS = Basis("handbook", "handlers at least 6 ft off, never in line of pull", "navedtra-14160", "synthetic lines",
                  "mooring", "read")  # fmt: skip
_CONE = Basis("common practice", "15 deg on either side of the line")
_NEAR = Words(
    "{who} stands {measured} from the winch, {limit} at least", "{who} stands {measured} from the winch",
    "where {who} is can't be told", "Operate from farther off, by remote control, or from a cab",
)  # fmt: skip
_IN_LINE = Words("{who} stands in line with the pull", "{who} is out of the line of pull", "",
                 "Move {who} out to the side of the line")  # fmt: skip
_STRUCK = Words("", "{who} is told to move by `people-clear`")
_CAB = Words("", "{who} operates from {where}")
_NOBODY = Words("", "", "it isn't said where the winch operator is")


@rule(
    title="The winch operator's place", grade=Grade.WARNING, guards="people", basis=(_HANDLERS,), once=True,
    limits=(
        Limit("distance", 1.8288, "m", "least distance from the winch", _HANDLERS, "lower", 1.8288),
        Limit("half_angle", radians(15.0), "rad", "half angle of the cone about the line", _CONE, "lower"),
    ),
    worse=Worse.by(taken_away="people people/*/at"),
)  # fmt: skip
def operator_place(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        operators = [person for person in stage.stage.people if _operates(person.who.lower())]
        for person in operators if stage.stations else ():
            yield from _operator(stage, person, limits)
        if not operators:
            where = Where("people", "people", "/people" if stage.stage.people else "", "", stage.stage.index)
            yield holds(None, where, _NOBODY, missing=(_asked(stage.stage),))


def _asked(stage: RigStage) -> str:
    """The operator, by a name that says so: of people who are there, one may be it under another."""
    if not stage.people_stated:
        return "people: who stands where"
    others = [f"{person.who} and winch operator" for person in stage.people if "spotter" not in person.who.lower()]
    asked = "people: the winch operator, and where"
    return f"{asked}; write {one_of(others)} if that is who it is" if others else asked


def _operates(who: str) -> bool:
    """Whoever works the winch, by whatever name; not who only keeps it in sight."""
    return "operator" in who or ("winch" in who and "spotter" not in who)


def _operator(stage: StageSolution, person: Person, limits: Limits) -> Checks:
    where = Where("person", person.who, person.pointer, "", stage.stage.index)
    who = (("who", person.who),)
    if person.body is not None:
        yield holds(True, where, _CAB, terms=(*who, ("where", str(person.facts.in_))))
        return
    if person.at is None:
        yield at_least(
            None, limits["distance"], "m", where, _NEAR, missing=(f"{person.pointer[1:]}: at, or in",), terms=who
        )
        return
    if struck(stage, person, STAND_OFF_FLOOR.value):
        yield holds(True, where, _STRUCK, terms=who)
        return
    near_m, in_line = inf, False
    for station in stage.stations:
        first = station.legs[0]
        near_m = min(near_m, plan_distance_m(person.at, first.start, first.start))
        out, back = sub(first.end, first.start), sub(first.start, first.end)
        for tip, way in ((first.start, back), (first.start, out), (first.end, out)):
            reach_m = cone_reach_m(person.at, tip, way, limits["half_angle"])
            in_line = in_line or reach_m < 2.0 * first.length_m
    yield at_least(near_m, limits["distance"], "m", where, _NEAR, terms=who)
    yield holds(not in_line, where, _IN_LINE, terms=who)
