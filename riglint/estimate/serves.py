"""What gear of the kit carries what comes on it, by the factors that the rulebook divides by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from typing import Any, NamedTuple

from riglint.kit.lend import good_until
from riglint.kit.read import Gear, Kit
from riglint.outcome import Result
from riglint.plan.conditions import words_of
from riglint.plan.connectors import Connector as ConnectorFacts
from riglint.plan.lines import Piece as PieceFacts
from riglint.plan.points import Point as PointFacts
from riglint.plan.redirects import Redirect as RedirectFacts
from riglint.reading.quantity import Span
from riglint.report.words import listed
from riglint.rig.model import Connector, Piece, Redirect
from riglint.rulebook.judge import judge, use_at_most
from riglint.rulebook.limits import Limits
from riglint.solve.ratings import Rating, capacity, rating_of, seat_rating
from riglint.solve.rope import DAMAGED, DOUBTFUL
from riglint.solve.solution import Component

_NOWHERE = ""


class Load(NamedTuple):
    """What comes on something: as expected, and if the winch stalls. None is what can't be told."""

    expected_n: float
    stall_n: float | None


class Fit(NamedTuple):
    """Whether a piece of gear serves in a place, and why not. `may_n` is what it may carry where that decides.

    `overdue` is the last day of an inspection that ran out: such gear serves once it is inspected.
    """

    number: str
    result: Result
    why: str = ""
    carries_n: float | None = None
    may_n: float | None = None
    overdue: date | None = None

    @property
    def use(self) -> float:
        """Share of what it may carry."""
        return use_at_most(self.carries_n or 0.0, self.may_n) if self.may_n else 0.0


def fits(
    kit: Kit | None, place: str, load: Load, rope: PieceFacts | None, factors: Limits, day: date | None = None
) -> tuple[Fit, ...]:
    """Every piece of gear that could stand in a place (`block`, `connector`, `anchor`), the least that serves first.

    What has to be inspected first comes after what needn't be.
    """
    of_place = [dated(_fit(gear, place, load, rope, factors), gear, day) for gear in _kind(kit, place)]
    order = (Result.PASSED, Result.CANT_TELL, Result.FAILED)
    return tuple(sorted(of_place, key=lambda f: (order.index(f.result), f.overdue is not None, -f.use, f.number)))


def dated(fit: Fit, gear: Gear | None, day: date | None) -> Fit:
    """The fit, with the day on which the gear's inspection ran out if it has."""
    last = good_until(gear) if gear else None
    return fit._replace(overdue=last) if day and last and last < day and fit.result is not Result.FAILED else fit


def rope_fit(number: str, facts: PieceFacts, load: Load, factors: Limits) -> Fit:
    """Whether a rope carries the line pull."""
    item = Piece(number, _NOWHERE, facts, 0.0, 0.0)
    return _looked_over(_judged(number, rating_of(Component("piece", number, _NOWHERE, item)), load, factors), facts)


_KINDS = {"rope": "piece", "block": "redirect", "connector": "connector", "anchor": "point"}


def _kind(kit: Kit | None, place: str) -> Iterator[Gear]:
    return (gear for gear in kit.gear.values() if gear.kind == _KINDS[place]) if kit else iter(())


def _fit(gear: Gear, place: str, load: Load, rope: PieceFacts | None, factors: Limits) -> Fit:
    record: Any = gear.record
    if record.retired:
        return Fit(gear.number, Result.FAILED, f"taken out of use: {record.retired}")
    if place == "block" and isinstance(record, RedirectFacts):
        return _looked_over(_block(gear.number, record, load, rope, factors), record)
    if place == "anchor" and isinstance(record, PointFacts):
        rated = None if record.rated is None else record.rated.low
        return _judged(gear.number, Rating(rated, None, ("fitting",), Span(1.0, 1.0), ()), load, factors)
    if isinstance(record, ConnectorFacts):
        item = Connector(gear.number, _NOWHERE, record, 0.0, True)
        fit = _judged(gear.number, rating_of(Component("connector", gear.number, _NOWHERE, item)), load, factors)
        return _looked_over(fit, record)
    return Fit(gear.number, Result.CANT_TELL, "its kind isn't known")


