"""A place of the travel that gets a station though no event happens there, and why."""

from collections.abc import Iterable
from typing import NamedTuple


class Mark(NamedTuple):
    """A place of the travel, in metres, and the words for it, with `{}` where the name of what they are about goes."""

    travel_m: float
    words: str
    name: str = ""


def told(marks: Iterable[Mark]) -> str:
    """The words of marks at one place, what is said of several things once."""
    names: dict[str, dict[str, None]] = {}
    for mark in marks:
        names.setdefault(mark.words, {})[mark.name] = None
    return "; ".join(words.replace("{}", ", ".join(own)) for words, own in names.items())
