"""Arboriculture Australia, tree rescue manual (2022) p. 214: 3 t on wet grass drags at about 10 kN."""

import pytest

from riglint.mechanics.anchors import TYRE_ON_GRASS, vehicle_grip_n, vehicle_holding_pull_n


def test_friction_anchor_on_grass() -> None:
    # 3,000 x 9.81 x 0.35 = 10.3 kN, printed as about 10 kN
    weight_n = 3_000 * 9.81
    assert vehicle_grip_n(weight_n, TYRE_ON_GRASS.value, 0.0, 0.0) == pytest.approx(10_300, rel=0.001)
    assert vehicle_holding_pull_n(weight_n, TYRE_ON_GRASS.value, 0.0, 0.0) == pytest.approx(10_000, rel=0.05)
