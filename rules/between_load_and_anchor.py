"""Nobody between the load and what it is pulled to.

Whoever stands in the load's way is run over when it comes free, or crushed between it and the winch vehicle.
That holds for the whole width of the load and not only for the line, and for a slack line as for a taut one: a
load on a slope does not wait.

The way is a strip along the travel, from the rearmost of the load's points to the farthest thing that the line
goes to, as wide as the load's outline is across it by its heading (where no outline is stated, as its points lie
apart at least and 4 m at most: between the two it can't be told) and the clearance more on either side.

    outside if distance_from_middle >= width / 2 + clearance

The clearance is the 6 ft that a navy course keeps handlers from what a mooring line is made fast to (NAVEDTRA
14160); to keep them so far from the side of a load is ours. Somebody in a body's cab is not on foot and not judged
here, nor is whoever stands where the line itself would strike: `people-clear` tells him so, and sends him out of
both.

What to do: work from the side; whoever has to go in, to hook on or to re-rig, goes in with the load held and
the line slack, and is out again before it is taken up.

Worked example: a spotter 2 m beside the middle line of a truck 2.1 m wide.
width = 2.1 m; clearance = 1.83 m; asked = width / 2 + clearance = 2.88 m
"""

from riglint.mechanics.danger import STAND_OFF_FLOOR
from riglint.outcome import Where
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_least, exceeds, holds
from riglint.solve.exposure import struck
from riglint.solve.way import off_the_way_m, way_of

_PRACTICE = Basis("common practice", "nobody between the load and the anchor")
_CLEARANCE = Basis("handbook", "handlers 6 ft off what holds the line", "navedtra-14160", "synthetic lines", "mooring",
                   "read")  # fmt: skip
_WORDS = Words(
    "{who} stands between {load} and what it is pulled to, {measured} from the middle of its way; {limit} at least",
    "{who} is outside the way of {load}, or told to move by `people-clear`",
    "whether {who} stands between {load} and what it is pulled to can't be told",
    "Move {who} out to the side before the line is taken up")  # fmt: skip
_NOBODY = Words("", "nobody stands between {load} and what it is pulled to", "it isn't said who stands where")


@rule(
    title="Nobody between load and anchor", grade=Grade.WARNING, guards="people", basis=(_PRACTICE,), once=True,
    limits=(
        Limit("clearance", 1.8288, "m", "least distance beside the load's way", _CLEARANCE, "lower"),
        Limit("widest", 4.0, "m", "no load whose width isn't stated is wider", _PRACTICE, "lower"),
    ),
    worse=Worse.by(higher="bodies/*/outline/width", taken_away="people bodies/*/outline people/*/at people/*/in"),
)  # fmt: skip
def between_load_and_anchor(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        if not stage.stations:
            continue
        if stage.stage.people:
            yield from _people(stage, limits["clearance"], limits["widest"], solution.rig.north_rad)
            continue
        where = Where("people", "people", "", "", stage.stage.index)
        stated = stage.stage.people_stated or None
        missing = () if stated else ("people: who stands where",)
        yield holds(stated, where, _NOBODY, missing=missing, terms=(("load", stage.stage.load.name),))


def _people(stage: StageSolution, clearance_m: float, widest_m: float, north: float | None) -> Checks:
    way = way_of(stage, north)
    for person in stage.stage.people:
        where = Where("person", person.who, person.pointer, "", stage.stage.index)
        terms = (("who", person.who), ("load", stage.stage.load.name))
        if person.body is not None or struck(stage, person, STAND_OFF_FLOOR.value):
            yield holds(True, where, _WORDS, terms=terms)
        elif person.at is None:
            yield holds(None, where, _WORDS, missing=(f"{person.pointer[1:]}: at, or in",), terms=terms)
        elif (off_m := off_the_way_m(person.at, way)) is None:
            yield holds(True, where, _WORDS, terms=terms)
        else:
            unsure = not way.width_known and exceeds(0.5 * widest_m + clearance_m, off_m)
            missing = (place(stage.stage.load.pointer, "outline"),) if unsure else ()
            limit_m = way.half_width_m + clearance_m
            yield at_least(off_m, limit_m, "m", where, _WORDS, missing=missing, terms=terms)
