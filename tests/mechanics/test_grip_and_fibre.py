"""How rope grips a drum, and what fibre weighs and takes up."""

import pytest

from riglint.mechanics.fibre import FILL_FRACTION, fibre
from riglint.mechanics.friction import fastening_tension_n
from riglint.mechanics.grip import rope_on_drum_mu
from riglint.mechanics.heat import fibre_heat, rope_mass_kg_m


def test_fibre_that_slips_needs_about_twice_the_wraps_of_wire() -> None:
    hmpe, wire = rope_on_drum_mu("hmpe").value, rope_on_drum_mu("wire").value
    assert fastening_tension_n(1.0, hmpe, 10.0) == pytest.approx(fastening_tension_n(1.0, wire, 5.0))


@pytest.mark.parametrize("core", ["wire, fibre core", "wire, steel core"])
def test_wire_grips_alike_whatever_its_core(core: str) -> None:
    assert rope_on_drum_mu(core) == rope_on_drum_mu("wire")


@pytest.mark.parametrize("rope", ["hmpe", "aramid", "polyester", "nylon", "polypropylene", "manila", "wire"])
def test_nothing_slips_more_than_hmpe_and_nothing_is_counted_on_past_the_low_end(rope: str) -> None:
    assert rope_on_drum_mu("hmpe").value <= rope_on_drum_mu(rope).value <= 0.1


def test_another_rope_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="jute"):
        rope_on_drum_mu("jute")


@pytest.mark.parametrize("kind", ["hmpe", "polypropylene", "nylon", "polyester"])
def test_every_fibre_that_bears_so_much_heat_has_a_mass_to_reckon_it_with(kind: str) -> None:
    known = fibre(kind)
    assert known is not None
    assert fibre_heat(kind) is not None
    assert 900.0 <= known.density.value <= 1400.0
    assert 900.0 <= known.specific_heat.value <= 2000.0


def test_no_figure_is_made_up_for_other_fibre() -> None:
    assert fibre("manila") is None


def test_a_metre_of_11_mm_hmpe_weighs_a_little_less_than_catalogues_say() -> None:
    hmpe = fibre("hmpe")
    assert hmpe is not None
    # Catalogues have 11 mm braid of HMPE at 62 to 68 g/m (from memory): less fibre gets hotter, so less is safe.
    assert 0.050 < rope_mass_kg_m(0.011, hmpe.density.value, FILL_FRACTION.value) < 0.062


@pytest.mark.parametrize(
    ("kind", "density", "specific_heat"),
    [  # handbook values at room temperature, from memory
        ("hmpe", 970.0, 1850.0),
        ("polypropylene", 910.0, 1700.0),
        ("nylon", 1140.0, 1500.0),
        ("polyester", 1380.0, 1000.0),
    ],
)
def test_what_fibres_weigh_and_take_up(kind: str, density: float, specific_heat: float) -> None:
    found = fibre(kind)
    assert found is not None
    assert (found.density.value, found.specific_heat.value) == (density, specific_heat)
    assert FILL_FRACTION.value == 0.6
