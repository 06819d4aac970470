"""Nobody stands where the line, or what it carries, would hit them.

A rope that breaks, a shackle that opens or a point that tears out turns what was stretched into something that
flies. There is no time to step aside: fibre rope comes back at up to 800 km/h, wire at up to 500 km/h (SA 015).

Judged for everybody, at each place of the travel, seen from above:
- beside a leg: nearer than the clearance (the 6 ft that a navy course keeps handlers from what holds a mooring line);
- past both ends of a leg: a broken end reaches about the leg's own length past what holds it, wider with
  distance (SA 015). The cone opens by the half angle on either side of the line;
- inside a turn: the triangle that the rope would sweep if the redirect came free, and its angle out to the
  longest span of the rig (FM 21-305: stand outside the angle formed by the stressed cable);
- the flight of a redirect when what holds it fails, along the middle of its angle, and of what holds a line's
  end, along its leg. A block of 200 lb has been thrown 300 yd (FM 4-30.31).

    covered = distance_past_end < lengths * leg_length

One manual (FM 4-30.31) says one length in one place and two in another: within one it is DANGER, from there to
two a CAUTION. Within the angle of a turn but beyond its triangle it is a WARNING. A slack line is no excuse: a
line that is slack in every case makes it a WARNING. Somebody in the open on a vehicle that a leg ends on:
WARNING.

A cab protects, but not from a shackle through the glass. Somebody in the cab of a vehicle that a leg ends on,
or in the way of a flight, is a CAUTION unless a damper lies on that leg (for a redirect's flight, on both its
legs). No source gives a figure for dampers; that they take the edge off a recoil is common practice.

What to do: send everybody who has no task out to two line lengths, to the outer side of every turn and never in
line.

Worked example: a bystander stands 12 m past the tree, in line with a leg of 16 m.
distance = 12 m; leg_length = 16 m; lengths = distance / leg_length = 0.75
"""

from riglint.mechanics.provenance import FM_4_30_31, FM_21_305, SAFETY_ALERT_SA015
from riglint.outcome import Value, Where
from riglint.rig.model import Person
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, rule
from riglint.rulebook.judge import Words, exceeds, holds
from riglint.solve.danger_areas import pointer_of
from riglint.solve.exposure import CLEARANCE_M, HALF_ANGLE_RAD, Exposure, Zone, exposed

_RECOIL = Basis("handbook", "a broken end reaches its own length past what holds it", SAFETY_ALERT_SA015, "snap-back",
                "mooring", "read")  # fmt: skip
_LENGTHS = Basis("handbook", "one length (observers) and two (near wire rope)", FM_4_30_31, "safety", "winching",
                 "read second hand")  # fmt: skip
_ANGLE = Basis(
    "handbook", "outside the angle of the stressed cable", FM_21_305, "ch. 22", "winching", "read second hand"
)
_BIGHT = Basis("handbook", "nobody in the bight of a line", "mgn-308", "2.2", "mooring", "read second hand")
_BESIDE = Basis("handbook", "handlers at least 6 ft off", "navedtra-14160", "synthetic lines", "mooring", "read")
_CONE = Basis("common practice", "15 deg on either side of the line")

_AWAY = "Move {who} out of it: two line lengths off, on the outer side of every turn, not in line with a leg"
_SHIELD = "Lay dampers on the legs that end there, and put a screen or the bonnet between"
_UNSAID = "whether {who} is shielded can't be told: it isn't said whether dampers lie on the legs"
_WORDS = {
    "beside": Words("{who} is {distance} from the leg between {begins} and {ends}", "", _UNSAID, _AWAY),
    "recoil": Words("{who} is in line with the leg between {begins} and {ends}, {distance} past its end, where a "
                    "broken line lashes", "", _UNSAID, _AWAY),
    "flight": Words("{who} is in the way that {thing} flies if it comes free", "", _UNSAID, _AWAY),
    "inside": Words("{who} is inside the turn at {thing}, where the line sweeps if it comes free", "", _UNSAID, _AWAY),
    "angle": Words("{who} is within the angle of the line at {thing}, {distance} from it", "", _UNSAID, _AWAY),
}  # fmt: skip
_IN_CAB = Words(
    "{who} sits past the end of the leg between {begins} and {ends}, with no damper on it", "", _UNSAID, _SHIELD
)
_CLEAR = Words("", "{who} is clear of every leg, turn and flight", "where {who} is can't be told")
_NOBODY = Words("", "nobody is near the rig", "it isn't said who stands where")


