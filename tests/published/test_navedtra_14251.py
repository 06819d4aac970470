"""NAVEDTRA 14251 (Steelworker): shackles, picket holdfasts, friction of tackle."""

import pytest

from riglint.mechanics.constants import M_PER_INCH, N_PER_LBF, N_PER_TONNE
from riglint.mechanics.pickets import picket_holdfast
from riglint.mechanics.tackle import fall_line_n, tackle_resistance_n, total_resistance_n
from riglint.mechanics.thumb import thumb_working_n


def test_shackle_of_five_eighths() -> None:
    # D 5/8 in: 25/64 x 3 = 1.1719 tons = 2,343.8 lb
    figure = thumb_working_n("shackle", 5 / 8 * M_PER_INCH)
    assert figure is not None
    assert figure.value / N_PER_LBF == pytest.approx(2_343.8, abs=0.1)


def test_shackle_in_metric() -> None:
    # D 1.59 cm: 2.52 x 0.417 = 1.05 t
    figure = thumb_working_n("shackle", 0.0159)
    assert figure is not None
    assert figure.value / N_PER_TONNE == pytest.approx(1.05, abs=0.02)


@pytest.mark.parametrize(
    ("arrangement", "pounds"),
    [("1", 700), ("1-1-1", 1_800), ("3-2-1", 4_000)],
)
def test_picket_holdfasts(arrangement: str, pounds: int) -> None:
    figure = picket_holdfast(arrangement, "us", "undisturbed loam")
    assert figure.value / N_PER_LBF == pytest.approx(pounds)
    assert figure.trust == "read"


@pytest.mark.parametrize(("arrangement", "kilograms"), [("1-1-1", 810), ("3-2-1", 1_800)])
def test_the_metric_figures_printed_beside_them(arrangement: str, kilograms: int) -> None:
    value_n = picket_holdfast(arrangement, "us", "undisturbed loam").value
    assert value_n / N_PER_TONNE * 1000 == pytest.approx(kilograms, rel=0.01)


def test_friction_of_a_twofold_purchase() -> None:
    # 1,000 lb, 4 sheaves, 10 % each: 400 lb; 1,400 in all; over 4 parts 350 lb
    assert tackle_resistance_n(1_000, 4) == pytest.approx(400)
    assert total_resistance_n(1_000, 4) == pytest.approx(1_400)
    assert fall_line_n(total_resistance_n(1_000, 4), 4) == pytest.approx(350)
