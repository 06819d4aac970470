"""Vectors against numpy, and the fixed numbers against what defines them."""

from __future__ import annotations

from math import acos, cos, pi, sin

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import constants as reference

from riglint.mechanics import constants, vectors
from riglint.mechanics.vectors import Vec

_one = st.floats(-50.0, 50.0).map(lambda x: round(x, 3))
_vectors = st.tuples(_one, _one, _one)


@given(a=_vectors, b=_vectors, factor=_one)
def test_as_numpy_has_it(a: Vec, b: Vec, factor: float) -> None:
    p, q = np.array(a), np.array(b)
    assert vectors.add(a, b) == pytest.approx(p + q, abs=1e-9)
    assert vectors.sub(a, b) == pytest.approx(p - q, abs=1e-9)
    assert vectors.scale(a, factor) == pytest.approx(p * factor, abs=1e-9)
    assert vectors.along(a, b, factor) == pytest.approx(p + q * factor, abs=1e-9)
    assert vectors.dot(a, b) == pytest.approx(p @ q, abs=1e-9)
    assert vectors.norm(a) == pytest.approx(np.linalg.norm(p), abs=1e-9)
    assert vectors.distance(a, b) == pytest.approx(np.linalg.norm(q - p), abs=1e-9)


@pytest.mark.parametrize("size", [1e-9, 0.005, 1.0, 1e6])
def test_a_unit_vector_is_told_of_any_size(size: float) -> None:
    """2, 3, 6 and 7 are a box and its diagonal."""
    a = (2.0 / 7.0 * size, -3.0 / 7.0 * size, 6.0 / 7.0 * size)
    assert vectors.unit(a) == pytest.approx((2.0 / 7.0, -3.0 / 7.0, 6.0 / 7.0), rel=1e-12)


def test_what_has_no_size_has_no_direction() -> None:
    assert vectors.unit((0.0, 0.0, 0.0)) == vectors.ZERO == (0.0, 0.0, 0.0)


def test_headings() -> None:
    """East, north, and 30 degrees up towards the north-west."""
    assert vectors.heading(0.0) == pytest.approx((1.0, 0.0, 0.0))
    assert vectors.heading(pi / 2) == pytest.approx((0.0, 1.0, 0.0))
    across = (3.0 / 8.0) ** 0.5
    assert vectors.heading(3 * pi / 4, pi / 6) == pytest.approx((-across, across, 0.5))


@given(a=_vectors, b=_vectors)
def test_an_angle_is_that_of_the_inverse_cosine(a: Vec, b: Vec) -> None:
    assume(vectors.norm(a) > 0.01 and vectors.norm(b) > 0.01)
    p, q = vectors.unit(a), vectors.unit(b)
    cosine = max(-1.0, min(1.0, float(np.array(p) @ np.array(q))))
    # near a straight line the inverse cosine keeps but half the digits
    assert vectors.between_rad(p, q) == pytest.approx(acos(cosine), abs=1e-7)


@pytest.mark.parametrize("angle_rad", [2e-9, 1e-6, 0.3, 1.5, pi - 1e-6, pi - 2e-9])
def test_a_small_angle_keeps_its_digits(angle_rad: float) -> None:
    """Where it is measured: the cosine of 1e-9 is 1 in floats."""
    around = (cos(angle_rad), 0.6 * sin(angle_rad), 0.8 * sin(angle_rad))
    assert vectors.between_rad((1.0, 0.0, 0.0), around) == pytest.approx(angle_rad, rel=1e-6)


@pytest.mark.parametrize(("sine", "straight"), [(0.98e-9, True), (1.02e-9, False)])
def test_a_billionth_off_is_straight(sine: float, straight: bool) -> None:
    assert (vectors.between_rad((1.0, 0.0, 0.0), (1.0, sine, 0.0)) == 0.0) == straight
    assert (vectors.between_rad((1.0, 0.0, 0.0), (-1.0, 0.0, sine)) == pi) == straight


def test_fixed_numbers_are_those_of_codata() -> None:
    """Reference: scipy.constants, which has them of CODATA and NIST SP 811."""
    assert reference.g == constants.STANDARD_GRAVITY
    assert reference.zero_Celsius == constants.KELVIN_AT_0_C
    assert reference.inch == constants.M_PER_INCH
    assert reference.foot == pytest.approx(constants.M_PER_FOOT, rel=1e-12)
    assert reference.pound == pytest.approx(constants.KG_PER_LB, rel=1e-12)
    assert reference.pound_force == pytest.approx(constants.N_PER_LBF, rel=1e-12)
    assert reference.kilogram_force == pytest.approx(constants.N_PER_KGF, rel=1e-12)
    assert reference.short_ton * reference.g == pytest.approx(constants.N_PER_SHORT_TON, rel=1e-12)
    assert reference.metric_ton * reference.g == pytest.approx(constants.N_PER_TONNE, rel=1e-12)
    assert reference.psi / 144.0 == pytest.approx(constants.PA_PER_PSF, rel=1e-12)
