"""Hertz contact against Shigley, section 3-19, Eq. 3-68 to 3-77.

Source: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.;
closed forms evaluated apart from this code, 0.1 % for four figures. Shear figures also from
memory (K. L. Johnson, *Contact Mechanics*), 0.5 %: three figures.
"""

import pytest

from firstfire.formulas import contact, contact_shear

FOUR_FIGURES = 1e-3
STEEL = contact.contact_modulus(206e9, 0.3, 206e9, 0.3)


def test_steel_roller_on_cam() -> None:
    strip = contact.line_contact(200.0, 8e-3, contact.contact_radius(8e-3, 15e-3), STEEL)
    assert strip.half_width == pytest.approx(38.30e-6, rel=FOUR_FIGURES)
    assert strip.peak_pressure == pytest.approx(415.5e6, rel=FOUR_FIGURES)


def test_steel_flat_on_plastic_cam() -> None:
    radius = contact.contact_radius(12e-3, float("inf"))
    modulus = contact.contact_modulus(3.0e9, 0.38, 206e9, 0.3)
    strip = contact.line_contact(150.0, 10e-3, radius, modulus)
    assert strip.half_width == pytest.approx(257.6e-6, rel=FOUR_FIGURES)
    assert strip.peak_pressure == pytest.approx(37.07e6, rel=FOUR_FIGURES)


def test_steel_ball_on_flat() -> None:
    radius = contact.contact_radius(5e-3, float("inf"))
    spot = contact.point_contact(100.0, radius, STEEL)
    assert spot.half_width == pytest.approx(0.1491e-3, rel=FOUR_FIGURES)
    assert spot.peak_pressure == pytest.approx(2148e6, rel=FOUR_FIGURES)
    approach = contact.point_approach(spot.half_width, radius)
    assert approach == pytest.approx(4.445e-6, rel=FOUR_FIGURES)


def test_largest_shear_under_a_line_and_a_point() -> None:
    depths = [0.001 * i for i in range(1, 3000)]
    line = max(depths, key=contact_shear.line_shear)
    assert line == pytest.approx(0.786, rel=5e-3)
    assert contact_shear.line_shear(line) == pytest.approx(0.300, rel=5e-3)
    point = max(depths, key=lambda depth: contact_shear.point_shear(depth, 0.3))
    assert point == pytest.approx(0.481, rel=5e-3)
    assert contact_shear.point_shear(point, 0.3) == pytest.approx(0.310, rel=5e-3)
