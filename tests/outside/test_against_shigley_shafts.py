"""Torsion against Shigley, section 3-12 and 4-2, and beams against its Table A-9.

Source: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.; closed
forms evaluated apart from this code, 0.1 % for four figures.
"""

import math

import pytest

from firstfire.formulas import shaft, stiffness

FOUR_FIGURES = 1e-3
STEEL = 79.3e9


def test_15_mm_steel_shaft() -> None:
    assert shaft.torsion_stress(10.0, 15e-3) == pytest.approx(15.09e6, rel=FOUR_FIGURES)
    spring = shaft.torsional_stiffness(STEEL, 15e-3, 60e-3)
    turn = math.degrees(shaft.twist(10.0, spring))
    assert turn == pytest.approx(0.0872, rel=FOUR_FIGURES)


def test_stepped_shaft_with_a_plastic_sleeve() -> None:
    thick = shaft.torsional_stiffness(STEEL, 15e-3, 60e-3)
    thin = shaft.torsional_stiffness(STEEL, 12e-3, 30e-3)
    sleeve = shaft.torsional_stiffness(0.75e9, 30e-3, 20e-3, bore=12e-3)
    assert thick == pytest.approx(6569, rel=FOUR_FIGURES)
    assert thin == pytest.approx(5381, rel=FOUR_FIGURES)
    # G π (D⁴ - d⁴)/32L by hand: 0.75e9 · 7.7486e-8/0.020
    assert sleeve == pytest.approx(2906, rel=FOUR_FIGURES)
    whole = stiffness.in_series(thick, thin, sleeve)
    assert whole == pytest.approx(1466, rel=FOUR_FIGURES)
    frequency = stiffness.two_body_frequency(whole, 2e-5, 1.1e-3)
    assert frequency == pytest.approx(1375, rel=FOUR_FIGURES)
