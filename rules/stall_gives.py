"""What gives way if the load doesn't move and the winch is kept on.

A winch that stalls has its whole pull in the line. The crew can't rule a stall out: a
wheel finds a root, a join jams. What then breaks ought to be nothing.

How it is judged: of everything that carries load and whose breaking strength is known
(rope, joins with what they leave of it, connectors as they are wrapped, seats, points),
the one that breaks at the lowest line pull. If that pull is less than the most that the
winch can give at that place of the travel, the winch alone can break the rig. Gear with a
mark and no breaking strength is judged by the rule on working loads.

    breaks_at = stall * strength / load

Guidance for hauling gear puts a winch's stall well below half of the weakest element's
strength (MGN 308, read second hand). Here it is the strength itself: the last line before
something flies.

What to do: heavier gear there, or a winch set to stall sooner; and somebody who watches
the line pull and stops in time.

Worked example: a strap of 120 kN that two parts of 46.5 kN pull on, at a stall pull of 46.5 kN.
stall = 46.5 kN; parts = 2; strength = 120 kN; breaks_at = stall * strength / (parts * stall) = 60 kN
"""

from riglint.outcome import Formula, Value, Where
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, here
from riglint.solve.first_to_give import first_to_break
from riglint.solve.rope import stages

_BASIS = Basis(
    "handbook", "a winch's stall is well below half of the weakest element", "mgn-308", "2.1", "mooring",
    "read second hand")  # fmt: skip
_BREAKS = Formula("breaks_at", "stall * strength / load", (("stall", "N"), ("strength", "N"), ("load", "N")), "N")
_WORDS = Words(
    "kept on, the winch breaks {component} at a line pull of {pull}: at stall it carries {measured}, and it breaks at "
    "{limit}",
    "of what has a known breaking strength {component} would give first, at a line pull of {pull}",
    "what gives way if the winch is kept on can't be told",
    "Use heavier gear there, or see that the winch stalls below {pull}")  # fmt: skip


@rule(
    title="What gives way at stall", grade=Grade.DANGER, guards="drum", basis=(_BASIS,),
    worse=Worse.by(higher="winch/stall_pull",
                   lower="lines/*/pieces/*/breaking connectors/*/breaking points/*/breaking redirects/*/*/breaking",
                   taken_away="winch/stall_pull"))  # fmt: skip
def stall_gives(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        if stage.stage.works == "hauling":
            yield _first(stage)


def _first(stage: StageSolution) -> Check:
    first = first_to_break(stage)
    if first is None:
        where = Where("winch", "winch", stage.stage.winch.pointer, "stall", stage.stage.index)
        missing = (*stage.missing["stall"], place(stage.stage.haul.pieces[0].pointer, "breaking"))
        return at_most(None, None, "N", where, _WORDS, missing=missing)
    where = here(stage, first.component, "stall", first.station)
    peak = stage.peak(first.component, "stall")
    assert peak is not None  # noqa: S101 -- what breaks first is loaded
    stall = first.pull_n * peak.load_n / first.strength_n
    return at_most(
        peak.load_n, first.strength_n, "N", where, _WORDS, missing=stage.missing["stall"], pull_n=stall,
        working=(_BREAKS.step(first.pull_n, stall, first.strength_n, peak.load_n),),
        measure="breaking strength", terms=(("pull", Value(first.pull_n, "N")),),
    )  # fmt: skip
