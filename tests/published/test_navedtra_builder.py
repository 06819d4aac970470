"""NAVEDTRA Builder 3 & 2 ch. 4: tackle without friction, breaking strength of fibre rope."""

import pytest

from riglint.mechanics.constants import M_PER_INCH, N_PER_LBF
from riglint.mechanics.tackle import ideal_pull_n, required_ratio_count
from riglint.mechanics.thumb import thumb_breaking_n


@pytest.mark.parametrize(
    ("load_lb", "parts", "pull_lb"),
    [(200, 2, 100), (600, 3, 200)],  # gun tackle; single luff
)
def test_pull_without_friction(load_lb: int, parts: int, pull_lb: int) -> None:
    assert ideal_pull_n(load_lb, parts) == pytest.approx(pull_lb)


def test_ratio_from_load_and_pull() -> None:
    assert required_ratio_count(50, 10) == 5  # 50 lb moved by 10 lb


def test_manila_of_three_inches_round() -> None:
    figure = thumb_breaking_n("manila", 3 * M_PER_INCH)  # 9 x 900 = 8,100 lb
    assert figure is not None
    assert figure.value / N_PER_LBF == pytest.approx(8_100)


def test_nylon_of_one_inch_round() -> None:
    figure = thumb_breaking_n("nylon", M_PER_INCH)  # 2,400 C^2
    assert figure is not None
    assert figure.value / N_PER_LBF == pytest.approx(2_400)
