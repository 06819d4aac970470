"""Whatever stands in a file, loading it ends soon, with a rig or with problems, and never with anything else."""

import time

import pytest

from riglint.plan.faults import MOST_PROBLEMS
from riglint.plan.load import load_plan
from riglint.reading.problems import Problem, ReadingFailed
from tests.plan.mutants import mutant

SLOWEST_S = 60.0  # a hang, not a slow machine
QUICK, THOROUGH, AT_ONCE = 300, 5000, 1250


def outcome(source: bytes) -> bool:
    """Whether the plan loads; the time it takes is bounded."""
    began = time.perf_counter()
    problems = problems_of(source)
    assert time.perf_counter() - began < SLOWEST_S
    assert len(problems) <= 2 * MOST_PROBLEMS
    assert all(p.line >= 1 and p.column >= 1 and p.what and p.serves for p in problems)
    assert all("\n" not in p.text() for p in problems)
    return not problems


def problems_of(source: bytes) -> tuple[Problem, ...]:
    try:
        load_plan(source, "plan.yaml")
    except ReadingFailed as failed:
        return failed.problems
    return ()


def run(seeds: range) -> None:
    loaded = sum(outcome(mutant(seed)) for seed in seeds)
    assert 0 < loaded < len(seeds), "spoils that never or always show test nothing"


def test_a_few_spoilt_plans():
    run(range(QUICK))


@pytest.mark.slow
@pytest.mark.parametrize("first", range(QUICK, QUICK + THOROUGH, AT_ONCE))
def test_many_spoilt_plans(first):
    run(range(first, first + AT_ONCE))


def many(count: int, entry: str) -> str:
    return ", ".join(entry.replace("N", str(i)) for i in range(count))


HEAD = "rig_plan: 1\ntitle: t\nwinch: {mounted: p0}\n"
LOAD = "bodies: {b: {moves: {distance: 1 m, bearing: 0 deg}}}\n"


@pytest.mark.parametrize(
    "text",
    [
        HEAD + LOAD + "lines: {l: {pieces: [{a: {}}], path: [winch, p1]}}\npoints: {"
        + many(20_000, "pN: {on: b, at: [0 m, 0 m]}") + "}",
        HEAD + LOAD + "points: {" + many(20_000, "pN: {}") + "}",
        HEAD + LOAD + "points: {}\nlines: {}\n" + "\n".join(f"k{i}: 1" for i in range(50_000)),
        HEAD + LOAD + "lines: {l: {pieces: [{a: {}}], path: [winch, p1]}}\npoints: {"
        + many(299, "pN: {on: b, at: 1 m bearing 0 deg from q" + "N" * 20 + "}") + "}",
        HEAD + LOAD + "lines: {l: {pieces: [{a: {}}], path: [winch, p0]}}\npoints: {p0: {on: b, at: [0 m, 0 m]}, "
        + many(298, "qN: {on: b, at: 1 m bearing 0 deg from pN}") + "}",
        "[" * 100_000,
        "a: " * 1000,
        "- " * 60_000,
    ],
    ids=["points", "nothings", "keys", "strangers", "chain", "brackets", "colons", "dashes"],
)  # fmt: skip
def test_a_huge_plan_is_told_off_soon(text):
    assert not outcome(text.encode())


def test_a_long_chain_of_places_is_followed_to_its_end():
    """Each point from the one before, the last of three hundred first: no depth of calls runs out."""
    points = ", ".join(f"p{i}: {{on: ground, at: 0.1 m bearing 0 deg from p{i - 1}}}" for i in range(298, 0, -1))
    text = HEAD + LOAD + f"points: {{{points}, p0: {{on: b, at: [0 m, 0 m]}}}}\n"
    text = text.replace("mounted: p0", "mounted: p298")
    assert outcome((text + "lines: {l: {pieces: [{a: {}}], path: [winch, p0]}}").encode())
