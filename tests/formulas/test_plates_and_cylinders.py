"""Plates and cylinders: equilibrium, limits, and the plate equation integrated by brute force."""

import math

import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas import (
    annular_plate,
    plate_collapse,
    thick_cylinder,
)


def test_the_edge_carries_the_whole_pressure_in_shear() -> None:
    stress = plate_collapse.edge_shear_stress(3e6, 22e-3, 6e-3)
    assert stress * 2 * math.pi * 22e-3 * 6e-3 == pytest.approx(3e6 * math.pi * 22e-3**2)


def test_ligaments() -> None:
    assert annular_plate.ligament_efficiency(20e-3, 10e-3) == pytest.approx(0.5)
    with pytest.raises(OutsideValidity, match="holes meet"):
        annular_plate.ligament_efficiency(10e-3, 12e-3)


def test_a_gap_leaves_the_liner_alone_and_an_interference_helps_it() -> None:
    case = {
        "bore": 44e-3,
        "interface": 50e-3,
        "outer_diameter": 80e-3,
        "liner_modulus": 69e9,
        "liner_poisson": 0.33,
        "body_modulus": 2e9,
        "body_poisson": 0.38,
    }
    assert thick_cylinder.pressure_passed_on(3e6, interference=-0.1e-3, **case) == 0
    touching = thick_cylinder.pressure_passed_on(3e6, **case)
    assert thick_cylinder.pressure_passed_on(3e6, interference=0.05e-3, **case) > touching


def test_the_bore_grows_as_a_press_fit_says() -> None:
    grown = thick_cylinder.growth_of_bore(3e6, 44e-3, 72e-3, 2e9, 0.38)
    ratio = (72**2 + 44**2) / (72**2 - 44**2)
    assert grown == pytest.approx(44e-3 * 3e6 / 2e9 * (ratio + 0.38))
