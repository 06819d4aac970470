"""Joins: set right, spliced, stopped for, or moved along the line."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from riglint.outcome import Finding, Value
from riglint.remedy.model import Proposal
from riglint.remedy.patch import Operation, add, put, replace, value_at
from riglint.remedy.quantity import length
from riglint.remedy.workshop import Workshop
from riglint.rig.model import Join, Line, RigStage
from riglint.solve.solution import StageSolution

_LOOPS = "loop-to-loop square knot"
_AHEAD_M = 0.5  # how far before a join's place the crew stop: time to see it, and little enough to be near
_MARGINS_M = (0.5, 1.0, 2.0)


def set_right(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Loops opened and set again: parallel legs, no twist."""
    join = _join(shop, finding)
    if join is None or not join.facts.kind.startswith("loop-to-loop"):
        return
    wanted = {"kind": _LOOPS, "set": "parallel legs", "twist": "none"}
    known = value_at(shop.data, join.pointer) or {}
    changes = tuple(put(shop.data, f"{join.pointer}/{k}", v) for k, v in wanted.items() if known.get(k) != v)
    if changes:
        words = "take the load off, open {join} and set it again: square, legs parallel, no twist"
        yield Proposal(words, (("join", join.name),), changes)


def splice(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """The two pieces spliced to each other, where their rope is alike."""
    join = _join(shop, finding)
    if join is None or join.facts.kind == "splice" or join.facts.from_kit:
        return
    one, other = join.inner.facts, join.outer.facts
    if (one.rope, one.diameter) == (other.rope, other.diameter) and one.rope and one.diameter:
        terms = (("join", join.name), ("inner", join.inner.name), ("outer", join.outer.name))
        words = "splice {inner} and {outer} to each other in place of {join}"
        yield Proposal(words, terms, (replace(join.pointer, {"kind": "splice"}),))


def stop(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """A halt shortly before the join arrives, with what is done there; or a halt that is planned, moved."""
    join, where = _join(shop, finding), finding.check.where
    if join is None or where.travel_m is None or finding.rule == "join-watched":
        return
    stage = shop.rig.stages[where.stage]
    redirect = dict(finding.check.terms).get("redirect", "")
    redirect = redirect.partition(".")[0] if isinstance(redirect, str) else ""
    for ahead_m in (_AHEAD_M, 0.2, 0.9):
        after, after_m = length(where.travel_m - ahead_m, shop.rig.reports_in, up=False)
        if 0.0 <= after_m <= where.travel_m:
            yield from _stops(shop, stage, join, redirect, (after, after_m))


def _stops(shop: Workshop, stage: RigStage, join: Join, redirect: str, after: tuple[str, float]) -> Iterator[Proposal]:
    names = {join.name, redirect} - {""}
    terms = (("after", Value(after[1], "m")), ("join", join.name), ("redirect", redirect), ("outer", join.outer.name))
    for known in stage.stops:
        if names <= known.names:
            words = "move the stop for {join} to {after} of travel"
            yield Proposal(words, terms, (replace(f"{known.pointer}/after", after[0]),))
    do = f"take {join.name} past {redirect}" if redirect else f"take {join.name} and {join.outer.name} out of the line"
    said = "take {join} past {redirect}" if redirect else "take {join} and {outer} out of the line"
    entry = {"after": after[0], "do": do, "load_held_by": "chocks"}
    words = f"stop after {{after}} of travel, hold the load with chocks, and {said}"
    yield Proposal(words, terms, (_new_stop(shop, stage, entry),), guards=(join.pointer, _path(shop, stage)))


def _new_stop(shop: Workshop, stage: RigStage, entry: dict[str, str]) -> Operation:
    at = f"{stage.pointer}/stops" if shop.data.get("stages") else "/stops"
    return add(f"{at}/-", entry) if value_at(shop.data, at) else add(at, [entry])


def _path(shop: Workshop, stage: RigStage) -> str:
    return f"{stage.haul.pointer}/path"


def order(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """Two extensions in each other's place: the join between them lies elsewhere. The drum keeps its own rope."""
    join = _join(shop, finding)
    line = _line_of(shop, finding, join) if join else None
    if join is None or line is None:
        return
    for a, b in combinations(line.pieces[1:], 2):
        (at_a, entry_a), (at_b, entry_b) = (_entry(shop, piece.pointer) for piece in (a, b))
        if entry_a and entry_b:
            terms = (("a", a.name), ("b", b.name))
            yield Proposal("let {a} and {b} change places", terms, (replace(at_a, entry_b), replace(at_b, entry_a)))


def _entry(shop: Workshop, pointer: str) -> tuple[str, object]:
    at = pointer.rpartition("/")[0]
    return at, value_at(shop.data, at)


def other_length(shop: Workshop, finding: Finding) -> Iterator[Proposal]:
    """The piece behind the join shorter or longer, so that the join stays on one side of the redirect."""
    join, stage = _join(shop, finding), shop.solution.stages[finding.check.where.stage]
    line = _line_of(shop, finding, join) if join else None
    if join is None or line is None or join.outer.facts.from_kit or join.from_dead_end.high > 1e6:
        return
    piece, spare = join.outer, join.from_dead_end
    own = piece.end_m - piece.start_m
    for low, high in _ways(stage, line):
        for margin in _MARGINS_M:
            yield from _length(shop, piece.name, piece.pointer, own, own + high + margin - spare.low, up=True)
            yield from _length(shop, piece.name, piece.pointer, own, own + low - margin - spare.high, up=False)


def _ways(stage: StageSolution, line: Line) -> list[tuple[float, float]]:
    """For each turn, the shortest and the longest way from there to the dead end."""
    turns = [turn for s in stage.stations for turn in s.turns if turn.line == line.name]
    ways: dict[int, list[float]] = {}
    for turn in turns:
        ways.setdefault(turn.index, []).append(turn.path_beyond_m)
    return sorted((min(beyond), max(beyond)) for beyond in ways.values())


def _length(shop: Workshop, name: str, pointer: str, old_m: float, new_m: float, *, up: bool) -> Iterator[Proposal]:
    text, exact = length(new_m, shop.rig.reports_in, up=up, step=0.5)
    if exact <= 0.5:
        return
    terms = (("piece", name), ("old", Value(old_m, "m")), ("new", Value(exact, "m")))
    words = "take {piece} of {new} in place of {old}: its join then lies clear of the redirect"
    yield Proposal(words, terms, (put(shop.data, f"{pointer}/length", text),))


def _join(shop: Workshop, finding: Finding) -> Join | None:
    where = finding.check.where
    stage = shop.rig.stages[where.stage]
    joins = (join for line in stage.lines for join in line.joins)
    return next((join for join in joins if join.pointer == where.pointer), None)


def _line_of(shop: Workshop, finding: Finding, join: Join) -> Line | None:
    lines = shop.rig.stages[finding.check.where.stage].lines
    return next((line for line in lines if join in line.joins), None)
