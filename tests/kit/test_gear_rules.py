"""The rules on gear's papers: worse papers never come out milder, and no day is made up where none is given.

Outcomes in their order: passed, can't tell, failed; among failed ones by grade.
"""

from datetime import date, timedelta
from functools import cache

from hypothesis import given
from hypothesis import strategies as st

from riglint.kit.dates import Interval, last_day
from riglint.outcome import Outcome, Result
from riglint.rig.model import KitFacts
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.solve.solution import Solution
from riglint.solve.solve import solve
from tests.kit.rigs import PLAN, written_out

DAYS = st.dates(date(2020, 1, 1), date(2032, 12, 31))
INTERVALS = st.builds(Interval, st.integers(0, 36), st.integers(0, 400))
LATER = st.integers(0, 1500)
ORDER = [Result.PASSED, Result.CANT_TELL, Result.FAILED]


@cache
def book():
    return standard_rulebook()


@cache
def solution():
    return solve(written_out(PLAN).rig)


def outcome(slug: str, facts: KitFacts, today: date | None = None) -> Outcome:
    solved = solution()
    rig = solved.rig.on_paper({"/connectors/bow": facts}, today)
    found = apply(book().rule(slug), Solution(rig, solved.stages), book().limits[slug])
    assert not found.reason
    return found


def rank(found: Outcome) -> tuple[int, int]:
    return ORDER.index(found.result), max((-f.grade.rank for f in found.findings), default=-9)


def gear(**facts: object) -> KitFacts:
    return KitFacts(gear="S-1", what="connector", kind="connector", name="bow", **facts)


def inspected(day: date, interval: Interval) -> KitFacts:
    return gear(inspected=day, interval_stated=True, good_until=last_day(day, interval))


@given(DAYS, INTERVALS, LATER, LATER)
def test_a_later_day_is_never_milder(day, interval, since, later):
    facts, today = inspected(day, interval), day + timedelta(days=since)
    now = outcome("gear-overdue", facts, today)
    assert rank(outcome("gear-overdue", facts, today + timedelta(days=later))) >= rank(now)


@given(DAYS, INTERVALS, LATER, LATER)
def test_an_older_inspection_is_never_milder(day, interval, since, older):
    today = day + timedelta(days=since)
    now = outcome("gear-overdue", inspected(day, interval), today)
    before = inspected(day - timedelta(days=older), interval)
    # By the calendar an interval that begins earlier may end a day or two earlier by less; never later.
    assert rank(outcome("gear-overdue", before, today))[0] >= rank(now)[0]


@given(DAYS, INTERVALS, LATER)
def test_without_a_fact_it_never_passes(day, interval, since):
    today, facts = day + timedelta(days=since), inspected(day, interval)
    assert outcome("gear-overdue", facts, None).result is Result.CANT_TELL
    for gone in (gear(interval_stated=True), gear(inspected=day), gear()):
        assert outcome("gear-overdue", gone, today).result is Result.CANT_TELL
    assert outcome("gear-overdue", facts, day - timedelta(days=1)).result is Result.CANT_TELL


@given(st.none() | DAYS, st.sampled_from([None, ""]))
def test_retiring_gear_is_never_milder(day, before):
    was = outcome("gear-retired", gear(inspected=day, retired=before))
    now = outcome("gear-retired", gear(inspected=day, retired="bent"))
    assert now.result is Result.FAILED
    assert rank(now) >= rank(was)


def test_taking_the_kits_rating_away_is_never_milder():
    rated, by_plan, nowhere = (rank(outcome("gear-unrated", gear(rated=who))) for who in ("kit", "plan", "nowhere"))
    assert rated < nowhere < by_plan


def test_gear_that_missed_the_next_inspection_too_is_graver():
    facts = inspected(date(2026, 1, 1), Interval(0, 10))
    ranks = [rank(outcome("gear-overdue", facts, date(2026, 1, day))) for day in (11, 12, 21, 22)]
    assert ranks[0] < ranks[1] == ranks[2] < ranks[3]
