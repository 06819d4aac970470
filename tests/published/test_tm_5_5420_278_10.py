"""TM 5-5420-278-10 table 9 pp. 0035 00-22 and -23: holding power of deadmen in loam, lb per sq ft."""

from math import atan, pi

import pytest

from riglint.mechanics import deadman
from riglint.mechanics.constants import M_PER_FOOT, N_PER_LBF, PA_PER_PSF

SLOPES = {"vertical": pi / 2, "1:1": atan(1), "1:2": atan(1 / 2), "1:3": atan(1 / 3), "1:4": atan(1 / 4)}
ROWS = [  # the vertical column is from memory (FM 5-125); 7 ft at 1:2 is garbled in the scan, from memory
    (3, (600, 950, 1_300, 1_450, 1_500)),
    (4, (1_050, 1_750, 2_200, 2_600, 2_700)),
    (5, (1_700, 2_800, 3_600, 4_000, 4_100)),
    (6, (2_400, 3_800, 5_100, 5_800, 6_000)),
    (7, (3_200, 5_100, 7_000, 8_000, 8_400)),
]
CELLS = [(feet, s, psf) for feet, row in ROWS for s, psf in zip(SLOPES, row, strict=True)]


@pytest.mark.parametrize(("feet", "slope", "psf"), CELLS)
def test_printed_cells(feet: int, slope: str, psf: int) -> None:
    figure = deadman.deadman_holding_pa(feet * M_PER_FOOT, SLOPES[slope], "loam")
    assert figure is not None
    assert figure.value / PA_PER_PSF == pytest.approx(psf)
    assert figure.trust == ("from memory" if slope == "vertical" or (feet, slope) == (7, "1:2") else "read")


@pytest.mark.parametrize(("feet", "rise", "trust"), [(6.5, 0.5, "from memory"), (6.5, 1 / 3, "read"), (6, 0.5, "read"),
                                                     (6, 1.1, "from memory"), (6.5, 0.7, "from memory")])  # fmt: skip
def test_between_cells_the_least_trusted_counts(feet: float, rise: float, trust: str) -> None:
    figure = deadman.deadman_holding_pa(feet * M_PER_FOOT, atan(rise), "loam")
    assert figure is not None
    assert figure.trust == trust


@pytest.mark.parametrize(("soil", "factor"), [("rock or hardpan", 5.0), ("wet fine-grained or sandy", 0.5)])
def test_soil_factors(soil: str, factor: float) -> None:
    figure = deadman.deadman_holding_pa(6 * M_PER_FOOT, SLOPES["1:2"], soil)
    assert figure is not None
    assert figure.value / PA_PER_PSF == pytest.approx(5_100 * factor)


def test_length_rule_with_its_own_trench() -> None:
    # L = CC / (HP x Df) + 1 ft: 83,600 / (8,000 x 1.5) + 1 = 7.97 ft, where the older manual takes 9 ft
    length_m = deadman.deadman_length_m(
        83_600 * N_PER_LBF, 8_000 * PA_PER_PSF, 1.5 * M_PER_FOOT, deadman.TRENCH_TM.value
    )
    assert length_m / M_PER_FOOT == pytest.approx(7.97, abs=0.005)


def test_slenderness_limits() -> None:
    assert deadman.SLENDERNESS["timber"].value == 9
    assert deadman.SLENDERNESS["log"].value == 5