@rule(
    title="People clear of the danger areas", grade=Grade.DANGER, guards="people",
    basis=(_RECOIL, _LENGTHS, _ANGLE, _BIGHT), once=True,
    limits=(
        Limit("clearance", CLEARANCE_M, "m", "least distance beside a leg", _BESIDE, "lower", CLEARANCE_M),
        Limit("half_angle", HALF_ANGLE_RAD, "rad", "half angle of the cones of recoil and flight", _CONE, "lower"),
        Limit("floor", 1.0, "1", "lengths within which it is a danger", _LENGTHS, "lower", 1.0),
        Limit("strict", 2.0, "1", "lengths within which it is a caution", _LENGTHS, "lower", 1.0),
    ),
    worse=Worse.by(nearer="people/*/at", taken_away="dampers people people/*/at people/*/in"))  # fmt: skip
def people_clear(solution: Solution, limits: Limits) -> Checks:
    zone = Zone(limits["clearance"], limits["half_angle"], max(limits["floor"], limits["strict"]))
    for stage in solution.stages:
        if not stage.stations:
            continue
        if not stage.stage.people:
            where = Where("people", "people", "", "", stage.stage.index)
            stated = stage.stage.people_stated or None
            yield holds(stated, where, _NOBODY, missing=() if stated else ("people: who stands where",))
            continue
        for person in stage.stage.people:
            yield _person(stage, person, zone, limits["floor"])


def _person(stage: StageSolution, person: Person, zone: Zone, floor: float) -> Check:
    where = Where("person", person.who, person.pointer, "", stage.stage.index)
    if person.at is None and person.body is None:
        return holds(None, where, _CLEAR, missing=(f"{person.pointer[1:]}: at, or in",), terms=(("who", person.who),))
    seen = exposed(stage, zone)[person.pointer]
    found = [(grade.rank, e) for e in seen if (grade := _grade(person, e, floor))]
    if not found:
        return holds(True, where, _CLEAR, terms=(("who", person.who),))
    rank, worst = min(found, key=lambda f: (f[0], round(f[1].lengths, 9), round(f[1].distance_m, 9)))
    related = ((pointer_of(stage.stage, worst.source), "what it comes from"),)
    where = where._replace(travel_m=worst.areas.travel_m, related=related)
    words = _IN_CAB if person.cab and worst.how == "recoil" else _WORDS[worst.how]
    unsaid = person.cab and stage.stage.dampers is None
    terms = (("who", person.who), ("begins", worst.ends[0]), ("ends", worst.ends[1]), ("thing", worst.source),
             ("distance", Value(worst.distance_m, "m off")))  # fmt: skip
    missing = ("dampers: which legs they lie on",) if unsaid else ()
    return holds(None if unsaid else False, where, words, missing=missing, terms=terms, grade=tuple(Grade)[rank])


def _grade(person: Person, seen: Exposure, floor: float) -> Grade | None:
    """None where it is no fault: what a cab and a damper keep off, and the second length for it."""
    near = exceeds(floor, seen.lengths)
    if person.cab:
        return None if seen.how == "angle" or not near or seen.damped else Grade.CAUTION
    if not near:
        return Grade.CAUTION
    open_air = seen.how == "angle" or seen.area.slack or person.body
    return Grade.WARNING if open_air else Grade.DANGER
