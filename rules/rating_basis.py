"""Every rating says what it rests on.

A number in a plan looks the same whether it was read off a plate, looked up in a maker's sheet or remembered
from another vehicle. Ratings that say their basis can be checked by whoever reads the plan; one that doesn't
may be a guess. That is a matter of paper and a NOTICE: everything else takes the number at its word. Gear from
a kit brings its basis along.

One finding names the first such piece of gear and points at all the others.

An anchor in the ground of the kind `other`, or of no kind, is judged by nothing but its rating, so a figure that nobody
stands behind is a CAUTION there: its basis must speak of a mark, a plate, a certificate, a drawing or a test.

No equation.

What to do: write `basis:` beside each rating: the mark, the plate, the certificate, the test.

Worked example: of 9 ratings 4 say what they rest on.
ratings = 9; with_basis = 4; without = ratings - with_basis = 5
"""

from collections.abc import Iterator

from riglint.rig.model import Point
from riglint.rulebook.author import Basis, Check, Checks, Grade, Limits, Result, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.rated import Rated, rated, says_who_stands_behind
from riglint.solve.worst import points

_BASIS = Basis("common practice", "a rating says what it rests on")
_WORDS = Words(
    "no basis is given for what is stated of {names}", "every rating says what it rests on",
    "what the ratings of {names} rest on is not known",
    "Write `basis:` beside the rating: mark, plate, certificate or test",
)  # fmt: skip
_ANCHOR = Words(
    "", "{name} has a figure that somebody stands behind: {basis}",
    "whether {name} holds can't be told: {kind}, and nobody stands behind its figure{basis}", "",
    "Have it tested with a gauge, or use an anchor whose holding is known; write in `basis` what its rating rests on",
)  # fmt: skip
_GUESSED = frozenset({"guess", "guessed", "estimate", "estimated", "none"})
_UNKNOWN = frozenset({"unknown", "not known", "?", "to be found out"})


@rule(
    title="What ratings rest on", grade=Grade.NOTICE, guards="paper", basis=(_BASIS,),
    worse=Worse.by(taken_away="points/*/basis connectors/*/basis"),
)  # fmt: skip
def rating_basis(solution: Solution, limits: Limits) -> Checks:
    seen: dict[str, Rated] = {}
    for stage in solution.stages:
        for one in rated(stage.stage):
            seen.setdefault(one.pointer, one)
    anchors = {point.pointer: _anchor(point) for point in _by_rating_alone(solution)}
    yield from anchors.values()
    stated = [one for one in seen.values() if one.stated and one.pointer not in anchors]
    unknown = [one for one in stated if _is(one.basis, _UNKNOWN)]
    bare = [one for one in stated if one.basis is None or _is(one.basis, _GUESSED)]
    if bare:
        yield holds(False, _where(bare), _WORDS, terms=(("names", _names(bare)),))
    if unknown:
        missing = tuple(place(one.pointer, "basis") for one in unknown)
        yield holds(None, _where(unknown), _WORDS, missing=missing, terms=(("names", _names(unknown)),))
    if stated and not bare and not unknown and all(check.result is Result.PASSED for check in anchors.values()):
        yield holds(True, Where("plan", "plan", ""), _WORDS)


def _by_rating_alone(solution: Solution) -> Iterator[Point]:
    """Anchors in the ground that no rule knows more of than their rating; what a winch stands on is known."""
    for stage in solution.stages:
        for _, point in points(stage):
            facts, mount = point.facts, point.pointer == stage.stage.winch.mount.pointer
            unruled = facts.kind == "other" or (facts.kind is None and not mount)
            if point.body.name == "ground" and unruled and (facts.rated or facts.breaking):
                yield point


def _anchor(point: Point) -> Check:
    basis = point.facts.basis
    backed = says_who_stands_behind(basis)
    kind = "it is of no kind that has a rule" if point.facts.kind else "its kind isn't stated"
    said = (basis or "") if backed else f" ({basis})" if basis else ""
    missing = () if backed else (place(point.pointer, "basis: a mark, plate, certificate, drawing or test"),)
    where = Where("point", point.name, point.pointer)
    return holds(backed or None, where, _ANCHOR, missing=missing, terms=(("kind", kind), ("basis", said)),
                 grade=Grade.CAUTION)  # fmt: skip


def _is(basis: str | None, words: frozenset[str]) -> bool:
    return basis is not None and basis.strip().lower() in words


def _where(found: list[Rated]) -> Where:
    first, *others = found
    return Where(first.kind, first.name, first.pointer, related=tuple((o.pointer, "nor for this") for o in others))


def _names(found: list[Rated]) -> str:
    return ", ".join(one.name for one in found)
