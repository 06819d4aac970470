"""Parts of a review put together: each a report in JSON as this program writes it, one plan a line.

They are read side by side, plan by plan, so that memory doesn't grow with their number.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from heapq import merge as merged
from itertools import groupby
from pathlib import Path
from typing import Final, NamedTuple

from riglint.report.words import listed
from riglint.review.about import united
from riglint.review.record import Record

_BEGIN: Final = ',"plans":['
_END: Final = "]"


class MergeError(Exception):
    """Reports that can't be put together; the message says which and why."""


class Merged(NamedTuple):
    """What the parts have in common, and their plans in the order of their URIs."""

    about: Record
    files: tuple[Path, ...]

    def plans(self) -> Iterator[Record]:
        """Each plan once. Raises MergeError where two parts differ on one, or one isn't whole."""
        rows = merged(*map(_plans, self.files), key=lambda plan: str(plan["uri"]))
        for uri, group in groupby(rows, key=lambda plan: str(plan["uri"])):
            first, *others = group
            if any(other != first for other in others):
                raise MergeError(f"two of the reports differ on {uri}; review it again, and merge reports of one state")
            yield first


def merge(files: tuple[Path, ...]) -> Merged:
    """Parts of a review. Raises MergeError where they don't belong together or one of them is missing."""
    abouts = [_about(file) for file in files]
    first = abouts[0]
    for file, other in zip(files, abouts, strict=True):
        for key in ("program", "halting_grade", "day"):
            if other.get(key) != first.get(key):
                raise MergeError(f"{file} and {files[0]} differ in their {key.replace('_', ' ')}")
    _check_rulebooks(abouts)
    _check_slices([one.get("slice", "") for one in abouts])
    return Merged(united(abouts), files)


def _check_rulebooks(abouts: list[Record]) -> None:
    version: dict[str, str] = {}
    for book in (book for one in abouts for book in one["rulebooks"]):
        if version.setdefault(book["name"], book["version"]) != book["version"]:
            raise MergeError(f"the reports were made with two versions of the rulebook `{book['name']}`")


def _check_slices(slices: list[str]) -> None:
    """Where they say which parts they are, every part is there: a missing one would pass for clear."""
    parts = {named.partition("/")[2] for named in slices if named}
    if len(parts) > 1 or (parts and "" in slices):
        raise MergeError("the reports are parts of different divisions")
    for count in parts:
        missing = [n for n in range(1, int(count) + 1) if f"{n}/{count}" not in slices]
        if missing:
            which = listed(map(str, missing))
            raise MergeError(f"of {count} parts {which} {'is' if len(missing) == 1 else 'are'} missing")


def _about(file: Path) -> Record:
    try:
        with file.open(encoding="utf-8") as stream:
            line = stream.readline().rstrip("\n")
        data = json.loads(line.removesuffix(_BEGIN) + "}") if line.endswith(_BEGIN) else None
    except (OSError, ValueError, RecursionError) as error:
        raise _unusable(file, error) from None
    if not isinstance(data, dict) or data.get("review") != 1 or "rules" not in data:
        raise MergeError(f"{file} is no report of a review as written by `--as json`")
    return {key: value for key, value in data.items() if key != "review"}


def _plans(file: Path) -> Iterator[Record]:
    last = ""
    try:
        with file.open(encoding="utf-8") as stream:
            stream.readline()
            for line in stream:
                if line.startswith(_END):
                    json.loads("{" + line.removeprefix(_END + ","))  # the summary, which ends a whole report
                    return
                if not line.strip():
                    continue
                plan = json.loads(line.rstrip().removesuffix(","))
                if plan["uri"] < last:
                    raise MergeError(f"{file} was put in another order")
                last = plan["uri"]
                yield plan
    except (OSError, ValueError, RecursionError, KeyError, TypeError) as error:
        raise _unusable(file, error) from None
    raise MergeError(f"{file} isn't whole: its end is missing")


def _unusable(file: Path, error: Exception) -> MergeError:
    words = " ".join(f"{type(error).__name__}: {getattr(error, 'strerror', None) or error}".split())
    return MergeError(f"{file} can't be read as a report of a review: {words}")
