"""EN 12385-4: MBF = K d^2 R_r, K 0.356 with a steel core, 0.330 with fibre; FROM MEMORY.

kN at 1770 N/mm2, computed by it.
"""

import pytest

from riglint.mechanics.strength import wire_breaking_n


@pytest.mark.parametrize(
    ("millimetres", "kilonewtons"),
    [(8, 40.3), (9, 51.0), (10, 63.0), (11, 76.2), (12, 90.7), (13, 106), (14, 124), (16, 161), (20, 252)],
)
def test_minimum_breaking_force(millimetres: int, kilonewtons: float) -> None:
    figure = wire_breaking_n(millimetres / 1000, 1770e6, fibre_core=False)
    assert figure.value / 1000 == pytest.approx(kilonewtons, rel=0.005)
    assert figure.trust == "from memory"


@pytest.mark.parametrize(("millimetres", "kilonewtons"), [(8, 37.4), (10, 58.4), (12, 84.1), (16, 150), (20, 234)])
def test_minimum_breaking_force_with_a_fibre_core(millimetres: int, kilonewtons: float) -> None:
    figure = wire_breaking_n(millimetres / 1000, 1770e6, fibre_core=True)
    assert figure.value / 1000 == pytest.approx(kilonewtons, rel=0.005)
    assert figure.trust == "from memory"
