"""Australian Emergency Manual, Disaster Rescue, 8.3: steel pickets, 350 kg each, 2 t in all."""

import pytest

from riglint.mechanics.constants import N_PER_KGF
from riglint.mechanics.pickets import picket_holdfast, safer_picket_holdfast


@pytest.mark.parametrize(
    ("arrangement", "kilograms"),
    [("1", 350), ("1-1", 700), ("1-1-1", 1_050), ("3-2-1", 2_000)],  # six pickets: held at 2 t
)
def test_steel_pickets(arrangement: str, kilograms: int) -> None:
    figure = picket_holdfast(arrangement, "au", "undisturbed loam")
    assert figure.value / N_PER_KGF == pytest.approx(kilograms)


def test_where_the_traditions_differ_the_safer_is_taken() -> None:
    # US 1-1-1 is 816 kgf, AU 1,050 kgf
    figure = safer_picket_holdfast("1-1-1", "undisturbed loam")
    assert figure.value / N_PER_KGF == pytest.approx(816, abs=1)
