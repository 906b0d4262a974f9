"""Plates and cylinders: equilibrium, limits, and the plate equation integrated by brute force."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import (
    annular_plate,
    plate,
    plate_collapse,
    plate_deflection,
    thick_cylinder,
)

NU = 0.35


def brute_force(share: float, *, clamped: bool) -> tuple[float, float, float]:
    """Centre deflection, centre moment and edge moment of a plate with q = a = D = 1.

    Integrates ((1/r)(r w')')' = Q(r) on 20 000 steps; the load covers r < share.
    """
    r = np.linspace(1e-6, 1.0, 20_001)
    step = r[1] - r[0]

    def running(values: np.ndarray) -> np.ndarray:
        return np.concatenate([[0.0], np.cumsum((values[1:] + values[:-1]) / 2 * step)])

    shear = np.minimum(r, share) ** 2 / (2 * r)
    curvature_sum = running(shear)
    slope = running(curvature_sum * r) / r
    bend = np.gradient(slope, step)
    constant = -slope[-1] if clamped else -(bend[-1] + NU * slope[-1]) / (1 + NU)
    slope, bend = slope + constant * r, bend + constant
    deflection = -running(slope)[-1]
    return deflection, -(1 + NU) * constant, -(bend[-1] + NU * slope[-1])


@pytest.mark.parametrize("share", [0.3, 0.7, 1.0])
def test_clamped_plate_loaded_on_a_circle(share: float) -> None:
    # 0.2 %: the step of the brute force.
    deflection, centre, edge = brute_force(share, clamped=True)
    found = plate_deflection.clamped_bending_part(1.0, 1.0, 1.0, loaded_radius=share)
    assert found == pytest.approx(deflection, rel=2e-3)
    stress = plate.clamped_centre_stress(1.0, 1.0, 0.1, NU, loaded_radius=share)
    assert stress == pytest.approx(6 * centre / 0.01, rel=2e-3)
    stress = plate.clamped_edge_stress(1.0, 1.0, 0.1, loaded_radius=share)
    assert stress == pytest.approx(-6 * edge / 0.01, rel=2e-3)


@pytest.mark.parametrize("share", [0.3, 0.7, 1.0])
def test_supported_plate_loaded_on_a_circle(share: float) -> None:
    deflection, centre, edge = brute_force(share, clamped=False)
    assert edge == pytest.approx(0.0, abs=1e-9)
    found = plate_deflection.supported_bending_part(1.0, 1.0, 1.0, NU, loaded_radius=share)
    assert found == pytest.approx(deflection, rel=2e-3)
    stress = plate.supported_centre_stress(1.0, 1.0, 0.1, NU, loaded_radius=share)
    assert stress == pytest.approx(6 * centre / 0.01, rel=2e-3)


@given(st.floats(0.06, 1.0), st.floats(0.06, 1.0))
def test_more_loaded_area_never_relieves_a_plate(one: float, other: float) -> None:
    small, large = sorted((one, other))
    for law in (plate.clamped_centre_stress, plate.supported_centre_stress):
        less = law(1e6, 1.0, 0.1, NU, loaded_radius=small)
        assert less <= law(1e6, 1.0, 0.1, NU, loaded_radius=large) * (1 + 1e-12)


@given(st.floats(1e-3, 0.4), st.floats(1.01, 2.0))
def test_a_thicker_plate_is_never_weaker(thickness: float, times: float) -> None:
    thick = min(thickness * times, 0.5)
    assert plate.clamped_edge_stress(1e6, 1.0, thick) <= plate.clamped_edge_stress(
        1e6, 1.0, thickness
    )
    assert plate_collapse.clamped_collapse_pressure(
        1.0, thick, 40e6
    ) >= plate_collapse.clamped_collapse_pressure(1.0, thickness, 40e6)


@given(st.floats(0.01, 0.4))
def test_a_ductile_plate_collapses_after_it_first_yields(thickness: float) -> None:
    first = 40e6 / plate.supported_centre_stress(1.0, 1.0, thickness, NU)
    assert plate_collapse.supported_collapse_pressure(1.0, thickness, 40e6) > first
    first = 40e6 / plate.clamped_edge_stress(1.0, 1.0, thickness)
    assert plate_collapse.clamped_collapse_pressure(1.0, thickness, 40e6) > first


def test_the_edge_carries_the_whole_pressure_in_shear() -> None:
    stress = plate_collapse.edge_shear_stress(3e6, 22e-3, 6e-3)
    assert stress * 2 * math.pi * 22e-3 * 6e-3 == pytest.approx(3e6 * math.pi * 22e-3**2)


def test_a_gradient_held_flat_stresses_as_half_the_difference_held_fast() -> None:
    held = 2e9 * 70e-6 * 50 / (1 - 0.38)
    assert plate_collapse.clamped_gradient_stress(100, 2e9, 0.38, 70e-6) == pytest.approx(held)


@given(st.floats(0.01, 0.9))
def test_a_supported_edge_has_no_moment_and_a_clamp_stiffens(hole: float) -> None:
    found = annular_plate.supported_annular_plate(1.0, 1.0, hole, 1.0, 0.3)
    assert found.edge_moment == pytest.approx(0.0, abs=1e-9)
    assert found.deflection > 0
    clamped = annular_plate.clamped_annular_plate(1.0, 1.0, hole, 1.0, 0.3)
    assert clamped.edge_moment < 0
    assert clamped.deflection < found.deflection


def test_a_narrow_supported_ring_turns_as_a_ring() -> None:
    # Ring of width e: M per radius from line load q e at distance e/2: hoop moment total
    # q e²/2 · R, over its width e. Closed form of a twisted ring (Timoshenko); 3 % as e/R = 0.05.
    hole = 0.95
    width, radius = 1 - hole, (1 + hole) / 2
    found = annular_plate.supported_annular_plate(1.0, 1.0, hole, 1.0, 0.3)
    assert found.hole_moment == pytest.approx(width / 2 * radius, rel=0.03)


def test_ligaments() -> None:
    assert annular_plate.ligament_efficiency(20e-3, 10e-3) == pytest.approx(0.5)
    with pytest.raises(OutsideValidity, match="holes meet"):
        annular_plate.ligament_efficiency(10e-3, 12e-3)


@given(st.floats(0.1e6, 10e6), st.floats(1.02, 4.0), st.floats(0.0, 1.0))
def test_inside_minus_outside_hoop_is_the_pressure(p: float, ratio: float, place: float) -> None:
    bore, outer = 44e-3, 44e-3 * ratio
    inside = thick_cylinder.hoop_stress(p, bore, outer)
    outside = thick_cylinder.hoop_stress(p, bore, outer, at_diameter=outer)
    assert inside - outside == pytest.approx(p, rel=1e-6)
    assert thick_cylinder.radial_stress(p, bore, outer) == pytest.approx(-p, rel=1e-6)
    skin = thick_cylinder.radial_stress(p, bore, outer, at_diameter=outer)
    assert skin == pytest.approx(0.0, abs=1e-6 * p)
    somewhere = bore + place * (outer - bore)
    total = thick_cylinder.hoop_stress(p, bore, outer, at_diameter=somewhere)
    total += thick_cylinder.radial_stress(p, bore, outer, at_diameter=somewhere)
    assert total == pytest.approx(inside - p, rel=1e-6)


@given(st.floats(1.05, 3.0))
def test_the_bore_yields_at_its_yield_pressure(ratio: float) -> None:
    p = thick_cylinder.yield_pressure(1.0, ratio, 45e6)
    assert thick_cylinder.hoop_stress(p, 1.0, ratio) + p == pytest.approx(45e6)


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


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: plate.clamped_edge_stress(1e6, 10e-3, 6e-3), "a block"),
        (lambda: plate.clamped_edge_stress(1e6, 30e-3, 6e-3, loaded_radius=1e-3), "a point"),
        (lambda: plate_deflection.plate_stiffness(1e-3, 2e9, 0.7), "isotropic"),
        (lambda: plate_deflection.clamped_deflection(3e6, 22e-3, 2e-3, 2e9, 0.38), "membrane"),
        (lambda: plate_deflection.shear_part(1, 1, 0.1, 1, loaded_radius=2.0), "on the plate"),
        (lambda: plate_collapse.supported_collapse_pressure(1.0, 0.6, 1.0), "shears out"),
        (lambda: annular_plate.supported_annular_plate(1, 1, 0.99, 1, 0.3), "a ring"),
        (lambda: thick_cylinder.hoop_stress(1e6, 44e-3, 40e-3), "must be more than"),
        (lambda: thick_cylinder.hoop_stress(1e6, 44e-3, 50e-3, at_diameter=60e-3), "wall lies"),
    ],
)
def test_what_the_laws_do_not_hold_for_is_refused(call, words: str) -> None:
    with pytest.raises(OutsideValidity, match=words):
        call()
