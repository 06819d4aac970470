"""Every rating says what it rests on.

A number in a plan looks the same whether it was read off a plate, looked up in a maker's sheet or remembered
from another vehicle. Ratings that say their basis can be checked by whoever reads the plan; one that doesn't
may be a guess. That is a matter of paper and a NOTICE: everything else takes the number at its word. Gear from
a kit brings its basis along.

One finding names the first such piece of gear and points at all the others.

No equation.

What to do: write `basis:` beside each rating: the mark, the plate, the certificate, the test.

Worked example: of 9 ratings 4 say what they rest on.
ratings = 9; with_basis = 4; without = ratings - with_basis = 5
"""

from riglint.rulebook.author import Basis, Checks, Grade, Limits, Solution, Where, Worse, place, rule
from riglint.rulebook.judge import Words, holds
from riglint.solve.rated import Rated, rated

_BASIS = Basis("common practice", "a rating says what it rests on")
_WORDS = Words(
    "no basis is given for what is stated of {names}", "every rating says what it rests on",
    "what the ratings of {names} rest on is not known",
    "Write `basis:` beside the rating: mark, plate, certificate or test",
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
    stated = [one for one in seen.values() if one.stated]
    unknown = [one for one in stated if _is(one.basis, _UNKNOWN)]
    bare = [one for one in stated if one.basis is None or _is(one.basis, _GUESSED)]
    if bare:
        yield holds(False, _where(bare), _WORDS, terms=(("names", _names(bare)),))
    if unknown:
        missing = tuple(place(one.pointer, "basis") for one in unknown)
        yield holds(None, _where(unknown), _WORDS, missing=missing, terms=(("names", _names(unknown)),))
    if stated and not bare and not unknown:
        yield holds(True, Where("plan", "plan", ""), _WORDS)


def _is(basis: str | None, words: frozenset[str]) -> bool:
    return basis is not None and basis.strip().lower() in words


def _where(found: list[Rated]) -> Where:
    first, *others = found
    return Where(first.kind, first.name, first.pointer, related=tuple((o.pointer, "nor for this") for o in others))


def _names(found: list[Rated]) -> str:
    return ", ".join(one.name for one in found)
