"""MGN 308 (M+F) 2.1, read second hand, and TB 55-1900-232-10 D-14: factors on rope and on shackles."""

import pytest

from riglint.mechanics.capacity import working_load_n


def test_rope_for_a_ten_tonne_winch() -> None:
    assert working_load_n(20.0, 2.0) == pytest.approx(10.0)  # MGN 308: 10 t winch, rope of 20 t or more


def test_shackle_by_its_proof_load() -> None:
    # TB 55-1900-232-10 D-14: tow resistance 80,000 lb, factor 3 on proof: 240,000 lb (computed from the page)
    assert working_load_n(240_000, 3.0) == pytest.approx(80_000)
