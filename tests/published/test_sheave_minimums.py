"""Least sheave by rope diameter: NAVEDTRA 14081 p. 13-8, TB 43-0142 table A-1, UFGS 14636N, ILO dock work."""

import pytest

from riglint.mechanics.bend import bend_demand


@pytest.mark.parametrize(
    ("construction", "diameters"),
    # TB 43-0142 table A-1, the critical diameter, which is the smaller of two; NAVEDTRA 14081 for rope in general
    [
        ("6x19 seale", 20),
        ("6x19 warrington", 16),
        ("6x16", 16),
        ("8x19", 16),
        ("8x19 warrington", 14),
        ("6x37", 14),
        (None, 20),
    ],
)
def test_running_wire(construction: str | None, diameters: int) -> None:
    assert bend_demand("wire", 0.2, moving=True, construction=construction).value == diameters


def test_half_inch_6x37() -> None:
    # TB 43-0142 prints two figures, 18 d (14 d), and works out 18 x 1/2 in = 9 in; ours is the smaller.
    demand = bend_demand("wire", 0.2, moving=True, construction="6x37").value
    assert demand * 0.5 == pytest.approx(7.0)


def test_equalizer() -> None:
    assert bend_demand("wire", 1.0, moving=False).value == 12  # UFGS 14636N 2.3.3


def test_fibre_at_half_its_strength() -> None:
    # ILO dock work 12.1.2: sheave of a fibre rope block at least 5.5 rope diameters
    assert bend_demand("fibre", 0.5, moving=True).value == pytest.approx(5.5)
