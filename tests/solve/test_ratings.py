"""What gear may carry as the plan states it, and what is left open where it does not."""

from __future__ import annotations

import pytest

from riglint.plan.load import load_plan
from riglint.reading.quantity import Span
from riglint.solve.hangers import links
from riglint.solve.rated import says_type_approved
from riglint.solve.ratings import capacity, rating_of
from riglint.solve.solve import solve
from riglint.solve.strains import strains

PLAN = """
rig_plan: 1
title: two parts
bodies:
  van:
    {{moves: {{distance: 3 m, bearing: 0 deg}}, weight: 2 t, ground: {{slope: 0 deg}},
     resistance: {{steady: 10 kN}}}}
  truck: {{weight: 8 t}}
points: {{eye: {{on: van, at: [0 m, 0 m]}}, nose: {{on: truck, at: [20 m, 0 m]}}}}
winch: {{mounted: nose, rated_pull: 20 kN, rated_layer: 1, stall_pull: 25 kN}}
lines:
  haul: {{pieces: [mainline: {{rope: hmpe, length: 60 m, breaking: 200 kN}}], path: [winch, block.sheave, nose]}}
redirects: {{block: {{kind: block, loss: 4 %, hung_from: [gear, eye], sheave: {{rated: 60 kN{rated_for}}}}}}}
connectors: {{gear: {{{gear}}}}}
"""


def stage(gear: str, rated_for: str = ""):  # type: ignore[no-untyped-def]
    return solve(load_plan(PLAN.format(gear=gear, rated_for=rated_for), "plan").rig).stages[0]


@pytest.mark.parametrize(
    ("gear", "share", "missing"),
    [
        ("kind: bow shackle, working_load: 1 kN", (1.0, 1.0), False),
        ("kind: bow shackle, working_load: 1 kN, off_line: 45 deg", (0.7, 0.7), False),
        ("kind: bow shackle, working_load: 1 kN, off_line: 91 deg", (0.0, 0.0), False),
        ("kind: sling, working_load: 1 kN, wrapped: choked", (0.75, 0.75), False),
        ("kind: sling, working_load: 1 kN, wrapped: basket, leg_angle: 120 deg", (1.0, 1.0), False),
        ("kind: sling, working_load: 1 kN, wrapped: basket, leg_angle: 180 deg", (0.0, 0.0), False),
        ("kind: sling, working_load: 1 kN, wrapped: basket", (0.0, 2.0), True),
        ("kind: sling, working_load: 1 kN", (0.0, 2.0), True),
        ("kind: soft shackle, working_load: 1 kN", (1.0, 1.0), False),
    ],
)
def test_what_a_hitch_or_a_side_load_leaves(gear: str, share: tuple[float, float], missing: bool) -> None:
    solved = stage(gear)
    rating = rating_of(solved.component("connector", "gear"))
    assert rating is not None
    assert rating.share == pytest.approx(Span(*share))
    assert bool(rating.missing) is missing


def test_a_rating_says_whether_it_counts_the_line_or_the_resultant() -> None:
    def stall(rated_for: str):  # type: ignore[no-untyped-def]
        solved = stage("kind: bow shackle, working_load: 60 kN", rated_for)
        return next(s.stall for s in strains(solved) if s.kind == "seat")

    line, resultant, either = stall(", rated_for: line"), stall(", rated_for: resultant"), stall("")
    assert line.most_n == pytest.approx(25_000.0)
    assert resultant.most_n == pytest.approx(50_000.0)
    assert (either.least_n, either.most_n) == (line.least_n, resultant.most_n)


def test_an_unstated_kind_is_held_to_the_hardest_factor_and_the_mildest() -> None:
    rating = rating_of(stage("breaking: 70 kN").component("connector", "gear"))
    assert rating is not None
    may = capacity(rating, [7.0, 5.0])
    assert may is not None
    assert may.low_n < may.high_n
    assert rating.missing == ("connectors/gear: kind",)


def test_every_connector_in_use_is_met_with_what_it_hangs() -> None:
    [link] = links(stage("kind: bow shackle, working_load: 60 kN"))
    assert link.connector.name == "gear"
    assert link.hung.redirect is not None
    assert link.before is None
    assert link.beyond is None


@pytest.mark.parametrize(
    ("basis", "approved"),
    [
        ("type approval", True),
        ("Type-approved", True),
        ("EC type approval e1*2007/46*0123*05", True),
        ("Regulation (EU) No 1005/2010", True),
        (None, False),
        ("", False),
        ("e1*2007/46*0123*05", False),  # of what?
        ("plate", False),
        ("no type approval", False),
        ("not type-approved", False),
        ("type approval?", False),
        ("type approval, I think", False),
        ("older than (EU) 1005/2010", False),
        ("(EU) 1005/2011", False),
    ],
)
def test_a_basis_says_that_a_vehicle_was_approved_in_no_more_words_than_that(basis: str | None, approved: bool) -> None:
    assert says_type_approved(basis) is approved
