"""TM 5-3810-305-10 table 4 p. 4-36: terminal efficiency of wire rope, percent."""

import pytest

from riglint.mechanics.joins import join_factor

ROWS = [  # termination, steel core low and high, fibre core low and high
    ("poured socket", 100, 100, 100, 100),
    ("pressed sleeve", 95, 95, 92.5, 92.5),
    ("hand-tucked thimble splice", 86, 86, 86, 86),
    ("wedge socket", 75, 95, 75, 95),
    ("clips", 80, 80, 80, 80),
]


@pytest.mark.parametrize(("kind", "iwrc_low", "iwrc_high", "fc_low", "fc_high"), ROWS)
def test_terminations(kind: str, iwrc_low: float, iwrc_high: float, fc_low: float, fc_high: float) -> None:
    steel, fibre = join_factor(kind, "wire, independent core"), join_factor(kind, "wire, fibre core")
    assert steel is not None
    assert fibre is not None
    assert (steel.low * 100, steel.high * 100) == pytest.approx((iwrc_low, iwrc_high))
    assert (fibre.low * 100, fibre.high * 100) == pytest.approx((fc_low, fc_high))


def test_swaged_socket_has_no_figure_on_a_fibre_core() -> None:
    steel = join_factor("swaged socket", "wire, independent core")
    assert steel is not None
    assert (steel.low, steel.high) == (0.95, 0.95)
    assert join_factor("swaged socket", "wire, fibre core") is None
