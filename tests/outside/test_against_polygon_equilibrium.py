"""Polygon joints against equilibrium of a flat, and the kind of rule of DIN 32711/32712.

Values: 12T/(N L a²) and 8T/(N L a²) evaluated apart from this code; closed form, 0.1 %.
"""

import math

import pytest

from firstfire.formulas import polygon_joint


@pytest.mark.parametrize("flats", [3, 4, 6, 8])
def test_the_pressure_carries_the_torque(flats: int) -> None:
    across, length = 17e-3, 20e-3
    peak = polygon_joint.corner_pressure(25.0, flats, across, length)
    half = across * math.tan(math.pi / flats) / 2
    # integral of p(x) x L dx over half a flat, p = peak x / half
    steps = 2000
    arm = [(i + 0.5) * half / steps for i in range(steps)]
    torque = flats * sum(peak * x / half * x * length * half / steps for x in arm)
    assert torque == pytest.approx(25.0, rel=1e-4)  # midpoint rule, 2000 steps


def test_the_short_forms_of_hexagon_and_square() -> None:
    # 6T/(L s²) and 3T/(L s²): the general form with tan 30° and tan 45° put in.
    assert polygon_joint.corner_pressure(25.0, 6, 17e-3, 20e-3) == pytest.approx(
        6 * 25.0 / (20e-3 * 17e-3**2)
    )
    assert polygon_joint.corner_pressure(25.0, 4, 12e-3, 20e-3) == pytest.approx(
        3 * 25.0 / (20e-3 * 12e-3**2)
    )
