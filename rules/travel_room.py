"""The load has room for the way that it is to go.

A load that comes free keeps rolling a little, and what it runs into is often the winch vehicle or a person. The
plan states how far the load could go from its start before something stands in the way.

    use = way / room

The way is the longest that the plan's ranges give, over all stages; the room the least.

What to do: stop earlier, clear the way, or re-rig so that the pull ends short of what stands there.

Worked example: 6 to 7 m to go, 6.5 m of room.
way = 7 m; room = 6.5 m; use = way / room = 1.077
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, at_most

_BASIS = Basis("derivation", "a load can't go farther than there is room")
_WORDS = Words(
    "{name} is to go {measured} and has room for {limit}", "{name} is to go {measured} and has room for {limit}",
    "whether {name} has room for its travel can't be told", "Stop earlier, or clear the way",
)  # fmt: skip


@rule(
    title="Room for the travel", grade=Grade.CAUTION, guards="load", basis=(_BASIS,),
    worse=Worse.by(higher="bodies/*/moves/distance", lower="bodies/*/moves/room", taken_away="bodies/*/moves/room"),
)  # fmt: skip
def travel_room(solution: Solution, limits: Limits) -> Checks:
    *_, stage = solution.stages
    load, moves = stage.stage.load, stage.stage.load.facts.moves
    if moves is not None:
        way_m = stage.stage.begins_m + stage.stage.travel.high
        missing = () if moves.room else (place(load.pointer, "moves/room"),)
        where = Where("body", load.name, f"{load.pointer}/moves", "", stage.stage.index)
        room_m = moves.room.low if moves.room else None
        yield at_most(way_m, room_m, "m", where, _WORDS, missing=missing)
