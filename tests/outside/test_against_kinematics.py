"""Slider-crank, inertia and rod forces against exact kinematics.

Source: exact formula differentiated to 15 digits with mpmath, apart from this code; engine at
3000 rpm. J. J. Uicker, G. R. Pennock, J. E. Shigley, *Theory of Machines and Mechanisms*, for
the forces. Tolerances: the printed digits.
"""

import math

import pytest

from firstfire.formulas import crank_force, piston_inertia
from firstfire.formulas import slider_crank as sc

SPEED = 100 * math.pi  # 3000 rpm

# Degrees: travel mm, speed m/s, acceleration m/s², from top centre and positive downwards.
CENTRED = {
    0: (0, 0, 2845.22),
    30: (3.80939, 4.40378, 2248.11),
    60: (13.65933, 7.00915, 798.51),
    90: (25.72924, 7.06858, -650.83),
    120: (36.15933, 5.23400, -1422.16),
    150: (42.78054, 2.66481, -1598.19),
    180: (45, 0, -1596.10),
}

SHORT_ROD = {
    0: (0, 0, 2537.9),
    45: (7.3013, 5.3594, 1408.0),
    90: (22.918, 6.2832, -588.5),
    135: (35.586, 3.5264, -1383.5),
    180: (40, 0, -1409.9),
}


@pytest.mark.parametrize("degrees", CENTRED)
def test_centred_22_5_on_80(degrees: float) -> None:
    angle = math.radians(degrees)
    travel, speed, acceleration = CENTRED[degrees]
    mechanism = (0.0225, 0.080, 0.0)
    assert 1e3 * sc.piston_travel(angle, *mechanism) == pytest.approx(travel, abs=6e-6)
    assert SPEED * sc.piston_travel_slope(angle, *mechanism) == pytest.approx(speed, abs=6e-6)
    assert SPEED**2 * sc.piston_travel_curvature(angle, *mechanism) == pytest.approx(
        acceleration, abs=6e-3
    )


def test_not_the_two_term_formula() -> None:
    # r ω² (cos θ + r/l cos 2θ) gives -624.6 at 90°, 4 % off.
    exact = SPEED**2 * sc.piston_travel_curvature(math.pi / 2, 0.0225, 0.080, 0.0)
    assert exact == pytest.approx(-650.83, abs=6e-3)
    assert abs(exact - -624.6) > 20


def test_fastest_piston() -> None:
    angle = math.radians(75.328)
    assert SPEED * sc.piston_travel_slope(angle, 0.0225, 0.080, 0.0) == pytest.approx(
        7.34431, abs=6e-6
    )
    assert abs(sc.piston_travel_curvature(angle, 0.0225, 0.080, 0.0)) < 1e-6


@pytest.mark.parametrize("degrees", SHORT_ROD)
def test_centred_20_on_70(degrees: float) -> None:
    angle = math.radians(degrees)
    travel, speed, acceleration = SHORT_ROD[degrees]
    mechanism = (0.020, 0.070, 0.0)
    assert 1e3 * sc.piston_travel(angle, *mechanism) == pytest.approx(travel, rel=1e-4)
    assert SPEED * sc.piston_travel_slope(angle, *mechanism) == pytest.approx(
        speed, rel=1e-4, abs=1e-9
    )
    assert SPEED**2 * sc.piston_travel_curvature(angle, *mechanism) == pytest.approx(
        acceleration, rel=1e-4
    )


def test_fastest_piston_on_the_short_rod() -> None:
    slopes = [
        sc.piston_travel_slope(math.radians(0.01 * i), 0.020, 0.070, 0.0) for i in range(18_000)
    ]
    fastest = max(slopes)
    assert fastest / 0.020 == pytest.approx(1.0402, abs=6e-5)
    assert 0.01 * slopes.index(fastest) == pytest.approx(75.14, abs=0.01)


def test_offset_3_mm() -> None:
    mechanism = (0.0225, 0.080, 0.003)
    assert 1e3 * sc.stroke(*mechanism) == pytest.approx(45.0344, rel=1e-5)
    top, bottom = sc.top_centre_angle(*mechanism), sc.bottom_centre_angle(*mechanism)
    assert math.degrees(top) == pytest.approx(1.6772, abs=6e-5)
    assert math.degrees(bottom) == pytest.approx(182.9907, abs=6e-5)
    assert math.degrees(bottom - top) == pytest.approx(181.3135, abs=1e-4)


@pytest.mark.parametrize(
    ("degrees", "travel", "speed", "acceleration"),
    [(90, 24.86904, 7.06858, -558.12), (270, 26.62898, -7.06858, -746.79)],
)
def test_offset_3_mm_by_crank_angle(
    degrees: float, travel: float, speed: float, acceleration: float
) -> None:
    # Crank angle counts from the in-line position; the travel from top dead centre.
    mechanism = (0.0225, 0.080, 0.003)
    angle = math.radians(degrees)
    height, slope, curvature = sc.piston_motion(angle, *mechanism)
    assert 1e3 * (sc.top_height(*mechanism) - height) == pytest.approx(travel, rel=1e-5)
    assert -SPEED * slope == pytest.approx(speed, rel=1e-5)
    assert -(SPEED**2) * curvature == pytest.approx(acceleration, rel=1e-5)


def test_inertia_of_150_g() -> None:
    first = 0.150 * 0.0225 * SPEED**2
    assert first == pytest.approx(333.10, abs=6e-3)
    assert first * 22.5 / 80 == pytest.approx(93.68, abs=6e-3)
    curvature = sc.piston_height_curvature(0.0, 0.0225, 0.080, 0.0)
    force = piston_inertia.inertia_force(0.150, curvature, 0.0, SPEED, 0.0)
    assert force == pytest.approx(426.78, rel=1e-4)


def test_harmonics_of_the_piston() -> None:
    # Exact Fourier amplitudes over r ω² for r/l 0.28125; the series stops at three terms.
    amplitudes = piston_inertia.harmonics(0.0225, 0.080)
    assert amplitudes == pytest.approx([0.28703, -0.00591, 0.00014], abs=1e-5)
    series = piston_inertia.second_harmonic_series(0.0225, 0.080)
    assert series == pytest.approx(0.28702, abs=1e-5)


def test_forces_20_degrees_after_top() -> None:
    # r 20 mm, l 70 mm, bore 44 mm, 2.5 MPa over the crankcase, 80 g, 3000 rpm; tolerance 0.05 %.
    angle, mechanism = math.radians(20), (0.020, 0.070, 0.0)
    gas = 2.5e6 * math.pi / 4 * 0.044**2
    curvature = sc.piston_height_curvature(angle, *mechanism)
    along = gas - piston_inertia.inertia_force(0.080, curvature, 0.0, SPEED, 0.0)
    rod = sc.rod_angle(angle, *mechanism)
    assert along == pytest.approx(3618, rel=5e-4)
    assert crank_force.rod_force(along, rod) == pytest.approx(3635, rel=5e-4)
    assert crank_force.side_force(along, rod) == pytest.approx(355.2, rel=5e-4)
    assert crank_force.crank_torque(along, angle, rod, 0.020) == pytest.approx(31.42, rel=5e-4)
