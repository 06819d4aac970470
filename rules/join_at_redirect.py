"""A join that meets a redirect.

A join that comes to a redirect under load jams in it, or is dragged through it and cut.
The winch feels a load that has stopped, and pulls all it can.

How it is judged: a join keeps its distance to the dead end, so it meets a redirect where
the way from there to the dead end is as long. Over a range of lengths the earliest place
counts. What may go through:

    they meet where way_from_redirect_to_dead_end = join_to_dead_end

- a shackle, a soft shackle or a swaged link: nothing; it stops at every redirect;
- a knot of any kind: never past a sheave or a groove;
- loop to loop, or another knot, through a bore (loop to loop also through a ring's
  groove): only if the maker of the redirect lets that kind of join through (`passes`),
  and it is no wider than he states (`passes_width`). A redirect that says nothing lets
  nothing through;
- a splice: through a seat that is made for its width, or that its maker lets it through;
  else it can't be told.

A stop planned within 1 m of travel before that place, whose words name both the join and
the redirect, answers it. A stop after it does not. 1 m is common practice: near enough to
see the join come, far enough to stop in time.

What to do: plan the stop, take the load on a second hold, and move the join past the
redirect or re-rig; or choose lengths so that the join stays clear.

Worked example: a join 24 m from the dead end, a way of 31.8 m from the redirect that shortens by 2 m for each metre.
way = 31.8 m; join = 24 m; rate = 2; travel = (way - join) / rate = 3.9 m
"""

from riglint.outcome import Grade, Result, Where
from riglint.rig.model import Join, Turn
from riglint.rulebook.author import Basis, Check, Checks, Limit, Limits, Solution, StageSolution, Worse, place, rule
from riglint.rulebook.judge import Words, at_most, holds
from riglint.solve.rope import Answer, answer, join_lacks, stages
from riglint.solve.solution import Event

_BASIS = Basis("common practice", "hard joins and knots don't run through redirects", scope="winching")
_MAKER = Basis("common practice", "a join runs through a redirect only as its maker states", scope="winching")
_STOP = Basis("common practice", "the pull is stopped shortly before a join meets a redirect", scope="winching")

_HARD = frozenset({"shackle", "soft shackle", "swaged link"})
_REMEDY = "Plan a stop before {travel} of travel that takes {name} past {redirect}, and name both in it"
_FAR = Words(
    "the stop for {name} at {redirect} is {measured} before they meet; it must be within {limit}",
    "a stop is planned {measured} before {name} meets {redirect}", "whether the stop for {name} comes in time can't be "
    "told", "Move the stop nearer to {travel} of travel")  # fmt: skip
_LATE = Words("{name} ({kind}) meets {redirect} at {travel} of travel; the stop for it comes later", "", "", _REMEDY)
_JAMS = Words("{name} ({kind}) meets {redirect} at {travel} of travel, and can't go through", "", "", _REMEDY)
_UNTOLD = "{name} ({kind}) meets {redirect} at {travel} of travel; whether it goes through can't be told"
_UNSAID = Words(
    "{name} ({kind}) meets {redirect} at {travel} of travel, and its maker doesn't let such a join through",
    "{name} ({kind}) goes through {redirect} as its maker states",
    _UNTOLD, _REMEDY)  # fmt: skip
_WIDE = Words(
    "{name} is {measured} wide and meets {redirect} at {travel} of travel, which lets {limit} through",
    "{name} is {measured} wide, and {redirect} lets {limit} through",
    _UNTOLD, _REMEDY)  # fmt: skip
_CLEAR = Words("", "no redirect stops {name}", "which redirects {name} meets can't be told")


@rule(
    title="Join that meets a redirect", grade=Grade.DANGER, guards="line", basis=(_BASIS, _MAKER, _STOP),
    limits=(Limit("stop_within", 1.0, "m", "how far before a join's place a stop for it may be", _STOP, "higher"),),
    worse=Worse.by(higher="lines/*/pieces/*/width", lower="redirects/*/*/passes_width", taken_away="stops "
                   "redirects/*/*/passes lines/*/pieces/*/width,length"))  # fmt: skip
def join_at_redirect(solution: Solution, limits: Limits) -> Checks:
    for stage in stages(solution):
        met = [event for event in stage.events if event.kind == "join at seat"]
        yield from (_meeting(stage, event, limits) for event in met)
        meet = [(event.join.pointer, event.turn) for event in met if event.join]
        for line in stage.stage.lines:
            for join in line.joins if line.turns else ():
                where = Where("join", join.name, join.pointer, "", stage.stage.index)
                rest = [turn for k, turn in enumerate(line.turns) if (join.pointer, k) not in meet]
                free = all(_passage(stage, join, turn, where).result is Result.PASSED for turn in rest)
                lacks = () if free else join_lacks(stage, line, join)
                if lacks or len(rest) == len(line.turns):
                    yield holds(True, where, _CLEAR, missing=lacks)


def _meeting(stage: StageSolution, event: Event, limits: Limits) -> Check:
    join = event.join
    assert join and event.line and event.turn is not None  # noqa: S101, PT018 -- events of this kind have all three
    turn = stage.line(event.line).turns[event.turn]
    related = ((turn.pointer, "the redirect that it meets"),)
    where = Where("join", join.name, join.pointer, "", stage.stage.index, event.spread.low, related)
    check = _passage(stage, join, turn, where)
    if check.result is not Result.PASSED and (stop := answer(stage, event)):
        check = _answered(stop, where, limits, check.grade)
    return check._replace(terms=(("redirect", f"{turn.redirect}.{turn.seat_name}"), ("kind", join.facts.kind)))


def _answered(stop: Answer, where: Where, limits: Limits, grade: Grade | None) -> Check:
    if not stop.before:
        return holds(False, where, _LATE, grade=grade)
    # With too early a stop the crew at least knows of the join.
    most_m, lacks = limits["stop_within"], stop.lacks
    return at_most(stop.early_m, most_m, "m", where, _FAR, missing=lacks, grade=Grade.WARNING, basis=_STOP)


def _passage(stage: StageSolution, join: Join, turn: Turn, where: Where) -> Check:
    """Whether the join goes through the seat, whatever stop is planned."""
    kind, seat, at = join.facts.kind, turn.seat, turn.seat_name
    loops, splice = kind.startswith("loop-to-loop"), kind == "splice"
    if kind in _HARD or (at == "sheave" and not splice) or (at == "groove" and not (loops or splice)):
        return holds(False, where, _JAMS, basis=_BASIS)
    grade = Grade.CAUTION if splice else Grade.WARNING
    if splice and seat.passes is None:
        room = seat.groove_for.high if seat.groove_for else seat.opening.low if seat.opening else None
        missing = () if room else (place(stage.stage.redirects[turn.redirect].pointer, f"passes of its {at}"),)
        return _width(join, room, where, missing, grade)
    if kind not in (seat.passes or ()):
        return holds(False, where, _UNSAID, grade=grade, basis=_MAKER)
    if seat.passes_width is None:
        return holds(True, where, _UNSAID, grade=grade, basis=_MAKER)
    return _width(join, seat.passes_width.low, where, (), grade)


def _width(join: Join, room_m: float | None, where: Where, missing: tuple[str, ...], grade: Grade) -> Check:
    if join.facts.width is None:
        missing = (place(join.pointer, "width"), *missing)
    width_m = join.facts.width.high if join.facts.width else None
    return at_most(width_m, room_m, "m", where, _WIDE, missing=missing, grade=grade, basis=_MAKER)
