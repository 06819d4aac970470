"""FM 5-125 (rigging): every figure here is FROM MEMORY, not re-read."""

from math import atan

import pytest

from riglint.mechanics import deadman
from riglint.mechanics.constants import M_PER_FOOT, M_PER_INCH, N_PER_LBF, PA_PER_PSF
from riglint.mechanics.pickets import picket_holdfast
from riglint.mechanics.thumb import thumb_working_n

FT = M_PER_FOOT


@pytest.mark.parametrize(("arrangement", "pounds"), [("1-1", 1_400), ("2-1", 2_000)])  # from memory
def test_picket_holdfasts_in_between(arrangement: str, pounds: int) -> None:
    figure = picket_holdfast(arrangement, "us", "undisturbed loam")
    assert figure.value / N_PER_LBF == pytest.approx(pounds)
    assert figure.trust == "from memory"


@pytest.mark.parametrize(
    ("soil", "factor"),
    [("wet clay and gravel", 0.9), ("wet river clay and sand", 0.5)],  # from memory
)
def test_wet_earth(soil: str, factor: float) -> None:
    figure = picket_holdfast("3-2-1", "us", soil)
    assert figure.value / N_PER_LBF == pytest.approx(4_000 * factor)
    assert figure.trust == "from memory"


def test_timber_deadman() -> None:
    # From memory: 1 in rope breaking 83,600 lb, 7 ft deep, 1:3 -> 8,000 psf; area 10.45 sq ft (printed 10.5);
    # face 1.5 ft -> 7 ft that bears; trench 2 ft -> 9 ft; thickness at least 9/9 = 1 ft.
    power = deadman.deadman_holding_pa(7 * FT, atan(1 / 3), "loam")
    assert power is not None
    assert power.value / PA_PER_PSF == pytest.approx(8_000)
    length_m = deadman.deadman_length_m(83_600 * N_PER_LBF, power.value, 1.5 * FT, deadman.TRENCH_FM.value)
    assert length_m / FT == pytest.approx(9.0, abs=0.05)
    assert deadman.deadman_slenderness_ratio(9 * FT, 1 * FT) <= deadman.SLENDERNESS["timber"].value


def test_log_deadman() -> None:
    # From memory: diameter 2.5 ft: 10.5 / 2.5 = 4.2 ft; + 2 = 6.2 ft; 6.2 / 2.5 = 2.5, within 5
    length_m = deadman.deadman_length_m(83_600 * N_PER_LBF, 8_000 * PA_PER_PSF, 2.5 * FT, 2 * FT)
    assert length_m / FT == pytest.approx(6.2, abs=0.05)
    assert deadman.deadman_slenderness_ratio(length_m, 2.5 * FT) == pytest.approx(2.5, abs=0.05)


@pytest.mark.parametrize(
    ("item", "inches", "pounds"),
    [("chain", 0.75, 9_000), ("manila", 0.5, 500)],  # from memory: 4.5 tons; 0.25 ton
)
def test_rules_of_thumb(item: str, inches: float, pounds: int) -> None:
    figure = thumb_working_n(item, inches * M_PER_INCH)
    assert figure is not None
    assert figure.value / N_PER_LBF == pytest.approx(pounds)


def test_hook_takes_the_lower_of_two_rules() -> None:
    # From memory: FM 5-125 D^2 tons, 1 1/4 in 3,125 lb; NAVEDTRA 2/3 D^2. Ours is the lower.
    figure = thumb_working_n("hook", 1.25 * M_PER_INCH)
    assert figure is not None
    assert figure.value / N_PER_LBF == pytest.approx(3_125 * 2 / 3)
