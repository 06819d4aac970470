"""The load has room for the way that it is to go.

A load that comes free keeps rolling a little, and what it runs into is often the winch vehicle or a person. The
plan states how far the load could go from its start before something stands in the way.

    use = way / room

The way is the longest that the plan's ranges give, over all stages; the room the least. A stage that states a room of
its own is judged by that, from where it begins; where every stage does, the load need not.

What to do: stop earlier, clear the way, or re-rig so that the pull ends short of what stands there.

Worked example: 6 to 7 m to go, 6.5 m of room.
way = 7 m; room = 6.5 m; use = way / room = 1.077
"""

from riglint.reading.quantity import Span
from riglint.rig.model import RigStage
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, at_most

_BASIS = Basis("derivation", "a load can't go farther than there is room")
_WORDS = Words(
    "{name} is to go {measured} and has room for {limit}", "{name} is to go {measured} and has room for {limit}",
    "whether {name} has room for its travel can't be told", "Stop earlier, or clear the way",
)  # fmt: skip


@rule(
    title="Room for the travel", grade=Grade.CAUTION, guards="load", basis=(_BASIS,),
    worse=Worse.by(higher="bodies/*/moves/distance", lower="bodies/*/moves/room stages/*/moves/room",
                   taken_away="bodies/*/moves/room"),
)  # fmt: skip
def travel_room(solution: Solution, limits: Limits) -> Checks:
    stages = [stage.stage for stage in solution.stages]
    for stage in stages:
        if stage.room:
            yield _room(stage, f"{stage.pointer}/moves", stage.travel.high, stage.room)
    *_, last = stages
    moves = last.load.facts.moves
    if moves and (moves.room or not all(stage.room for stage in stages)):
        yield _room(last, f"{last.load.pointer}/moves", last.begins_m + last.travel.high, moves.room)


def _room(stage: RigStage, pointer: str, way_m: float, room: Span | None) -> Check:
    where = Where("body", stage.load.name, pointer, "", stage.index)
    missing = () if room else (place(stage.load.pointer, "moves/room"),)
    return at_most(way_m, room.low if room else None, "m", where, _WORDS, missing=missing)
