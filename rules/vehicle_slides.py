"""A vehicle that is used as an anchor, or carries the winch, stays where it is.

A vehicle holds by its weight and its grip, not by its tow eye. Brakes on make no difference once the tyres
slide. All that pulls on it counts together, the winch and every line and redirect that is made fast to it.

    grip = mu * max(0, W cos(a) - U) - W sin(a); use = pull / grip

W is its weight at the low end, mu the grip at the low end, a the slope (taken as downhill towards the pull,
which is the safer reading), U the share of the pull that lifts it. Places may be taped along the slope or level;
the pull is resolved both ways, and the worse counts. On a side slope s, where one is stated, cos(a) is
sqrt(cos(a)^2 - sin(s)^2), and of the grip sqrt((mu N)^2 - (W sin(s))^2) is left for the pull, N what presses. A further
hold that is rated, such as a tie-back, is added. A 3 t vehicle with mu 0.35 on wet grass is an anchor for about 10 kN
(AU tree rescue manual): on grass no better grip than that is believed, nor where the surface isn't stated or may be
grass by its words. Grip asks for locked wheels or spades; a vehicle that is only left in gear rolls.

Sliding at the expected pull, or with the load at rest on a slope, is a DANGER; at stall a WARNING.

What to do: brakes and chocks on all wheels, spades dug in, tie it back to something, use a heavier vehicle,
or pull with fewer kilonewtons: more parts at the load, not at the anchor.

Worked example: 3 t on level wet grass.
W = 29.42 kN; mu = 0.35; grip = mu * W = 10.3 kN
"""

from math import inf

from riglint.mechanics.anchors import TYRE_ON_GRASS
from riglint.outcome import Grade, Value
from riglint.rig.model import Body
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.grip import grip_working
from riglint.rulebook.judge import Words, at_most, either_end, here, holds
from riglint.rulebook.loads import lacks
from riglint.solve.ground import LOCKED, TIED, lacks_for_grass, missing_for_grip, slides_most
from riglint.solve.rope import stages
from riglint.solve.solution import Case, Component
from riglint.solve.worst import carrying, line_pull_n, told, untold

_STATICS = Basis("derivation", "grip on a slope by statics")
_GRASS = Basis("handbook", "tyres on grass 0.35", TYRE_ON_GRASS.source, TYRE_ON_GRASS.locator, "general", "read")
_WORDS = Words(
    "{name} slides: it is pulled with {measured} along the ground and holds {limit}",
    "{name} holds {limit} along the ground and is pulled with {measured}",
    "whether {name} stays put can't be told; it is pulled with {pull}",
    "Dig its spades in or tie it back, use a heavier vehicle, or pull with less",
)
_AT_STALL = _WORDS._replace(
    fails="if the winch is kept on until it stalls, {name} slides: it is pulled with {measured} and holds {limit}",
)
_RATE_IT = (
    "Write what its tie-back is rated for in `held_by`, for unstated it counts for nothing; or use a heavier vehicle, "
    "or pull with less"
)
_ROLLS = Words("{name} isn't held by brakes, chocks or spades: it rolls", "", "what holds {name} isn't said",
               "Set its brakes and chock its wheels")  # fmt: skip


@rule(
    title="Vehicles that must not slide", grade=Grade.DANGER, guards="anchors", basis=(_STATICS, _GRASS),
    limits=(Limit("grass", TYRE_ON_GRASS.value, "1", "most grip that is believed on grass", _GRASS, "higher"),),
    worse=Worse.by(higher="winch/stall_pull", lower="bodies/*/ground/grip bodies/*/held_by",
                   taken_away="bodies/*/ground/grip,slope,surface bodies/*/secured bodies/*/weight"),
)  # fmt: skip
def vehicle_slides(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        for component in carrying(stage, "body"):
            body = component.item
            if isinstance(body, Body) and body.name != "ground":
                yield from _body(stage, component, body, limits)


def _body(stage: StageSolution, component: Component, body: Body, limits: Limits) -> Checks:
    secured = body.facts.secured
    missing = tuple(place(body.pointer, fact) for fact in missing_for_grip(body))
    cases = told(stage, component)
    if secured is not None and not (LOCKED | TIED) & set(secured):
        yield holds(False, here(stage, component), _ROLLS)
    elif missing or not cases:
        load_n = max((stage.peaks[case][component.key].load_n for case in cases), default=None)
        pull = "a pull that isn't known" if load_n is None else Value(load_n, "N")
        where, facts = here(stage, component), missing or untold(stage)
        yield at_most(load_n, None, "N", where, _WORDS, missing=facts, terms=(("pull", pull),), measure="grip")
    else:
        for case in cases:
            yield _case(stage, component, body, case, limits["grass"])


def _case(stage: StageSolution, component: Component, body: Body, case: Case, grass: float) -> Check:
    found = _judged(stage, component, body, case, grass, ())
    unsaid = lacks_for_grass(body)
    return either_end(found, _judged(stage, component, body, case, inf, unsaid)) if unsaid else found


def _judged(
    stage: StageSolution, component: Component, body: Body, case: Case, grass: float, unsaid: tuple[str, ...]
) -> Check:
    (held, peak), stall = slides_most(stage, component, body, case, grass), case == "stall"
    words = _AT_STALL if stall else _WORDS
    if TIED & set(body.facts.secured or ()) and body.facts.held_by is None:
        words = words._replace(remedy=_RATE_IT)
    return at_most(
        held.pull_n, held.holds_n, "N", here(stage, component, case, peak.station), words,
        missing=lacks(stage, case) + unsaid, working=grip_working(held),
        terms=(("pull", Value(held.pull_n, "N")),), pull_n=line_pull_n(stage, case, peak), measure="grip",
        grade=Grade.WARNING if stall else Grade.DANGER,
    )  # fmt: skip
