"""Stronger gear comes from the kit, and only what is fit to be used."""

from tests.remedy.cases import changed, does_what_it_says
from tests.remedy.kits import with_kit

BOWS = """
  B-1: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 60 kN, basis: mark}
  B-2: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 120 kN, basis: mark}
  B-3: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 95 kN, basis: mark}
  B-4: {is: connector, kind: bow shackle, length: 0.1 m, working_load: 94 kN, basis: mark, retired: bent}
  S-1: {is: connector, kind: soft shackle, length: 0.1 m, working_load: 400 kN, basis: mark}
"""


def test_the_weakest_shackle_that_serves_is_taken():
    case = with_kit("fruit-truck", BOWS)
    kit = [r for r in case.of("working-load") if r.way == "gear from kit"]
    assert [dict(r.terms)["gear"] for r in kit] == ["B-3"]
    does_what_it_says(case, kit[0])
    assert changed(case, kit[0]).loaded.plan.connectors["bow_b"].working_load.low == 95_000.0


def test_gear_that_is_in_the_rig_is_not_to_be_had():
    case = with_kit("fruit-truck", BOWS.replace("B-3", "B-9").replace("95 kN", "47 kN"))
    for remedy in case.of("working-load"):
        assert dict(remedy.terms).get("gear") in (None, "B-2")


def test_every_remedy_with_a_kit_does_what_it_says():
    ropes = "  R-1: {is: piece, rope: hmpe, diameter: 11 mm, length: 12 m, breaking: 115 kN, ends: spliced eye}\n"
    blocks = (
        "  K-1: {is: redirect, kind: block, loss: 4 %, sheave: {tread: 150 mm, groove_for: 10 mm to 14 mm,"
        " rated: 120 kN, rated_for: line}}\n"
    )
    for plan in ("fruit-truck", "three-parts-short-line", "small-winch-tow-eye"):
        case = with_kit(plan, BOWS + ropes + blocks)
        for remedy in case.remedies():
            does_what_it_says(case, remedy)


def test_a_longer_rope_of_the_kit_takes_the_place_of_one_that_is_too_short():
    """The next longer one that leaves enough wraps, and no join in the line; a shorter one is none."""
    ropes = "".join(
        f"  R-{m}: {{is: piece, rope: hmpe, diameter: 12 mm, length: {m} m, breaking: 150 kN, ends: spliced eye, "
        "basis: mark}\n" for m in (40, 90, 200)
    )  # fmt: skip
    case = with_kit("three-parts-short-line", ropes)
    swapped = [r for r in case.remedies() if r.way == "longer piece from kit"]
    assert {dict(r.terms)["gear"] for r in swapped} == {"R-90"}
    for remedy in swapped:
        does_what_it_says(case, remedy)
    pieces = changed(case, swapped[0]).loaded.plan.lines["haul"].pieces
    assert len(pieces) == 1
