"""Wiebe's law and the burn angles against Heywood, section 9.2.

Source: J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. 9.30 with
a 5, m 2 (from memory); numbers are exact evaluations to four figures (tolerance 1e-4, angles
0.01°). The trend of burn angle with speed: section 9.3, the 0.37 power reported with the
correlation of Hires and others, SAE 780232 (from memory).
"""

import math

import pytest

from firstfire.formulas import burn_duration, gas_transport, laminar_speed


def state(temperature: float, pressure: float) -> tuple[float, float]:
    """Laminar speed with 8 % burned gas, and kinematic viscosity, of a stoichiometric charge."""
    speed = laminar_speed.rhodes_keck_petrol(1.0, temperature, pressure)
    density = pressure / (280 * temperature)
    return (
        speed * laminar_speed.rhodes_keck_dilution(0.08),
        gas_transport.viscosity(temperature) / density,
    )


def test_reference_engine_gives_the_reference_groups() -> None:
    # 86 x 86 mm, 1500 rpm: the state is stated in the module; rounding of the constants.
    spark, viscosity = state(620.0, 8e5)
    group = burn_duration.flame_group(0.086, 4.3, viscosity, 0.0165, spark)
    assert group == pytest.approx(burn_duration.REFERENCE_GROUP_AT_SPARK, rel=1e-3)
    top, viscosity = state(720.0, 20e5)
    group = burn_duration.flame_group(0.086, 4.3, viscosity, 0.012, top)
    assert group == pytest.approx(burn_duration.REFERENCE_GROUP_AT_TOP, rel=1e-3)


def test_usual_car_engine_burn_angles() -> None:
    # Heywood, section 9.2: flame development and rapid burning some 20 to 40° each at normal
    # load and speed (from memory).
    spark, viscosity = state(620.0, 8e5)
    at_spark = burn_duration.flame_group(0.086, 8.6, viscosity, 0.0165, spark)
    top, viscosity = state(720.0, 20e5)
    at_top = burn_duration.flame_group(0.086, 8.6, viscosity, 0.012, top)
    development = burn_duration.development_angle(at_spark)
    rapid = burn_duration.rapid_burn_angle(at_top, 0.086, 0.012)
    assert 20 < math.degrees(development) < 40
    assert 20 < math.degrees(rapid) < 40
