"""What the lines at the top say, in the words that somebody beside the rig reads."""

from pathlib import Path

import pytest

from riglint.outcome import Grade
from riglint.plan.load import load_plan
from riglint.report.foreman import foreman
from riglint.report.material import Inspected
from riglint.report.summary import summaries
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import inspect
from riglint.rulebook.sources import Sources
from riglint.shipped import shipped
from riglint.solve.solve import solve

LOADER = """
rig_plan: 1
title: two parts, the drum fills on the way
reports_in: imperial
bodies:
  loader: {moves: {distance: 20 ft, bearing: 0 deg}, resistance: {steady: 12000 lbf}}
  wrecker: {weight: 50000 lb}
points:
  eye: {on: loader, at: [0 ft, 0 ft], rated: 30000 lbf}
  mount: {on: wrecker, at: [60 ft, 0 ft], rated: 30000 lbf}
  tail: {on: wrecker, at: [60 ft, 0 ft], rated: 20000 lbf}
winch: {mounted: mount, rated_pull: 12000 lbf, rated_layer: 1, STALL
  drum: {diameter: 4 in, width: 9 in}, fairlead: {from_drum: 1 ft}}
lines:
  haul: {pieces: [main: {rope: wire, diameter: 1/2 in, length: 200 ft}], path: [winch, block.sheave, tail]}
redirects: {block: {kind: block, loss: 0 %, hung_from: [eye], sheave: {tread: 10 in}}}
"""


def top(text: str, label: str) -> str:
    loaded = load_plan(text, "plan.yaml")
    solution, book = solve(loaded.rig), standard_rulebook()
    inspection = inspect(solution, book, Grade.WARNING)
    (summary,) = summaries(solution.stages, inspection)
    case = Inspected("plan.yaml", loaded.document, solution, inspection, book, Sources([shipped("rules")]))
    lines = foreman(summary, case, of_several=False)
    first = next(i for i, line in enumerate(lines) if line.startswith(f"  {label} "))
    rows = [lines[first], *(line for line in lines[first + 1 : first + 3] if line.startswith("     "))]
    return " ".join(" ".join(rows).split()).removeprefix(f"{label} ")


def test_the_line_pull_is_told_by_both_methods_and_from_the_fullest_drum_to_the_emptiest():
    """Two parts without loss: 6,000 lbf; field manuals add a tenth for the sheave: 12,000 x 1.1 / 2 = 6,600 lbf.

    18 wraps of pi x 4.5, 5.5, 6.5, 7.5 and 8.5 in are 21.2, 25.9, 30.6, 35.3 and 40.1 ft. At first 200 - 120 - 1 =
    79 ft are on the drum, on layer 4; at the end 40 ft more, on layer 5: 13,000 lbf x 4.5 / 7.5 = 7,800, and x 4.5 /
    8.5 = 6,882.
    """
    assert top(LOADER.replace("STALL", "stall_pull: 13000 lbf,"), "Line pull") == (
        "needs 6000 lbf at the worst, 6600 lbf as field manuals reckon; the winch can pull 6880 lbf to 7800 lbf before "
        "it stalls"
    )


def test_a_rated_pull_is_not_told_as_where_the_winch_stalls():
    """12,000 lbf x 4.5 / 8.5 = 6,353 lbf are rated at the end; a winch pulls more than that before it stalls."""
    assert top(LOADER.replace("STALL", ""), "Line pull").endswith(
        "; the winch can pull 6350 lbf or more: where it stalls isn't stated"
    )


@pytest.mark.parametrize(("case", "holds"), [("on-the-second-layer", "21.7 kN"), ("of-20-kn", "16.7 kN")])
def test_the_brake_is_told_as_it_holds_on_the_fullest_drum(case, holds):
    """100 mm over 120 mm: 26 kN on the first layer are 21.7 kN on the second, and 20 kN are 16.7 kN."""
    text = (Path(__file__).parents[1] / f"rules/brake_holds/fail-brake-{case}.yaml").read_text()
    assert top(text, "Line pull") == f"needs 23.5 kN at the worst; the winch's brake holds {holds}"


DOWNHILL = """
rig_plan: 1
title: a van hauled downhill
bodies:
  van:
    {moves: {distance: 6 m, bearing: 0 deg}, weight: 2 t,
     ground: {surface: hard road, mired: none, slope: 12 deg down}}
points:
  eye: {on: van, at: [0 m, 0 m], rated: 30 kN}
  mount: {on: ground, at: [20 m, 0 m], rated: 60 kN}
winch: {mounted: mount, rated_pull: 20 kN, rated_layer: 1, stall_pull: 22 kN}
lines:
  haul: {pieces: [main: {rope: wire, diameter: 12 mm, length: 40 m}], path: [winch, eye]}
"""


def test_a_load_that_goes_by_itself_needs_no_pull_and_any_is_a_reason_to_stop() -> None:
    assert top(DOWNHILL, "Line pull").startswith("needs none: the load goes by itself; ")
    assert top(DOWNHILL, "Stop at").endswith("where the line pulls, something holds it: stop and look")


def test_grip_that_is_not_known_is_not_counted_and_the_headline_says_so():
    facts = "ground: {slope: 0 deg, surface: gravel, grip: 0.7}, secured: [brakes]"
    known = LOADER.replace("STALL", "stall_pull: 13000 lbf,").replace("weight: 50000 lb", f"weight: 50000 lb, {facts}")
    unknown = known.replace(", grip: 0.7", "")
    assert "not counted" not in top(known, "First past its load")
    assert "as far as is known" not in top(known, "Stop at")
    assert top(unknown, "First past its load").endswith("; not counted, for want of facts: body wrecker (grip)")
    assert "lbf, as far as is known" in top(unknown, "Stop at")


def test_a_point_without_a_rating_is_not_counted_either():
    text = LOADER.replace("STALL", "stall_pull: 13000 lbf,").replace(", rated: 20000 lbf", "")
    assert "point tail (working load)" in top(text, "First past its load")
