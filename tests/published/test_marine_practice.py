"""MGN 308 (M+F) 2.1, read second hand, and TB 55-1900-232-10 D-14: factors on rope and on shackles."""

import pytest

from riglint.mechanics.capacity import working_load_n
from riglint.rulebook.find import standard_rulebook

LIMITS = standard_rulebook().limits


@pytest.mark.parametrize(
    ("rule", "factor"),
    [
        ("rope-twice-winch-pull", "times"),
        ("working-load", "fibre_rope"),
        ("working-load", "stall"),
        ("join-strength", "fibre_rope"),
        ("join-strength", "stall"),
        ("anchor-rating", "stall"),
        ("unequal-anchors", "strength"),
    ],
)
def test_rope_for_a_ten_tonne_winch(rule: str, factor: str) -> None:
    # MGN 308: 10 t winch, rope of 20 t or more; the stall below half of the weakest element's strength
    assert working_load_n(20.0, LIMITS[rule][factor]) <= 10.0


def test_pads_at_the_least_that_the_navy_has() -> None:
    # TB 55-1900-232-10 table 5-4: pads 3 behind an automatic towing machine, 5 on a brake, 7 on a pawl or hook
    assert LIMITS["anchor-rating"]["steady"] >= min(3, 5, 7)


def test_shackle_by_its_proof_load() -> None:
    # TB 55-1900-232-10 D-14: tow resistance 80,000 lb, factor 3 on proof: 240,000 lb (computed from the page)
    assert working_load_n(240_000, 3.0) == pytest.approx(80_000)
