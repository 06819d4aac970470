"""An earlier review, read back from its SARIF log, and what has changed since.

A log as this program writes it has a result on each line, in the order of the plans, and is read beside the new
review plan by plan, however long it is; any other log is read whole.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from itertools import groupby
from math import isclose
from pathlib import Path
from typing import Any, Final, NamedTuple

from riglint.outcome import Grade, Result
from riglint.report.figures import number
from riglint.report.sarif import FINGERPRINT
from riglint.review.record import Record, bare

_RESULT: Final = '{"ruleId":'
_PROBLEMS: Final = frozenset({"fail", "open", "review"})
_UNSEEN: Final = frozenset({"can't be read", "program failed"})
_ROUND_OFF: Final = 1e-5
"""Uses are written to six digits; what grows by more than that has grown."""

Old = dict[str, Any]


class SinceError(Exception):
    """An earlier log that can't be used; the message says why."""


class Earlier(NamedTuple):
    """What the earlier review said of one plan."""

    uri: str
    results: list[Old]


def earlier(file: Path) -> Iterator[Earlier]:
    """Plan by plan in the order of their URIs. Raises SinceError, at the latest when the iteration gets there."""
    results = _lines(file) if _has_lines_in_order(file) else _whole(file)
    return _grouped(_sound(result, file) for result in results)


def _sound(result: Old, file: Path) -> Old:
    for part in ("message", "properties"):
        if not isinstance(result.get(part) or {}, dict):
            raise SinceError(f"{file} is no SARIF log that can be read: a result's `{part}` is no object")
    return result


def compared(record: Record, old: list[Old] | None) -> Record:
    """The record with each finding `new`, `worse`, `better` or `unchanged`, and with what is gone.

    Two findings with one fingerprint are told apart by how grave they are, never by their number. A finding
    that was waived and no longer is counts as worse. What nobody could look at now is never gone.
    """
    left: dict[tuple[str, str], list[Old]] = {}
    for result in sorted(old or (), key=lambda r: json.dumps(r, sort_keys=True)):
        left.setdefault((_rule(result), _print_of(result)), []).append(result)
    for olds in left.values():
        olds.sort(key=_gravity_then, reverse=True)  # the gravest is taken first, from the end
    findings = [finding | {"state": _state(finding, left)} for finding in record["findings"]]
    unseen = {rule["rule"] for rule in record["untested"]}
    kept = [] if record["verdict"] in _UNSEEN else [olds for (rule, _), olds in left.items() if rule not in unseen]
    gone = [r for olds in kept for r in reversed(olds) if r.get("kind", "fail") in _PROBLEMS]
    quiet = {_rule(r) for r in old or () if r.get("kind", "fail") not in _PROBLEMS}
    return record | {"findings": findings, "gone": gone, "known": sorted(quiet)}


def gone_plan(old: list[Old]) -> Record:
    """The record of a plan that is no longer there."""
    return compared(bare("gone"), old)


def _state(finding: Record, left: dict[tuple[str, str], list[Old]]) -> str:
    """Findings come worst first, so that each meets the gravest that is left."""
    olds = left.get((finding["rule"], finding["fingerprint"]))
    if not olds:
        return "new"
    then, now = _gravity_then(olds.pop()), _gravity(finding)
    if now[:3] != then[:3]:
        return "worse" if now[:3] < then[:3] else "better"
    if isclose(now[3], then[3], rel_tol=_ROUND_OFF, abs_tol=_ROUND_OFF):
        return "unchanged"
    return "worse" if now[3] < then[3] else "better"  # both are negative uses


_Gravity = tuple[bool, int, bool, float]
"""Smaller is graver: waived, grade, whether it only can't be told, and minus the use."""


def _gravity(finding: Record) -> _Gravity:
    rank = Grade(finding["grade"]).rank
    can_tell = finding["result"] == Result.FAILED.value
    return bool(finding["waived"]), rank, not can_tell, -(number(finding["use"]) or 0.0)


def _gravity_then(result: Old) -> _Gravity:
    properties = result.get("properties") or {}
    grade, use = properties.get("grade"), properties.get("use")
    rank = next((one.rank for one in Grade if one.value == grade), len(Grade))
    failed = result.get("kind", "fail") == "fail"
    return bool(result.get("suppressions")), rank, not failed, -(number(use) or 0.0)


def _rule(result: Old) -> str:
    return str(result.get("ruleId") or "")


def _print_of(result: Old) -> str:
    prints = result.get("partialFingerprints")
    return str(prints.get(FINGERPRINT) or "") if isinstance(prints, dict) else ""


def _uri(result: Old) -> str:
    try:
        return str(result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"])
    except (KeyError, IndexError, TypeError):
        return ""


def _grouped(results: Iterable[Old]) -> Iterator[Earlier]:
    for uri, group in groupby(results, key=_uri):
        yield Earlier(uri, [result for result in group if result.get("baselineState") != "absent"])


def _has_lines_in_order(file: Path) -> bool:
    last = ""
    try:
        for result in _lines(file):
            if (uri := _uri(result)) < last:
                return False
            last = uri
    except SinceError:
        return False
    return last != ""


def _lines(file: Path) -> Iterator[Old]:
    try:
        with file.open(encoding="utf-8") as stream:
            for line in stream:
                if line.startswith(_RESULT):
                    yield json.loads(line.rstrip().removesuffix(","))
    except (OSError, ValueError, RecursionError) as error:
        raise SinceError(f"{file} can't be read as an earlier review: {_words(error)}") from None


def _whole(file: Path) -> list[Old]:
    try:
        data = json.loads(file.read_text("utf-8-sig"))
        runs = [run for run in data["runs"] if run["tool"]["driver"]["name"] == "riglint"]
        results = [result for run in runs for result in run.get("results") or () if isinstance(result, dict)]
    except (OSError, ValueError, RecursionError, KeyError, TypeError) as error:
        raise SinceError(f"{file} is no SARIF log that can be read: {_words(error)}") from None
    if not runs:
        raise SinceError(f"{file} has no run of this program in it")
    return sorted(results, key=_uri)


def _words(error: Exception) -> str:
    return " ".join(f"{type(error).__name__}: {getattr(error, 'strerror', None) or error}".split())
