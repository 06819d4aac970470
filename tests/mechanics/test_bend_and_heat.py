"""Bends and friction heat."""

from math import nextafter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from riglint.mechanics import bend, heat

bends = st.floats(1.0, 100.0)
loads = st.floats(0.0, 3.0)


@given(bends, bends)
def test_a_wider_bend_never_leaves_less(one: float, other: float) -> None:
    sharp, wide = (bend.wire_bend_efficiency_fraction(ratio) for ratio in sorted((one, other)))
    assert 0.50 <= sharp <= wide <= 0.95


@given(st.floats(0.50, 0.95))
def test_the_curve_and_its_inverse(efficiency: float) -> None:
    ratio = bend.wire_bend_for_efficiency_ratio(efficiency)
    assert ratio is not None
    assert bend.wire_bend_efficiency_fraction(ratio) == pytest.approx(efficiency)


def test_ends_of_the_curve() -> None:
    assert bend.wire_bend_efficiency_fraction(1000.0) == 0.95
    assert bend.wire_bend_for_efficiency_ratio(0.96) is None
    assert bend.wire_bend_for_efficiency_ratio(0.0) == 1.0
    assert bend.wire_bend_for_efficiency_ratio(0.95) == pytest.approx(40.0)
    with pytest.raises(ValueError, match="bend_ratio"):
        bend.wire_bend_efficiency_fraction(nextafter(1.0, 0.0))


@given(st.sampled_from(["fibre", "wire"]), st.booleans(), loads, loads)
def test_a_greater_load_never_asks_for_less(rope: bend.Rope, moving: bool, one: float, other: float) -> None:
    low, high = (bend.bend_demand(rope, load, moving=moving).value for load in sorted((one, other)))
    assert 1.0 <= low <= high


@given(st.sampled_from(["fibre", "wire"]), loads)
def test_a_standing_bend_asks_for_less(rope: bend.Rope, load: float) -> None:
    standing = bend.bend_demand(rope, load, moving=False).value
    moving = bend.bend_demand(rope, load, moving=True).value
    assert standing < moving


@pytest.mark.parametrize(
    ("moving", "load", "diameters"), [(True, 1.0, 8.0), (False, 1.0, 5.0), (True, 0.0, 3.0), (False, 0.0, 1.0)]
)
def test_fibre_at_the_ends_of_the_law(moving: bool, load: float, diameters: float) -> None:
    demand = bend.fibre_bend_demand(load, moving=moving)
    assert demand.value == pytest.approx(diameters)
    assert demand.trust == "common practice"
    assert demand.locator.startswith("moving" if moving else "standing")


def test_an_unknown_construction_takes_the_general_figure() -> None:
    assert bend.wire_bend_demand(0.2, moving=True, construction="9x99").value == 20.0


def test_another_rope_is_refused() -> None:
    with pytest.raises(ValueError, match="fibre, wire"):
        bend.bend_demand("chain", 0.5, moving=True)  # type: ignore[arg-type]


@given(st.floats(0.0, 1e6), st.floats(0.0, 1e6), st.floats(0.0, 100.0))
def test_heat_is_the_work_of_friction_either_way(one_n: float, other_n: float, slip_m: float) -> None:
    assert heat.slip_heat_j(one_n, other_n, slip_m) == heat.slip_heat_j(other_n, one_n, slip_m)
    assert heat.slip_heat_j(one_n, other_n, slip_m) == pytest.approx(abs(one_n - other_n) * slip_m)


def test_heat_of_a_common_pull_through_a_ring() -> None:
    # 20 kN in, 10 % lost: 2 kJ for each metre; 60 g/m of HMPE by 1,850 J/(kg K): 18 K at most
    rise_k = heat.temperature_rise_k(heat.slip_heat_j_m(20e3, 18e3), 0.06, 1850.0)
    assert rise_k == pytest.approx(18.0, abs=0.1)


@given(st.floats(0.003, 0.05), st.floats(0.1, 1.0), st.floats(0.1, 1.0))
def test_less_fibre_gets_no_cooler(diameter_m: float, one: float, other: float) -> None:
    thin, full = (heat.rope_mass_kg_m(diameter_m, 970.0, fill) for fill in sorted((one, other)))
    assert heat.temperature_rise_k(1e3, thin, 1850.0) >= heat.temperature_rise_k(1e3, full, 1850.0)


def test_mass_of_a_metre_of_rope() -> None:
    # 11 mm at 60 % fill: 57 square millimetres of fibre, by hand 55 g
    assert heat.rope_mass_kg_m(0.011, 970.0, 0.6) == pytest.approx(0.0553, abs=0.0001)


def test_polypropylene_and_the_rest() -> None:
    soft = heat.fibre_heat("polypropylene")
    assert soft is not None
    assert soft.softens is not None
    assert soft.softens.value == pytest.approx(273.15 + (300 - 32) / 1.8, abs=0.1)  # TB 55-1900-232-10: 300 F
    nylon = heat.fibre_heat("nylon")
    assert nylon is not None
    assert nylon.keep_below.value == pytest.approx(273.15 + 82)  # OSHA guidance: above 180 F damaged


def test_what_fibres_bear() -> None:
    hmpe = heat.fibre_heat("hmpe")
    assert hmpe is not None
    assert hmpe.softens is not None
    assert hmpe.keep_below.value == pytest.approx(273.15 + 65)  # from memory: keep below 65 to 70 C
    assert hmpe.softens.value == pytest.approx(273.15 + 144)  # from memory: melts at 144 to 152 C
    assert all(found.softens is None or found.keep_below.value < found.softens.value for found in heat.FIBRES.values())
    assert heat.fibre_heat("manila") is None
    soft = heat.fibre_heat("polypropylene")
    assert soft is not None
    assert soft.softens is not None
    assert (hmpe.keep_below.trust, hmpe.softens.trust, soft.softens.trust) == ("from memory", "from memory", "read")
