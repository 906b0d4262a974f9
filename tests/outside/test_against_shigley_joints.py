"""Press fits and keys against Shigley.

Source: R. G. Budynas, J. K. Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed., and
the instructor's solutions to the 8th edition. Closed forms: tolerance 0.1 % unless said.
"""

import pytest

from firstfire.formulas import key, press_fit

PSI = 6894.757
INCH = 0.0254
CLOSED_FORM = 1e-3

STEEL_SHAFT = {"shaft_modulus": 30e6 * PSI, "shaft_poisson": 0.292}


def test_cast_iron_hub_on_steel() -> None:
    # Eq. 3-56 evaluated apart from this code.
    pressure = press_fit.contact_pressure(
        0.002 * INCH,
        1.000 * INCH,
        hub_outer_diameter=2.0 * INCH,
        hub_modulus=14.5e6 * PSI,
        hub_poisson=0.211,
        **STEEL_SHAFT,
    )
    assert pressure == pytest.approx(13_064 * PSI, rel=CLOSED_FORM)
    hoop = press_fit.hub_hoop_stress(pressure, 1.0 * INCH, 2.0 * INCH)
    assert hoop == pytest.approx(21_773 * PSI, rel=CLOSED_FORM)


def test_steel_pin_in_a_printed_hub_and_its_slip_torque() -> None:
    # Eq. 3-56, 7-39 and 7-49 (number from memory) evaluated apart from this code.
    pressure = press_fit.contact_pressure(
        0.10e-3,
        12e-3,
        hub_outer_diameter=30e-3,
        hub_modulus=2.0e9,
        hub_poisson=0.38,
        shaft_modulus=206e9,
        shaft_poisson=0.29,
    )
    assert pressure == pytest.approx(9.428e6, rel=CLOSED_FORM)
    assert press_fit.hub_hoop_stress(pressure, 12e-3, 30e-3) == pytest.approx(
        13.02e6, rel=CLOSED_FORM
    )
    assert press_fit.slip_torque(pressure, 12e-3, 20e-3, 0.20) == pytest.approx(
        8.530, rel=CLOSED_FORM
    )


def test_metric_key() -> None:
    # The same closed forms evaluated apart from this code.
    assert key.shear_stress(8.0, 15e-3, 5e-3, 20e-3) == pytest.approx(10.67e6, rel=CLOSED_FORM)
    assert key.bearing_stress(8.0, 15e-3, 5e-3, 20e-3) == pytest.approx(21.33e6, rel=CLOSED_FORM)
