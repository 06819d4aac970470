"""TM 9-2320-279-10-2 table 2-7 p. 2-660: line pull of a self-recovery winch by layer."""

import pytest

from riglint.mechanics.drum import Drum, layer_pull_ratio, pull_at_layer_n
from riglint.rulebook.find import standard_rulebook

PRINTED_LB = {1: 20_000, 2: 18_173, 3: 16_663, 4: 15_361, 5: 14_254}
FITTED = 0.1008  # growth of a layer, fitted once to the whole table


def test_wraps_that_stay_on_the_drum() -> None:
    # "At least 5" here; TM 9-2320-280-10 p. 2-134 has 4, Wyoming OSHA ch. 5 s. 5-2(g) and WAC 296-870-70085 have 3.
    assert standard_rulebook().limits["drum-wraps"]["wire_wraps"] == max(5, 4, 3, 3)


@pytest.mark.parametrize(("layer", "pounds"), list(PRINTED_LB.items()))
def test_constant_torque_gives_the_printed_pull(layer: int, pounds: int) -> None:
    assert 20_000 * layer_pull_ratio(FITTED, layer) == pytest.approx(pounds, rel=0.0012)


@pytest.mark.parametrize(("layer", "pounds"), list(PRINTED_LB.items()))
def test_a_drum_with_that_growth_gives_the_printed_pull(layer: int, pounds: int) -> None:
    rope_m = 0.016
    drum = Drum(barrel_m=rope_m * (2 / FITTED - 1), width_m=0.4, rope_m=rope_m)
    assert pull_at_layer_n(drum, 20_000, 1, layer) == pytest.approx(pounds, rel=0.0012)
