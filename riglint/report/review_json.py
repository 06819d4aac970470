"""A review as JSON: follows schemas/review.schema.json. One plan a line, so that parts of a review can be merged
without holding them in memory; it has everything that the other forms show.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from riglint.report.compact import compact
from riglint.report.reviewed import Reviewed, Tally, Whole
from riglint.report.spool import Spool


class JsonForm:
    """The form `json`."""

    def part(self, one: Reviewed, rule_index: dict[str, int]) -> tuple[str, ...]:
        """The record, under the plan's name."""
        return (compact({"file": one.name, "uri": one.uri, **one.record}),)

    def whole(self, whole: Whole, spool: Spool) -> Iterator[str]:
        """Head, plans and summary."""
        about = {"review": 1, **whole.about} | ({"slice": whole.slice} if whole.slice else {})
        yield compact(about)[:-1] + ',"plans":[\n'
        comma = ""
        for text in spool.in_order(0):
            yield comma + text
            comma = ",\n"
        yield '\n],"summary":' + compact(summary(whole.tally)) + "}\n"


def summary(tally: Tally) -> dict[str, Any]:
    """The tally as plain data."""
    rules = [
        {
            "rule": r.rule, "failed": r.failed, "cant_tell": r.cant_tell, "waived": r.waived, "new_or_worse": r.new,
            "plans": r.plans,
        }
        for r in tally.by_rule()
    ]  # fmt: skip
    return {
        "plans": tally.plans,
        "verdicts": dict(sorted(tally.verdicts.items())),
        "rules": rules,
        "gone": tally.gone,
        "exit_code": tally.code,
    }
