"""What heat synthetics bear: sling guidance (read second hand) and TB 55-1900-232-10 App. C (read)."""

import pytest

from riglint.mechanics.constants import KELVIN_AT_0_C
from riglint.mechanics.heat import fibre_heat


def kelvin(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8 + KELVIN_AT_0_C


@pytest.mark.parametrize("fibre", ["nylon", "polyester", "polypropylene"])
def test_synthetics_above_180_fahrenheit_are_damaged(fibre: str) -> None:
    bears = fibre_heat(fibre)
    assert bears is not None
    assert kelvin(180) - 0.5 < bears.keep_below.value <= kelvin(180)
    assert bears.keep_below.trust == "read second hand"


def test_polypropylene_softens_at_about_300_fahrenheit() -> None:
    bears = fibre_heat("polypropylene")
    assert bears is not None
    assert bears.softens is not None
    assert kelvin(300) - 0.5 < bears.softens.value <= kelvin(300)  # no milder than printed
    assert bears.softens.trust == "read"


def test_hmpe_is_from_memory() -> None:
    # From memory: keep below 65 to 70 C, melts at 144 to 152 C; the lower ends are used.
    bears = fibre_heat("hmpe")
    assert bears is not None
    assert bears.softens is not None
    assert (bears.keep_below.value, bears.softens.value) == pytest.approx((KELVIN_AT_0_C + 65, KELVIN_AT_0_C + 144))
    assert bears.keep_below.trust == bears.softens.trust == "from memory"
