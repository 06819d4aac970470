"""A body that the line would tip over.

A pull high up or across a vehicle tips it, the more so on a side slope: a high load beside a soft verge, a
light winch vehicle with its line led off sideways, a load on whose roof rack somebody made fast.

    overturning = max(0, pull * height + uplift * arm)
    restoring = W * (b * cos(a) - H * sin(a)); use = overturning * stability / restoring

Each side and, with the wheelbase, each end is an edge that it may tip over. The pull counts where it goes towards the
edge; where it goes away from it, it helps. The arm is how far in from the edge the line lifts; a line that presses
down on a point that stands out past the edge tips the body by that in the same way. b is how far the centre of
gravity is from the edge (half the track or wheelbase, less what it is off the middle), H its height, which is no help
where the ground rises to the edge, W the weight at its low end; where the ground also falls along the edge, by s,
cos(a) is sqrt(cos(a)^2 - sin(s)^2). The side slope a is taken as falling towards the edge, the safer way, and so is
the slope of a body that stays or lies across its way; a load that lies along its way has its slopes as stated, the
steepest of all zones. The height is that of the point over the ground that the body stands on (the outline's middle,
where it is given with a height, else 0; with a point below that it can't be told).
Where outriggers or stabilisers are set, it stands on these and not on its wheels; that the ground bears under their
pads is for somebody to see to.
No source gives a margin for winching: 1.5 is common practice.

Only a body whose centre of gravity is stated is judged, and asked for what else that takes: weight, track,
heading, slopes, the heights of the points that are used and, for tipping endways, the wheelbase.

What to do: make fast lower, turn the vehicle into line with the pull, or hold it from the other side.

Worked example: 2.5 t, track 1.7 m, centre of gravity 0.9 m up, pulled across with 6 kN at 0.6 m.
weight = 24.5 kN; half = 0.85 m; pull = 6 kN; height = 0.6 m; use = pull * height * 1.5 / (weight * half) = 0.259
"""

from riglint.outcome import Formula
from riglint.rig.model import Body
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, here
from riglint.rulebook.loads import lacks as stage_lacks
from riglint.solve.overturns import missing_endways, missing_for_tipping, tips_most
from riglint.solve.solution import Component
from riglint.solve.worst import pull_at_n, told, untold

_STATICS = Basis("derivation", "moments about the edge that a body tips over")
_MARGIN = Basis("common practice", "restoring over overturning moment 1.5")
_TIPS = Formula(
    "overturning", "max(0, pull * height + uplift * arm)",
    (("pull", "N"), ("height", "m"), ("uplift", "N"), ("arm", "m")), "N m",
)  # fmt: skip
_WORDS = Words(
    "{name} may tip over {side}: the line turns it with {measured}, and {limit} is what it may be turned with",
    "{name} stands: the line turns it {side} with {measured} of the {limit} that it may be turned with",
    "whether {name} tips over can't be told",
    "Make fast lower, turn it into line with the pull, or hold it from the other side")  # fmt: skip
_AT_STALL = _WORDS._replace(
    fails="if the winch is kept on until it stalls, {name} may tip over {side}: the line turns it with {measured}, and "
    "{limit} is what it may be turned with")  # fmt: skip


@rule(
    title="Bodies that the line would tip over", grade=Grade.DANGER, guards="load", basis=(_STATICS, _MARGIN),
    limits=(Limit("stability", 1.5, "1", "restoring over overturning moment", _MARGIN, "lower"),),
    worse=Worse.by(higher="bodies/*/centre_of_gravity/height winch/stall_pull",
                   lower="bodies/*/track bodies/*/outriggers/across,along",
                   taken_away="bodies/*/track bodies/*/wheelbase bodies/*/outriggers/along"))  # fmt: skip
def overturning(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component in stage.components:
            body = component.item
            if not isinstance(body, Body) or body.facts.centre_of_gravity is None or not stage.stations:
                continue
            yield from _body(stage, component, body, limits["stability"], solution.rig.north_rad)


def _body(stage: StageSolution, component: Component, body: Body, stability: float, north: float | None) -> Checks:
    lacks = tuple(place(body.pointer, fact) for fact in missing_for_tipping(stage, body))
    cases = told(stage, component)
    if lacks or not cases:
        missing = lacks or untold(stage)
        yield at_most(
            None, None, "N m", here(stage, component), _WORDS, missing=missing, measure="tipping", grade=Grade.WARNING
        )
        return
    for case in cases:
        worst = tips_most(stage, component, body, case, north)
        if worst is None:
            continue
        steps = (_TIPS.step(worst.overturning_nm, worst.pull_n, worst.height_m, worst.uplift_n, worst.arm_m),)
        yield at_most(
            worst.overturning_nm, worst.restoring_nm / stability, "N m", here(stage, component, case, worst.station),
            _AT_STALL if case == "stall" else _WORDS, working=steps, terms=(("side", worst.side),),
            missing=stage_lacks(stage, case) + missing_endways(body) + worst.missing,
            pull_n=pull_at_n(stage, case, worst.station), measure="tipping",
            grade=Grade.WARNING if case == "stall" else None,
        )  # fmt: skip
