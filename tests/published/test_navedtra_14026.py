"""NAVEDTRA 14026 pp. 1-7 and 1-8: wire rope and its clips."""

import pytest

from riglint.mechanics.constants import M_PER_INCH, N_PER_SHORT_TON
from riglint.mechanics.thumb import clip_spacing_m, clips_count, thumb_working_n


def test_half_inch_wire_rope() -> None:
    # (1/2)^2 x 8 = 2 tons
    figure = thumb_working_n("wire", 0.5 * M_PER_INCH)
    assert figure is not None
    assert figure.value / N_PER_SHORT_TON == pytest.approx(2.0)


@pytest.mark.parametrize(("inches", "clips"), [(1.0, 4), (0.5, 3)])  # 3 x 1 + 1 = 4; 2.5 -> 3
def test_number_of_clips(inches: float, clips: int) -> None:
    assert clips_count(inches * M_PER_INCH) == clips


def test_spacing_of_clips() -> None:
    assert clip_spacing_m(1.0 * M_PER_INCH) / M_PER_INCH == pytest.approx(6.0)  # 6 D