def _looked_over(fit: Fit, facts: PieceFacts | ConnectorFacts | RedirectFacts) -> Fit:
    """The fit, no better than what was seen on the gear allows."""
    seen = words_of(facts.condition)
    seen = (*seen, "worn") if not isinstance(facts, PieceFacts) and facts.worn else seen
    unfit, doubtful = (tuple(word for word in words if word in seen) for words in (DAMAGED, (*DOUBTFUL, "worn")))
    if unfit:
        return Fit(fit.number, Result.FAILED, f"it is stated as {', '.join(unfit)}")
    if doubtful and fit.result is Result.PASSED:
        return fit._replace(result=Result.CANT_TELL, why=f"it is stated as {', '.join(doubtful)}")
    return fit


def seat_of(facts: RedirectFacts) -> str:
    """The seat for running rope: a block's sheave, a ring's bore."""
    return "sheave" if facts.kind == "block" else "bore"


def _block(number: str, facts: RedirectFacts, load: Load, rope: PieceFacts | None, factors: Limits) -> Fit:
    """By the pull in the line or twice that, as its rating says; rope of a size that its groove isn't for won't do."""
    seat = facts.running(seat_of(facts))
    _, rating = seat_rating(Redirect(number, _NOWHERE, facts, None), seat_of(facts))
    if seat is None:
        return Fit(number, Result.FAILED, "it has no seat for running rope")
    size, groove = rope.diameter if rope else None, seat.groove_for
    if size and groove and not groove.low <= size.low <= size.high <= groove.high:
        return Fit(number, Result.FAILED, "its groove is for rope of another size")
    line = Load(load.expected_n / 2.0, None if load.stall_n is None else load.stall_n / 2.0)
    if seat.rated_for == "resultant":
        return _judged(number, rating, load, factors)
    fit = _judged(number, rating, line, factors)
    if seat.rated_for is None:
        why = "whether it is rated for the line or for both parts isn't stated"
        return fit if fit.result is Result.FAILED else fit._replace(result=Result.CANT_TELL, why=why)
    return fit


def _judged(number: str, rating: Rating | None, load: Load, factors: Limits) -> Fit:
    if rating is None or (rating.working_n is None and rating.breaking_n is None):
        return Fit(number, Result.CANT_TELL, "no rating is stated")
    steady = capacity(rating, tuple(factors[gear] for gear in rating.gear))
    last = capacity(rating, (factors["stall"],))
    cases = [(load.expected_n, steady), (load.stall_n, last)]
    known = [(carries, may.low_n) for carries, may in cases if may and carries is not None]
    carries, may_n = max(known, key=lambda one: use_at_most(*one))
    result = judge(use_at_most(carries, may_n))
    if result is Result.FAILED:
        most = max(use_at_most(carries, may.high_n) for carries, may in cases if may and carries is not None)
        if rating.missing and judge(most) is not Result.FAILED:
            facts = listed(fact.rpartition(": ")[2] for fact in rating.missing)
            return Fit(number, Result.CANT_TELL, f"what it may carry goes by what isn't stated: {facts}")
        return Fit(number, result, "it may not carry that", carries, may_n)
    if load.stall_n is None:
        return Fit(number, Result.CANT_TELL, "what it carries at stall can't be told", carries, may_n)
    return Fit(number, result, "", carries, may_n)


def pick(fits_of: Iterable[Fit], taken: set[str]) -> Fit | None:
    """The least gear that serves and isn't taken, else one that can't be told; it is taken then."""
    free = [fit for fit in fits_of if fit.result is not Result.FAILED and fit.number not in taken]
    if free:
        taken.add(free[0].number)
    return free[0] if free else None
