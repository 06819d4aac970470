"""What is past a limit by rounding alone is at it, for grades as for verdicts; what is past it by a hair is past it.

Each plan sits a trillionth past the limit of the graver grade, as a sum of a few floats may come out, and then a
thousandth.
"""

from __future__ import annotations

import pytest

from riglint.outcome import Grade, Outcome, Result
from riglint.plan.load import load_plan
from riglint.rulebook.find import standard_rulebook
from riglint.rulebook.inspect import apply
from riglint.rulebook.limits import Limits
from riglint.solve.solve import solve

BOOK = standard_rulebook()
HAIRS = (1e-12, 1e-3)
HMPE_SOFTENS = 144.0  # degC, from memory, as in `mechanics.heat`

STRAIGHT = """
rig_plan: 1
title: a straight pull of 20 m
bodies:
  van:
    {{moves: {{distance: 3 m, bearing: 0 deg}}, weight: 2 t, ground: {{slope: 0 deg}},
     resistance: {{steady: {steady} kN}}}}
  truck: {{weight: 8 t}}
points:
  eye: {{on: van, at: [0 m, 0 m]}}
  nose: {{on: truck, at: [{nose}]}}
winch: {{mounted: nose, rated_pull: 20 kN, rated_layer: 1, stall_pull: {stall} kN}}
lines:
  haul:
    pieces: [a: {{rope: hmpe, length: 12 m, {rope}}}, join: {{{join}}}, b: {{rope: hmpe, length: 48 m, {rope}}}]
    path: [winch, [link, eye]]
connectors: {{link: {{kind: bow shackle, working_load: {link} kN}}}}
people: [{{who: somebody, at: [{person}]}}]
dampers: []
"""
SOUND = {
    "steady": 20, "nose": "20 m, 0 m", "stall": 25, "rope": "breaking: 900 kN", "join": "kind: splice", "link": 900,
    "person": "10 m, 90 m",
}  # fmt: skip

RING = """
rig_plan: 1
title: two parts through a ring
bodies: {{van: {{moves: {{distance: 3 m, bearing: 0 deg}}, weight: 5 t, resistance: {{steady: 40 kN}}}}}}
points:
  eye: {{on: van, at: [0 m, 0 m]}}
  mount: {{on: ground, at: [20 m, 0 m]}}
  oak: {{on: ground, at: [20 m, 0 m]}}
winch: {{mounted: mount, rated_pull: 40 kN, rated_layer: 1, stall_pull: 50 kN}}
lines: {{haul: {{pieces: [main: {{rope: hmpe, diameter: {diameter:.14f} mm, length: 43 m}}],
               path: [winch, ring.groove, oak]}}}}
redirects: {{ring: {{kind: ring, loss: 30 %, hung_from: [eye], hung_through: bore, groove: {{opening: 10 mm}}}}}}
"""


def judged(slug: str, text: str, limits: Limits | None = None) -> Outcome:
    rule = BOOK.rule(slug)
    assert rule is not None
    outcome = apply(rule, solve(load_plan(text, "plan").rig), limits or BOOK.limits[slug])
    assert not outcome.reason
    return outcome


def gravest(slug: str, **facts: object) -> Grade:
    outcome = judged(slug, STRAIGHT.format(**SOUND | facts))
    return min((f.grade for f in outcome.findings if f.result is Result.FAILED), key=tuple(Grade).index)


@pytest.mark.parametrize(
    ("slug", "fact", "value", "grades"),
    [
        # 25 kN at stall: twice a mark of 12.5 kN, three quarters of a strength of 33.3 kN.
        ("working-load", "link", lambda hair: 12.5 / (1 + hair), (Grade.WARNING, Grade.DANGER)),
        ("working-load", "rope", lambda hair: f"breaking: {25 / 0.75 / (1 + hair):.14f} kN",
         (Grade.WARNING, Grade.DANGER)),
        ("join-strength", "join", lambda hair: f"kind: shackle, breaking: {25 / 0.75 / (1 + hair):.14f} kN",
         (Grade.WARNING, Grade.DANGER)),
        ("join-strength", "join", lambda hair: f"kind: splice, keeps: {100 * 25 / 675 / (1 + hair):.14f} %",
         (Grade.WARNING, Grade.DANGER)),
        # 20 kN as expected, and 20 kN at stall: half of 40 kN, where only a lifting factor asks for more.
        ("join-strength", "join", lambda hair: f"kind: shackle, breaking: {40 / (1 + hair):.14f} kN",
         (Grade.CAUTION, Grade.WARNING)),
        # Half a right angle off the way, at the end of the travel.
        ("pull-off-line", "nose", lambda hair: f"23 m, {20 * (1 + hair):.14f} m", (Grade.CAUTION, Grade.WARNING)),
        # The leg is 20 m long: within one length of it, and past its end by one length.
        ("stand-off", "person", lambda hair: f"10 m, {20 / (1 + hair):.14f} m", (Grade.NOTICE, Grade.CAUTION)),
        ("people-clear", "person", lambda hair: f"{20 + 20 / (1 + hair):.14f} m, 0 m", (Grade.CAUTION, Grade.DANGER)),
    ],
)  # fmt: skip
def test_rounding_makes_no_finding_graver(slug, fact, value, grades) -> None:
    stall = {"stall": 20} if Grade.CAUTION in grades and fact == "join" else {}
    assert tuple(gravest(slug, **stall, **{fact: value(hair)}) for hair in HAIRS) == grades


def test_rounding_melts_no_rope() -> None:
    text = RING.replace("groove: {{opening: 10 mm}}", "groove: {{tread: 80 mm}}").format(diameter=10)
    [check] = judged("friction-heat", text).checks
    assert check.measured is not None
    for past, grade in ((1e-11, Grade.CAUTION), (0.1, Grade.WARNING)):
        air = 30.0 + HMPE_SOFTENS - check.measured + past
        limits = BOOK.limits["friction-heat"].set("air", f"{air:.13f} degC", "a test")
        assert [finding.grade for finding in judged("friction-heat", text, limits).findings] == [grade]


@pytest.mark.parametrize(("hair", "result"), [(1e-12, Result.CANT_TELL), (1e-3, Result.FAILED)])
def test_rope_that_just_goes_in_is_asked_for_its_groove_all_the_same(hair: float, result: Result) -> None:
    [check] = judged("groove-fit", RING.format(diameter=10 * (1 + hair))).checks
    assert check.result is result
