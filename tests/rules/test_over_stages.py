"""A job in two stages that are rigged alike: a rule that is to say a thing once would else say it for each of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from riglint.outcome import Check, Result
from riglint.plan.plan import Plan
from riglint.plan.quick import make_ready
from riglint.reading.document import read_document
from riglint.rig.resolve import resolve
from riglint.rulebook.rule import Rule
from riglint.solve.solution import Solution
from riglint.solve.solve import solve
from tests.rules.says import book

# Of people, papers and gear as it is put together: what a stage does not change.
ONCE = {
    "between-load-and-anchor", "block-mark", "groove-fit", "operator-place", "people-clear", "pin-bears-on-rope",
    "recovery-strap", "seat-loading", "shackle-bow-angle", "shackle-off-line", "signals-agreed", "sling-angle",
    "slings-end-to-end", "soft-shackle-on-edge", "stand-off", "steel-in-path",
}  # fmt: skip
# What has figures of its own in each stage, so that little is alike: the longest leg, the angle of a turn.
BY_FIGURES = {"stand-off", "block-mark"}


@cache
def staged(path: Path) -> Solution | None:
    """A case done in two stages of half its travel each; None where it has stages, stops or gear from a kit already."""
    text = path.read_bytes()
    data: Any = read_document(text, path.name).data
    if "stages" in data or "stops" in data or b"from_kit" in text:
        return None
    moves = next(body["moves"] for body in data["bodies"].values() if "moves" in body)
    metres = float(moves["distance"].split()[0])
    half = {key: moves[key] for key in ("bearing", "climb") if key in moves} | {"distance": f"{metres / 2} m"}
    data["stages"] = [{"name": name, "moves": half} for name in ("first", "second")]
    moves["distance"] = f"{metres} m"
    make_ready()
    return solve(resolve(Plan.model_validate(data)))


def repeats(rule: Rule) -> bool:
    """Whether the rule by itself says the same of both stages of some case."""
    folder = Path(__file__).parent / rule.slug.replace("-", "_")
    solutions = [found for path in sorted(folder.glob("*.yaml")) if (found := staged(path))]
    return any(n > 1 for solution in solutions for n in _alike(rule.check(solution, book().limits[rule.slug])).values())


def _alike(checks: Iterator[Check]) -> Counter[object]:
    found = [check for check in checks if check.result is not Result.PASSED]
    return Counter(check._replace(where=check.where._replace(stage=0, travel_m=None), working=()) for check in found)


@pytest.mark.parametrize("slug", sorted(ONCE))
def test_what_would_be_said_of_each_stage_is_said_once(slug: str) -> None:
    rule = book().rule(slug)
    assert rule is not None
    assert rule.once
    assert repeats(rule) or slug in BY_FIGURES
