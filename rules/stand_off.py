"""How far everybody on foot stands from the rig.

Distance is what protects from what nobody foresaw: the line that jumps a redirect, the anchor that lets go. Two
figures stand in one manual (FM 4-30.31): observers at least one cable length away, and two payed-out lengths
from wire rope under tension. Two others say one length of the longest cable (TM 9-2320-356-BD) and the distance
between the two most distant points of the rigging (FM 21-305).

    distance from the nearest leg >= max(lengths * longest leg, span of the rigging)

The manuals' lengths are of the cable. Here the longest leg counts for it and not the whole line, since a break lets go
what lies between two turns: that is ours, and milder than theirs where the line turns. So nobody is let nearer than the
span, whatever the legs. Nearer than one length or the span is a CAUTION; nearer than two lengths, the safer figure, a
NOTICE. People in vehicles are for `people-clear`, and so is
anybody who stands where the line would strike, near or far.

What to do: send people who have no task out to two lengths; whoever has one does it from outside the danger
areas.

Worked example: a spotter 14 m from the nearest leg, the longest leg 16 m.
distance = 14 m; longest = 16 m; use = longest / distance = 1.14
"""

from riglint.mechanics.danger import STAND_OFF_SPAN, STAND_OFF_STRICT, stand_off_m
from riglint.mechanics.plan_view import plan_distance_m
from riglint.mechanics.provenance import FM_4_30_31, FM_21_305
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Where, Worse, rule
from riglint.rulebook.judge import Words, at_least, exceeds
from riglint.solve.danger_areas import span_m
from riglint.solve.exposure import struck

_ONE = Basis(
    "handbook", "observers at least one cable length away", FM_4_30_31, "safety", "winching", "read second hand"
)
_TWO = Basis("handbook", "two payed-out lengths from wire rope under tension", FM_4_30_31, "safety", "winching",
             "read second hand")  # fmt: skip
_LONGEST = Basis("handbook", "no closer than the longest cable used", "tm-9-2320-356-bd", "p. 4-4", "winching", "read")
_SPAN = Basis(
    "handbook", "the two most distant points of the rigging", FM_21_305, "ch. 22", "winching", "read second hand"
)
_WORDS = Words(
    "{who} stands {measured} from the nearest leg, {limit} at least", "{who} stands {measured} from the nearest leg",
    "how far {who} stands from the rig can't be told", "Move {who} farther off",
)  # fmt: skip


@rule(
    title="Distance of people on foot", grade=Grade.CAUTION, guards="people", basis=(_ONE, _TWO, _LONGEST, _SPAN),
    once=True,
    limits=(
        Limit("floor", 1.0, "1", "longest legs that everybody stands off", _ONE, "lower", 1.0),
        Limit("strict", 2.0, "1", "longest legs that everybody had better stand off", _TWO, "lower", 1.0),
    ),
    worse=Worse.by(taken_away="people people/*/at people/*/in"),
)  # fmt: skip
def stand_off(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        if not stage.stations:
            continue
        longest_m = max(leg.length_m for station in stage.stations for leg in station.legs)
        by_legs = (stand_off_m(longest_m, max(1.0, limits[name])) for name in ("floor", "strict"))
        floor_m, strict_m = (max(by_leg, stand_off_m(span_m(stage), STAND_OFF_SPAN.value)) for by_leg in by_legs)
        for person in stage.stage.people:
            where = Where("person", person.who, person.pointer, "", stage.stage.index)
            who = (("who", person.who),)
            if struck(stage, person, STAND_OFF_STRICT.value):
                continue
            if person.at is not None:
                off_m = _off_m(stage, person.at)
                limit_m, grade = (floor_m, Grade.CAUTION) if exceeds(floor_m, off_m) else (strict_m, Grade.NOTICE)
                yield at_least(off_m, limit_m, "m", where, _WORDS, terms=who, grade=grade)
            elif person.body is None:
                missing = (f"{person.pointer[1:]}: at, or in",)
                yield at_least(None, strict_m, "m", where, _WORDS, missing=missing, terms=who)
        if not stage.stage.people_stated:
            where = Where("people", "people", "", "", stage.stage.index)
            yield at_least(
                None, strict_m, "m", where, _WORDS, missing=("people: who stands where",), terms=(("who", "anybody"),)
            )


def _off_m(stage: StageSolution, place: tuple[float, float, float]) -> float:
    """From the nearest leg over the travel, as far as its ends stand where a station is."""
    return min(plan_distance_m(place, leg.start, leg.end) for s in stage.stations for leg in s.legs)
