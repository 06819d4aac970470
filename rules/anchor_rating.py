"""What each point carries against what it is rated for.

A point is what the whole rig hangs on: an eye, a winch's mount, a bollard, the casualty's own tow eye. With two
parts on it a point carries nearly twice the line pull, with four nearly four times, and it gives way long
before the gear. Everything that hangs on a point counts: lines made fast to it, redirects with all rope through
them, legs of bridles.

    use = load / rated, or load / (breaking / factor)

A rating is what it may carry and is not divided again; a strength is. Factors of points have no published
figure for winching: 3 as expected is that of wire rope in winching (Wyoming OSHA), and the least that the navy has
for pads in towing (TB 55-1900-232-10: 3 behind a towing machine that gives way, 5 on a brake, 7 on a pawl or hook,
all on yield, where this is on breaking strength); 2 at stall is what hauling asks of every element against the
winch's stall (MGN 308: its stall "well below half"). Lifting asks 4 to 5: a house may set that.

Over its rating is a WARNING; over twice its rating, or over three quarters of its strength, a DANGER. A tree, a
stump, a holdfast and a deadman without a rating are judged by rules of their own, and so is a tow eye without
one where the vehicle's laden mass is stated.

What to do: find the rating on the plate or in the handbook; fewer parts at that point, a bridle to two points,
or a stop at the line pull that the report names.

Worked example: a winch of 53 kN stalls on three parts, two of them on one eye rated 78 kN.
load = 92 kN; rated = 78 kN; use = load / rated = 1.18
"""

from riglint.outcome import Formula
from riglint.rig.model import Point
from riglint.rulebook.author import Basis, Checks, Grade, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words
from riglint.rulebook.loads import Capacity, against
from riglint.solve.solution import Case, Component
from riglint.solve.worst import points

_MARK = Basis("derivation", "a rating is not divided again")
_PADS = Basis("handbook", "pads 3 on yield at the least", "tb-55-1900-232-10", "p. 5-25, table 5-4", "towing", "read")
_STALL = Basis("handbook", "the stall well below half of the weakest element", "mgn-308", "2.1", "mooring",
               "read second hand")  # fmt: skip
_ELSEWHERE = frozenset({"tree", "stump", "picket holdfast", "deadman"})
_USE = Formula("use", "load / rated", (("load", "N"), ("rated", "N")), "share")
_DIVIDED = Formula("rated", "breaking / factor", (("breaking", "N"), ("factor", "1")), "N")
_WORDS = Words(
    "{component} carries {measured}, {use} of the {limit} that it may carry",
    "{component} carries {measured} of the {limit} that it may carry",
    "whether {component} holds can't be told",
    "Take a stronger point, share the load with a second one, or put fewer parts on it")  # fmt: skip
_AT_STALL = _WORDS._replace(
    fails="if the winch is kept on until it stalls, {component} carries {measured}, {use} of the {limit} that it may "
    "carry",
    passes="at stall {component} carries {measured} of the {limit} that it may carry")  # fmt: skip


@rule(
    title="Load on anchors and attachment points", grade=Grade.DANGER, guards="anchors", basis=(_MARK, _PADS, _STALL),
    limits=(
        Limit("steady", 3.0, "1", "a point's strength over its load, as expected and at rest", _PADS, "lower"),
        Limit("stall", 2.0, "1", "a point's strength over its load at stall", _STALL, "lower"),
    ),
    worse=Worse.by(higher="winch/stall_pull bodies/*/weight", lower="points/*/rated points/*/breaking",
                   taken_away="points/*/rated+breaking"))  # fmt: skip
def anchor_rating(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        for component, point in points(stage):
            yield from _point(stage, component, point, limits)


def _point(stage: StageSolution, component: Component, point: Point, limits: Limits) -> Checks:
    rated, breaking = (span.low if span else None for span in (point.facts.rated, point.facts.breaking))
    unrated = rated is None and breaking is None
    if unrated and _judged_elsewhere(point):
        return

    def may(case: Case) -> Capacity:
        load_n = stage.peaks[case][component.key].load_n
        if rated is not None:
            return rated, (_USE.step(load_n / rated, load_n, rated),)
        if breaking is None:
            return None, ()
        factor = limits["stall" if case == "stall" else "steady"]
        may_n = breaking / factor
        return may_n, (_DIVIDED.step(may_n, breaking, factor), _USE.step(load_n / may_n, load_n, may_n))

    missing = (place(point.pointer, "rated"),) if unrated else ()
    yield from against(stage, component, may, (_WORDS, _AT_STALL), "working load", missing=missing, breaking_n=breaking)


def _judged_elsewhere(point: Point) -> bool:
    by_law = point.facts.kind == "tow eye" and point.body.facts.laden_mass is not None
    return by_law or point.facts.kind in _ELSEWHERE
