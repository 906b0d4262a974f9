"""Plates and thick cylinders against Timoshenko, Roark and Lamé.

Sources: S. Timoshenko, S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., Eq. 62 to
70; W. F. Chen (ed.), *The Civil Engineering Handbook*, 2nd ed., Eq. 47.72 to 47.76; W. C. Young,
R. G. Budynas, *Roark's Formulas for Stress and Strain*, 7th ed., Table 11.2; Lamé as in Shigley
9, Eq. 3-49 to 3-51. Values evaluated from these forms apart from this code; closed forms, so
the tolerance (0.1 %) is the rounding of four figures.
"""

import pytest

from firstfire.formulas import thick_cylinder

FOUR_FIGURES = 1e-3


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
