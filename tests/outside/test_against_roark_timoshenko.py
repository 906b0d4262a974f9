"""Plates and thick cylinders against Timoshenko, Roark and Lamé.

Sources: S. Timoshenko, S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., Eq. 62 to
70; W. F. Chen (ed.), *The Civil Engineering Handbook*, 2nd ed., Eq. 47.72 to 47.76; W. C. Young,
R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed., Table 11.2; Lamé as in Shigley
9, Eq. 3-49 to 3-51. Values evaluated from these forms apart from this code; closed forms, so
the tolerance (0.1 %) is the rounding of four figures.
"""

import pytest

from firstfire.formulas import annular_plate, plate, plate_deflection, thick_cylinder

FOUR_FIGURES = 1e-3

# pressure, radius, thickness, modulus, poisson
PLASTIC = (3e6, 22e-3, 10e-3, 2.0e9, 0.38)
ALUMINIUM = (4e6, 25e-3, 6e-3, 69e9, 0.33)


@pytest.mark.parametrize(
    ("case", "bending", "edge", "centre"),
    [(PLASTIC, 0.05637e-3, 10.89e6, 7.514e6), (ALUMINIUM, 0.01752e-3, 52.08e6, 34.64e6)],
    ids=["plastic", "aluminium"],
)
def test_clamped_plate(case: tuple, bending: float, edge: float, centre: float) -> None:
    q, a, t, modulus, nu = case
    stiffness = plate_deflection.plate_stiffness(t, modulus, nu)
    assert plate_deflection.clamped_bending_part(q, a, stiffness) == pytest.approx(
        bending, rel=FOUR_FIGURES
    )
    assert plate.clamped_edge_stress(q, a, t) == pytest.approx(edge, rel=FOUR_FIGURES)
    assert plate.clamped_centre_stress(q, a, t, nu) == pytest.approx(centre, rel=FOUR_FIGURES)


@pytest.mark.parametrize(
    ("case", "bending", "centre"),
    [(PLASTIC, 0.2198e-3, 18.40e6), (ALUMINIUM, 0.0702e-3, 86.72e6)],
    ids=["plastic", "aluminium"],
)
def test_simply_supported_plate(case: tuple, bending: float, centre: float) -> None:
    q, a, t, modulus, nu = case
    stiffness = plate_deflection.plate_stiffness(t, modulus, nu)
    assert plate_deflection.supported_bending_part(q, a, stiffness, nu) == pytest.approx(
        bending, rel=FOUR_FIGURES
    )
    assert plate.supported_centre_stress(q, a, t, nu) == pytest.approx(centre, rel=FOUR_FIGURES)


def test_simple_support_bends_4_077_times_as_far() -> None:
    supported = plate_deflection.supported_bending_part(1e6, 0.1, 100.0, 0.30)
    clamped = plate_deflection.clamped_bending_part(1e6, 0.1, 100.0)
    assert supported / clamped == pytest.approx(4.077, rel=FOUR_FIGURES)


def test_shear_adds_more_than_bending_to_a_thick_plastic_plate() -> None:
    # Mindlin's term q a²/4κGt, κ = 5/6, from memory: 0.0601 mm.
    q, a, t, modulus, nu = PLASTIC
    shear = plate_deflection.shear_part(q, a, t, modulus / (2 + 2 * nu))
    assert shear == pytest.approx(0.0601e-3, rel=FOUR_FIGURES)
    whole = plate_deflection.clamped_deflection(q, a, t, modulus, nu)
    assert whole == pytest.approx(0.05637e-3 + 0.0601e-3, rel=FOUR_FIGURES)


@pytest.mark.parametrize(
    ("ratio", "deflection", "moment"), [(0.1, 0.0687, 0.3965), (0.5, 0.0624, 0.2404)]
)
def test_plate_with_a_central_hole(ratio: float, deflection: float, moment: float) -> None:
    # Roark Table 11.2 case 2a, printed to three or four figures: 0.5 %.
    found = annular_plate.supported_annular_plate(1.0, 1.0, ratio, 1.0, 0.30)
    assert found.deflection == pytest.approx(deflection, rel=5e-3)
    assert found.hole_moment == pytest.approx(moment, rel=5e-3)


def test_a_pinhole_doubles_the_centre_moment() -> None:
    # Twice (3 + ν)/16 = 0.4125 as b/a → 0; 0.1 % for b/a = 0.001.
    found = annular_plate.supported_annular_plate(1.0, 1.0, 0.001, 1.0, 0.30)
    assert found.hole_moment == pytest.approx(2 * 3.30 / 16, rel=1e-3)
    clamped = annular_plate.clamped_annular_plate(1.0, 1.0, 0.001, 1.0, 0.30)
    assert clamped.hole_moment == pytest.approx(2 * 1.30 / 16, rel=1e-3)
    assert clamped.edge_moment == pytest.approx(-1 / 8, rel=1e-3)


@pytest.mark.parametrize(
    ("outer", "inside_hoop", "outside_hoop"),
    [(50e-3, 23.60e6, 20.60e6), (72e-3, 6.576e6, 3.576e6)],
    ids=["44/50", "44/72"],
)
def test_thick_cylinder(outer: float, inside_hoop: float, outside_hoop: float) -> None:
    bore = thick_cylinder.hoop_stress(3e6, 44e-3, outer)
    skin = thick_cylinder.hoop_stress(3e6, 44e-3, outer, at_diameter=outer)
    assert bore == pytest.approx(inside_hoop, rel=FOUR_FIGURES)
    assert skin == pytest.approx(outside_hoop, rel=FOUR_FIGURES)
    assert bore - skin == pytest.approx(3e6)


@pytest.mark.parametrize(
    ("modulus", "poisson", "passed", "liner_hoop", "body_hoop"),
    [(69e9, 0.33, 0.2073e6, 21.76e6, 0.473e6), (3.0e9, 0.38, 1.794e6, 7.689e6, 4.095e6)],
    ids=["aluminium liner", "PVC liner"],
)
def test_liner_backed_by_a_printed_body(
    modulus: float, poisson: float, passed: float, liner_hoop: float, body_hoop: float
) -> None:
    # Compound cylinder from Lamé displacements; 0.2 %: three figures of the body's hoop.
    found = thick_cylinder.pressure_passed_on(
        3e6,
        bore=44e-3,
        interface=50e-3,
        outer_diameter=80e-3,
        liner_modulus=modulus,
        liner_poisson=poisson,
        body_modulus=2.0e9,
        body_poisson=0.38,
    )
    liner = thick_cylinder.hoop_stress(3e6, 44e-3, 50e-3, outside_pressure=found)
    body = thick_cylinder.hoop_stress(found, 50e-3, 80e-3)
    assert found == pytest.approx(passed, rel=2e-3)
    assert liner == pytest.approx(liner_hoop, rel=2e-3)
    assert body == pytest.approx(body_hoop, rel=2e-3)


def test_a_body_of_the_liners_own_stuff_makes_one_cylinder() -> None:
    same = {
        "bore": 44e-3,
        "interface": 50e-3,
        "outer_diameter": 80e-3,
        "liner_modulus": 2e9,
        "liner_poisson": 0.38,
        "body_modulus": 2e9,
        "body_poisson": 0.38,
    }
    passed = thick_cylinder.pressure_passed_on(3e6, **same)
    liner = thick_cylinder.hoop_stress(3e6, 44e-3, 50e-3, outside_pressure=passed)
    assert liner == pytest.approx(5.602e6, rel=FOUR_FIGURES)
    assert liner == pytest.approx(thick_cylinder.hoop_stress(3e6, 44e-3, 80e-3))
