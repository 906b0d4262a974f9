"""Contacts, plain and rolling bearings: what must hold for every size."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import bearing_life, contact, contact_shear

STEEL = contact.contact_modulus(206e9, 0.3, 206e9, 0.3)
PLASTIC = contact.contact_modulus(2.0e9, 0.38, 206e9, 0.3)


@given(st.floats(1.0, 500.0), st.floats(1.0, 2.0))
def test_pressure_grows_as_the_cube_root_under_a_point_and_the_root_under_a_line(
    force: float, times: float
) -> None:
    once, more = (contact.point_contact(f, 5e-3, STEEL) for f in (force, force * times))
    assert more.peak_pressure / once.peak_pressure == pytest.approx(times ** (1 / 3))
    once, more = (contact.line_contact(f, 8e-3, 5e-3, STEEL) for f in (force, force * times))
    assert more.peak_pressure / once.peak_pressure == pytest.approx(math.sqrt(times))


@given(st.floats(1.0, 500.0))
def test_the_pressures_carry_the_force(force: float) -> None:
    strip = contact.line_contact(force, 8e-3, 5e-3, STEEL)
    assert math.pi / 2 * strip.peak_pressure * strip.half_width * 8e-3 == pytest.approx(force)
    spot = contact.point_contact(force, 5e-3, STEEL)
    area = math.pi * spot.half_width**2
    assert 2 / 3 * spot.peak_pressure * area == pytest.approx(force)


def test_no_force_gives_no_pressure() -> None:
    assert contact.line_contact(0.0, 8e-3, 5e-3, STEEL) == (0.0, 0.0)
    assert contact.point_contact(0.0, 5e-3, STEEL) == (0.0, 0.0)


def test_a_plastic_cam_that_would_yield_is_refused() -> None:
    limit = contact.line_yield_pressure(45e6)
    force = limit**2 * math.pi * 10e-3 * 12e-3 / PLASTIC
    held = contact.line_contact(0.98 * force, 10e-3, 12e-3, PLASTIC, yield_strength=45e6)
    assert held.peak_pressure < limit
    with pytest.raises(OutsideValidity, match="yields under its surface"):
        contact.line_contact(1.02 * force, 10e-3, 12e-3, PLASTIC, yield_strength=45e6)


def test_a_ball_yields_at_its_own_limit() -> None:
    limit = contact.point_yield_pressure(45e6)
    force = limit**3 * math.pi**3 * 5e-3**2 / (6 * PLASTIC**2)
    spot = contact.point_contact(0.99 * force, 5e-3, PLASTIC, yield_strength=45e6)
    assert spot.peak_pressure < limit
    with pytest.raises(OutsideValidity, match="yields"):
        contact.point_contact(1.02 * force, 5e-3, PLASTIC, yield_strength=45e6)


def test_the_yield_limits_come_from_the_shear_below() -> None:
    depths = [0.001 * i for i in range(1, 2000)]
    line = max(map(contact_shear.line_shear, depths))
    assert contact.line_yield_pressure(1.0) == pytest.approx(1 / (2 * line), rel=1e-3)
    point = max(contact_shear.point_shear(depth, 0.3) for depth in depths)
    assert contact.point_yield_pressure(1.0) == pytest.approx(1 / (2 * point), rel=1e-3)


def test_the_surface_itself_is_less_sheared_than_what_lies_below() -> None:
    assert contact_shear.line_shear(0.0) == 0.0
    # On the surface under a point: σ_z = -p, σ_r = -(1 + 2ν)/2 p, so τ/p = (1 - 2ν)/4.
    assert contact_shear.point_shear(0.0, 0.3) == pytest.approx(0.1)


@given(st.floats(100.0, 2000.0), st.floats(1.0, 1.1))
def test_ball_life_falls_as_the_cube_of_load(load: float, times: float) -> None:
    ratio = bearing_life.rating_life(4.55e3, load) / bearing_life.rating_life(4.55e3, load * times)
    assert ratio == pytest.approx(times**3)
