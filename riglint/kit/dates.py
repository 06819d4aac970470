"""Days and intervals of a kit, and whether gear was taken out of use, as pydantic types."""

import re
from datetime import date
from typing import Annotated, Any, NamedTuple

from riglint.plan.quantities import NAMED, Form, refusal
from riglint.reading.problems import quoted

_DAY_PATTERN = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
_INTERVAL_PATTERN = "^[1-9][0-9]{0,3} (?:days?|months?|years?)$"
_NO_REASONS = frozenset({"yes", "no", "true", "false", "on", "off", "y", "n", "-", "none"})


class Interval(NamedTuple):
    """A time by the calendar: whole months, and whole days."""

    months: int
    days: int


def parse_day(text: str) -> date | None:
    """The day of a text such as `2026-03-14`; None for any other text."""
    if not re.fullmatch(_DAY_PATTERN[1:-1], text, re.ASCII):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:  # no such day
        return None


def last_day(begin: date, interval: Interval) -> date | None:
    """The last day of an interval by the calendar; None beyond all calendars.

    A month on from the 31st is the last day of a shorter month.
    """
    months = begin.year * 12 + begin.month - 1 + interval.months
    year, month = divmod(months, 12)
    try:
        first = date(year, month + 1, 1)
        day = min(begin.day, _days_in(first))
        return date.fromordinal(first.toordinal() + day - 1 + interval.days)
    except (ValueError, OverflowError):
        return None


def _days_in(first: date) -> int:
    following = date(first.year + first.month // 12, first.month % 12 + 1, 1) if first.year < 9999 else None
    return 31 if following is None else following.toordinal() - first.toordinal()


def _read_day(value: object) -> date:
    day = parse_day(value) if isinstance(value, str) else None
    if day is None:
        shown = quoted(str(value)) if isinstance(value, str | int | float) else "something else"
        raise refusal(f"{shown} where a day belongs", "write year, month and day, such as `2026-03-14`")
    return day


def _day_schema() -> dict[str, Any]:
    about = "a day by the calendar: year, month, day"
    return {NAMED: ["day", about], "type": "string", "pattern": _DAY_PATTERN, "examples": ["2026-03-14"]}


def _read_interval(value: object) -> Interval:
    text = value if isinstance(value, str) else ""
    if not re.fullmatch(_INTERVAL_PATTERN[1:-1], text, re.ASCII):
        shown = quoted(str(value)) if isinstance(value, str | int | float) else "something else"
        raise refusal(f"{shown} where an interval belongs", "write `90 days`, `6 months` or `1 year`")
    number, unit = text.split(" ")
    per = {"d": (0, 1), "m": (1, 0), "y": (12, 0)}[unit[0]]
    return Interval(int(number) * per[0], int(number) * per[1])


def _interval_schema() -> dict[str, Any]:
    about = "whole days, months or years by the calendar"
    examples = ["90 days", "6 months", "1 year"]
    return {NAMED: ["interval", about], "type": "string", "pattern": _INTERVAL_PATTERN, "examples": examples}


def _read_retired(value: object) -> str:
    """The reason, or the empty text for gear in use. `no` in quotes or without is no reason but a slip."""
    if value is False:
        return ""
    if value is True:
        return "no reason given"
    if isinstance(value, str) and re.search(r"\S", value) and value.strip().casefold() not in _NO_REASONS:
        return value.strip()
    shown = quoted(str(value)) if isinstance(value, str | int | float) else "something else"
    raise refusal(f"{shown} where `true`, `false` or a reason belongs", "write `false`, or why it was retired")


def _retired_schema() -> dict[str, Any]:
    forms = [{"type": "boolean"}, {"type": "string", "pattern": "\\S"}]
    return {NAMED: ["retired", "`true`, `false`, or the reason"], "anyOf": forms, "examples": [False, "bent"]}


Day = Annotated[date, Form(_read_day, _day_schema)]
Every = Annotated[Interval, Form(_read_interval, _interval_schema)]
Retired = Annotated[str, Form(_read_retired, _retired_schema)]
