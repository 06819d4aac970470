"""The capstan law: a worked exercise, a V groove, and last wraps on a drum."""

from math import pi, radians

import pytest

from riglint.mechanics.friction import capstan_hold_n, fastening_tension_n, v_groove_mu


def test_worked_exercise() -> None:
    # Exercise on rope friction: m 100 kg, mu 0.2, wrap 3 pi / 2: F = 981 exp(-0.3 pi) = 382.26 N
    assert capstan_hold_n(981.0, 0.2, 1.5 * pi) == pytest.approx(382.26, abs=0.005)


def test_v_groove_at_eighteen_degrees() -> None:
    # Course page on belt friction: half angle 18 deg acts 3.2 times as strongly
    assert v_groove_mu(1.0, radians(18)) == pytest.approx(3.2, abs=0.05)


@pytest.mark.parametrize(
    ("mu", "wraps", "times"),
    # CONSTRUCTED from the law: T over what reaches the fastening
    [(0.10, 2, 3.51), (0.10, 3, 6.59), (0.10, 5, 23.1), (0.10, 10, 535), (0.05, 5, 4.81), (0.05, 10, 23.1)],
)
def test_constructed_last_wraps(mu: float, wraps: int, times: float) -> None:
    assert 1.0 / fastening_tension_n(1.0, mu, wraps) == pytest.approx(times, rel=0.002)
