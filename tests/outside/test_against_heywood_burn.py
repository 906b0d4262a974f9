"""Wiebe's law and the burn angles against Heywood, section 9.2.

Source: J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. 9.30 with
a 5, m 2 (from memory); numbers are exact evaluations to four figures (tolerance 1e-4, angles
0.01°). The trend of burn angle with speed: section 9.3, the 0.37 power reported with the
correlation of Hires and others, SAE 780232 (from memory).
"""

import math

import pytest

from firstfire.formulas import burn_duration, burn_law, gas_transport, laminar_speed

# a, m: progress at 1, 10, 50, 90 %, span 10-90, burned at 1, progress of fastest burn
WIEBE = {
    (5.0, 2.0): (0.1262, 0.2762, 0.5175, 0.7722, 0.4960, 0.99326, 0.5109),
    (5.0, 1.0): (0.0448, 0.1452, 0.3723, 0.6786, 0.5335, 0.99326, 0.3162),
}


@pytest.mark.parametrize(("a", "m"), WIEBE)
def test_progress_of_the_burn(a: float, m: float) -> None:
    *points, span, at_end, fastest = WIEBE[a, m]
    burned = [0.01, 0.10, 0.50, 0.90]
    found = [burn_law.wiebe_progress(x, a, m) for x in burned]
    assert found == pytest.approx(points, abs=1e-4)
    assert [burn_law.wiebe(y, a, m) for y in found] == pytest.approx(burned, abs=1e-12)
    assert found[3] - found[1] == pytest.approx(span, abs=1e-4)
    assert burn_law.wiebe(1.0, a, m) == pytest.approx(at_end, abs=1e-5)
    assert burn_law.wiebe_fastest(a, m) == pytest.approx(fastest, abs=1e-4)


def test_burned_fraction_and_fastest_rate() -> None:
    found = [burn_law.wiebe(y, 5.0, 2.0) for y in (0.25, 0.5, 0.75)]
    assert found == pytest.approx([0.0752, 0.4647, 0.8787], abs=1e-4)
    fastest = burn_law.wiebe_fastest(5.0, 2.0)
    assert burn_law.wiebe_rate(fastest, 5.0, 2.0) == pytest.approx(2.0100, abs=1e-4)


def test_angles_of_a_60_degree_burn_from_20_before_top() -> None:
    angles = [-20 + 60 * burn_law.wiebe_progress(x, 5.0, 2.0) for x in (0.1, 0.5, 0.9)]
    assert angles == pytest.approx([-3.43, 11.05, 26.33], abs=0.01)
    assert angles[2] - angles[0] == pytest.approx(29.76, abs=0.01)


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


def test_burn_angle_grows_with_speed_as_reported() -> None:
    # Speed to the power 0.37, mixture and state held; the form's own power is 1/3, and Taylor's
    # straight line agrees from 1500 to 3000 rpm. Tolerance 0.05 on the power: the two differ.
    spark, viscosity = state(620.0, 8e5)

    def angle(speed: float) -> float:
        return burn_duration.flame_group(0.086, speed, viscosity, 0.0165, spark)

    power = math.log(angle(8.6) / angle(4.3)) / math.log(2.0)
    assert power == pytest.approx(0.37, abs=0.05)
    taylor = [
        burn_duration.taylor_burn_duration(rpm * math.pi / 30, 12.5 / 1.1) for rpm in (1500, 3000)
    ]
    assert math.log(taylor[1] / taylor[0]) / math.log(2.0) == pytest.approx(0.37, abs=0.05)


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
