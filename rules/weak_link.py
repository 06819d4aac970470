"""What breaks first, and whether it would fly at people.

A chain is as strong as its weakest link, and making one part stronger moves the weak link
elsewhere: perhaps from the rope, which whips back along its line, to a shackle or a point,
whose steel then flies at whoever stands where it is pulled to.

How it is judged: of everything whose breaking strength is known, what breaks at the
lowest line pull; and what is only marked with a working load, if that would be reached at
a lower pull still, may be weaker: that is asked where the first that is known flies at
nobody. So it is where a range of strengths leaves open which of two breaks first. Gear that
lets go flies the way that it was pulled. The weak link must not be one that flies at a
person whose place is given.

    pull at break = stall pull * strength / load at stall

Source: TB 55-1900-232-10 (a stronger part may move the weak link to a place dangerous to
people). That gear flies the way that it was pulled is statics; a cone of 15 degrees to
each side, as far as the line is long, is common practice.

What to do: make the rope the weak link, or have that person stand elsewhere.

Worked example: a hook of 90 kN that carries 46 kN when the winch pulls 23 kN at stall.
stall_pull = 23 kN; strength = 90 kN; load = 46 kN; pull = stall_pull * strength / load = 45 kN
"""

from math import inf, radians

from riglint.mechanics.plan_view import cone_reach_m
from riglint.mechanics.provenance import TB_55_1900_232_10
from riglint.outcome import Value
from riglint.rig.model import Point
from riglint.rulebook.author import Basis, Checks, Formula, Grade, Limit, Limits, Solution, StageSolution, Worse, rule
from riglint.rulebook.judge import Words, here, holds
from riglint.solve.first_to_give import Break, first_to_break, line_pull_n
from riglint.solve.hangers import links
from riglint.solve.ratings import place, rating_of
from riglint.solve.solution import Component

_BASIS = Basis("handbook", "a stronger part may move the weak link to where people are", TB_55_1900_232_10,
               "page image 100018", "towing", "read")  # fmt: skip
_ASIDE = Basis("common practice", "what flies lands within 15 degrees of the way it was pulled")
_PULL = Formula("pull", "stall_pull * strength / load", (("stall_pull", "N"), ("strength", "N"), ("load", "N")), "N")
_WORDS = Words(
    "by the strengths stated, {component} breaks first, at a line pull of {pull}, and what it frees flies at {person}",
    "{component} is known to break first, at a line pull of {pull}, and does not fly at anybody whose place is given",
    "{component} may break first, and what it frees would fly at {person}",
    "Make the rope the weak link, or have {person} stand elsewhere",
)


@rule(
    title="What breaks first", grade=Grade.WARNING, guards="connectors", basis=(_BASIS,),
    limits=(Limit("aside", radians(15.0), "rad", "off its way that what flies may hit", _ASIDE, milder="lower"),),
    worse=Worse.by(lower="connectors/*/working_load points/*/rated"),
)  # fmt: skip
def weak_link(solution: Solution, limits: Limits) -> Checks:
    for stage in solution.stages:
        placed = any(person.at for person in stage.stage.people)
        first = first_to_break(stage) if placed and stage.stations else None
        if first:
            yield from _stage(stage, first, limits["aside"])


def _stage(stage: StageSolution, first: Break, aside: float) -> Checks:
    person = _flies_at(stage, first.component, aside)
    doubtful = [c for c in first.unknown if _may_be_weaker(stage, c, first.sure_n)]
    flying = [(c, who) for c in (*doubtful, *first.rivals) if not person and (who := _flies_at(stage, c, aside))]
    if flying:
        component, who = flying[0]
        lacks = tuple(place(c.pointer, "breaking") for c, _ in flying if c in doubtful)
        missing = lacks or (place(first.component.pointer, "breaking, within less of a range"),)
        yield holds(None, here(stage, component, "stall"), _WORDS, missing=missing, terms=(("person", who),))
        return
    peak = stage.peak(first.component, "stall")
    stall_n = line_pull_n(stage, first.station)
    assert peak and stall_n  # noqa: S101, PT018 -- what breaks first is loaded
    step = _PULL.step(first.pull_n, stall_n, first.strength_n, peak.load_n)
    terms = (("pull", Value(first.pull_n, "N")), ("person", person or ""))
    where = here(stage, first.component, "stall", first.station)
    yield holds(person is None, where, _WORDS, terms=terms, working=(step,))


def _may_be_weaker(stage: StageSolution, component: Component, pull_n: float) -> bool:
    """Whether something marked with a working load alone could break at a lower line pull."""
    peak, marked_n = stage.peak(component, "stall"), _marked_n(component)
    if marked_n is None:
        return False
    stall_n = line_pull_n(stage, peak.station) if peak else None
    assert peak and stall_n  # noqa: S101, PT018 -- as all that may break is loaded
    return marked_n * stall_n < pull_n * peak.load_n


def _marked_n(component: Component) -> float | None:
    """What it is marked for; None for what does not fly, and for points that no rating is stated of at all."""
    if isinstance(component.item, Point):
        rated = component.item.facts.rated
        return rated.low if rated and component.item.body.name != "ground" else None
    rating = rating_of(component)
    if rating is None:
        return None
    return -inf if rating.working_n is None else rating.working_n * rating.share.low


def _flies_at(stage: StageSolution, component: Component, half_angle_rad: float) -> str | None:
    """The person whom the freed gear flies at; rope whips along its line and has no one direction."""
    peak = stage.peak(component, "stall")
    assert peak is not None  # noqa: S101 -- as all that may break is loaded
    if not any(peak.force):
        return None
    station = stage.stations[peak.station]
    at = station.places.get(_stands(stage, component))
    for person in stage.stage.people if at else ():
        if person.at and at and cone_reach_m(person.at, at, peak.force, half_angle_rad) <= station.path_m:
            return person.who
    return None


def _stands(stage: StageSolution, component: Component) -> str:
    """The redirect or point at which the component is."""
    if component.kind != "connector":
        return component.name
    one = next(link.hung for link in links(stage) if link.connector.name == component.name)
    return one.redirect.name if one.redirect else one.chain.point.name if one.chain.point else ""
