"""Shear lag in glue films against the cosh and sinh solution of Volkersen.

Source: O. Volkersen 1938 (from memory); the same form as Shigley 9, Eq. 9-7, for lap joints.
Values evaluated apart from this code.
"""

import pytest

from firstfire.formulas import bonded_joint

STEEL_PIN_IN_PRINT = {
    "hub_outer_diameter": 30e-3,
    "pin_shear_modulus": 79.3e9,
    "hub_shear_modulus": 0.75e9,
    "film_thickness": 0.10e-3,
    "film_shear_modulus": 1.0e9,
}


def test_steel_pin_glued_into_a_print() -> None:
    # 0.5 %: the printed kL (11.27) rounds to four figures, and sinh magnifies it.
    mean = bonded_joint.mean_torsion_shear(10.0, 12e-3, 20e-3)
    peaks = bonded_joint.torsion_peaks(10.0, 12e-3, 20e-3, **STEEL_PIN_IN_PRINT)
    assert mean == pytest.approx(2.210e6, rel=5e-3)
    assert peaks.entering == pytest.approx(6.595e6, rel=5e-3)
    assert peaks.leaving == pytest.approx(18.32e6, rel=5e-3)


def test_aluminium_lap_joint() -> None:
    stiffness = 69e9 * 2e-3
    peaks = bonded_joint.lap_peaks(
        1000.0,
        25e-3,
        20e-3,
        first_stiffness=stiffness,
        second_stiffness=stiffness,
        film_thickness=0.2e-3,
        film_shear_modulus=1.2e9,
    )
    mean = 1000.0 / (25e-3 * 20e-3)
    assert peaks.entering / mean == pytest.approx(3.691, rel=1e-3)  # closed form, four figures
    assert peaks.leaving == pytest.approx(peaks.entering)
