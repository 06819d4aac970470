"""The law of the limit, written once: use is 1 at the limit, and 1 still passes.

Use is measured over limit for what may be at most so much, limit over measured for what must be at least so
much. NaN never passes, and no infinity does. A missing fact never passes either: what a check measures
without it is the mildest that it can be, so it fails if over the limit anyway, and else can't be told. Of several
stations or things the worst is judged, and of equals the first, with `first_greatest` and its likes.
"""

from collections.abc import Sequence
from math import inf, nan
from typing import Final, NamedTuple, TypedDict

from riglint.mechanics.rounding import first_greatest, first_least
from riglint.outcome import Basis, Check, Grade, Result, Step, Term, Unit, Where
from riglint.solve.solution import Component, StageSolution

__all__ = (
    "TOLERANCE",
    "More",
    "Words",
    "at_least",
    "at_most",
    "exceeds",
    "first_greatest",
    "first_least",
    "gravest",
    "here",
    "holds",
    "judge",
    "use_at_least",
    "use_at_most",
)  # fmt: skip

TOLERANCE: Final = 1e-9
"""Relative: above the rounding of a few dozen float operations, far below what any rope or tape can tell."""

_PASSED, _FAILED, _CANT_TELL = Result.PASSED, Result.FAILED, Result.CANT_TELL
_OVER: Final = 1 + TOLERANCE


class Words(NamedTuple):
    """What a check says, by how it came out: sentences without a full stop.

    Places to fill: `{component}`, `{name}`, `{measured}`, `{limit}`, `{use}`, `{case}`, `{travel}`, and each
    of the check's own terms by its name. A text of the plan is such a term too, never part of the sentence.
    """

    fails: str
    passes: str
    unknown: str = "{component} can't be checked"
    remedy: str = ""  # what would put it right
    to_tell: str = ""  # what would let it be told, where the names of what is missing don't say it


class More(TypedDict, total=False):
    """The further fields of a Check, for a rule that puts them together before it calls `at_most` or its likes."""

    missing: tuple[str, ...]
    terms: tuple[Term, ...]
    working: tuple[Step, ...]
    pull_n: float | None
    measure: str
    basis: Basis | None
    grade: Grade | None


def judge(use: float | None, missing: tuple[str, ...] = ()) -> Result:
    """Failed if over the limit; can't tell if anything is missing or the use is NaN; else passed."""
    if use is None:
        return _CANT_TELL
    if use > _OVER:
        return _FAILED
    return _PASSED if use <= _OVER and not missing else _CANT_TELL


def use_at_most(measured: float, limit: float) -> float:
    """Measured over limit; where the limit is zero or less, 0 within it and infinite beyond.

    NaN where either is none, or endless and not plainly over the limit.
    """
    if not measured > -inf or not -inf < limit < inf:
        return nan
    if limit > 0:
        return measured / limit
    return 0.0 if measured <= limit else inf


def use_at_least(measured: float, limit: float) -> float:
    """Limit over measured; infinite where there is nothing of what is asked for.

    NaN where either has no sense or no end.
    """
    if not measured < inf or not -inf < limit < inf:
        return nan
    if measured > 0 and limit > 0:
        return limit / measured
    return 0.0 if measured >= limit else inf


def exceeds(value: float, limit: float) -> bool:
    """Whether a value is past a limit, as a check of it would judge: for grades, and for what else hangs by one.

    What rounding alone puts past it is not; NaN is, since it never passes.
    """
    return judge(use_at_most(value, limit)) is not _PASSED


def at_most(
    measured: float | None, limit: float | None, unit: Unit, where: Where, words: Words, *,
    missing: tuple[str, ...] = (), terms: tuple[Term, ...] = (), working: tuple[Step, ...] = (),
    pull_n: float | None = None, measure: str = "", basis: Basis | None = None, grade: Grade | None = None,
) -> Check:  # fmt: skip
    """A check that `measured` is no more than `limit`. None for either of them can't be told.

    With `missing` facts, measured over limit must be the least that it can be.
    """
    use = None if measured is None or limit is None else use_at_most(measured, limit)
    return _check(measured, limit, unit, use, where, words, missing, terms, working, pull_n, measure, basis, grade)


def at_least(
    measured: float | None, limit: float | None, unit: Unit, where: Where, words: Words, *,
    missing: tuple[str, ...] = (), terms: tuple[Term, ...] = (), working: tuple[Step, ...] = (),
    pull_n: float | None = None, measure: str = "", basis: Basis | None = None, grade: Grade | None = None,
) -> Check:  # fmt: skip
    """A check that `measured` is no less than `limit`. None for either of them can't be told.

    With `missing` facts, measured over limit must be the most that it can be.
    """
    use = None if measured is None or limit is None else use_at_least(measured, limit)
    return _check(measured, limit, unit, use, where, words, missing, terms, working, pull_n, measure, basis, grade)


def holds(
    true: bool | None, where: Where, words: Words, *,
    missing: tuple[str, ...] = (), terms: tuple[Term, ...] = (), working: tuple[Step, ...] = (),
    basis: Basis | None = None, grade: Grade | None = None,
) -> Check:  # fmt: skip
    """A check of what is so or isn't. None can't be told, nor can what is so as far as facts are stated."""
    result = judge(None if true is None else 0.0 if true else inf, missing)
    message, remedy = _said(result, words)
    return Check(result, where, message, remedy, None, None, "1", None, missing, terms, working, None, "", basis, grade)


def gravest(checks: Sequence[Check]) -> Check:
    """Of several checks, at least one: what fails before what can't be told before what passes, then the most used."""
    for result in (_FAILED, _CANT_TELL):
        own = [check for check in checks if check.result is result]
        if own:
            return first_greatest(own, lambda check: check.use or 0.0)
    return first_greatest(checks, lambda check: check.use or 0.0)


def either_end(harsh: Check, mild: Check) -> Check:
    """Of a fact that isn't stated: what passes at its harsh end passes; else its mild end, where it is missing."""
    return harsh if harsh.result is _PASSED else mild


def _check(
    measured: float | None, limit: float | None, unit: Unit, use: float | None, where: Where, words: Words,
    missing: tuple[str, ...], terms: tuple[Term, ...], working: tuple[Step, ...],
    pull_n: float | None, measure: str, basis: Basis | None, grade: Grade | None,
) -> Check:  # fmt: skip
    result = judge(use, missing)
    message, remedy = _said(result, words)
    # Every field in its place: by name it takes twice the time, a hundred times a plan.
    return Check(
        result, where, message, remedy, measured, limit, unit, None if result is _CANT_TELL else use,
        missing, terms, working, pull_n, measure, basis, grade,
    )  # fmt: skip


def _said(result: Result, words: Words) -> tuple[str, str]:
    """The message and the remedy of a check that came out so."""
    if result is _PASSED:
        return words.passes, ""
    return (words.fails, words.remedy) if result is _FAILED else (words.unknown, words.to_tell)


def here(stage: StageSolution, component: Component, case: str = "", station: int | None = None) -> Where:
    """Where a check of a component stands; `station` is an index into the stage's stations."""
    travel = None if station is None else stage.stations[station].travel_m
    return Where(component.kind, component.name, component.pointer, case, stage.stage.index, travel)
