"""Notches in brittle material, and plates between bolts and ring, against what others found.

Short names: Roark: Young, Budynas, *Roark's Formulas for Stress and Strain*, 7th ed.; Whitney:
Whitney, Nuismer, *J. Composite Materials* 8 (1974) 253; Timoshenko: Timoshenko, Gere, *Theory of
Elastic Stability*, 2nd ed.
"""

from __future__ import annotations

import math

import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas import flange, notch, pressed_ring


def test_a_hole_against_the_point_stress_criterion() -> None:
    # Whitney, d₀ = 0.04 in: a hole of radius 0.1 in leaves 2/(2 + ξ² + 3 ξ⁴) = 0.6079 of the
    # strength with ξ = 0.1/0.14 (form from memory, worked out by hand); a large one a third.
    inch = 25.4e-3
    assert 1 / notch.hole_pulled(0.1 * inch, 0.08 * inch) == pytest.approx(0.6079, rel=1e-3)
    assert notch.hole_pulled(1.0, 1e-9) == pytest.approx(3.0)
    assert notch.hole_pulled(1e-9, 1e-3) == pytest.approx(1.0)
    assert notch.hole_stretched(1.0, 1e-9) == pytest.approx(2.0)


def test_a_slit_breaks_as_fracture_mechanics_has_it() -> None:
    # K_Ic = σ √(π a) for a slit of length 2a with a vanishing root; K = 1 + 2 √(a/ρ).
    toughness, strength, half, root = 1.2e6, 68e6, 5e-3, 1e-9
    felt = notch.notch_felt(
        1 + 2 * math.sqrt(half / root), root, notch.material_length(toughness, strength)
    )
    assert strength / felt == pytest.approx(toughness / math.sqrt(math.pi * half), rel=0.01)


def test_a_blunt_notch_is_felt_in_full_and_a_fine_one_hardly() -> None:
    assert notch.notch_felt(2.0, 1.0, 1e-6) == pytest.approx(2.0, rel=1e-4)
    assert notch.notch_felt(2.0, 1e-6, 1.0) == 1.0


def test_which_sections_yield_first() -> None:
    # ISO 13586: 2.5 (K/σ)². Mild steel 140 MPa·√m and 250 MPa: 0.78 m. Acrylic 1.2 and 68: 0.78 mm.
    assert notch.yielding_thickness(140e6, 250e6) == pytest.approx(0.784, rel=1e-3)
    assert notch.yielding_thickness(1.2e6, 68e6) == pytest.approx(0.778e-3, rel=1e-3)


@pytest.mark.parametrize(
    ("share", "factor"), [(0.2, 0.24283), (0.4, 0.29704), (0.6, 0.26642), (0.8, 0.16643)]
)
def test_a_plate_loaded_along_a_ring_by_roarks_table(share: float, factor: float) -> None:
    # Roark, Table 11.2, case 9a, ν = 0.3: M_c = K w a, w the load for each metre of the ring (from
    # memory). Tolerance: its last figure.
    pull = 2 * math.pi * share * 1.0
    assert flange.middle_moment(pull, 1.0, share, 0.30) == pytest.approx(factor, abs=6e-6)


def test_a_foot_by_the_plates_own_equation() -> None:
    # (1/r (r φ)')' = w b/(D r), φ(b) = 0 at the wall, φ' + ν φ/a = 0 at the screws: φ = k r ln r/2
    # + A r + B/r, solved here apart.
    a, b, nu, k = 36.0, 30.0, 0.38, 5657.0 / (2 * math.pi)
    right = -k / 2 * (math.log(a) + 1 + nu * math.log(a))
    # A b + B/b = -k b ln b/2; (1 + ν) A - (1 - ν) B/a² = right
    det = b * -(1 - nu) / a**2 - (1 + nu) / b
    left = -k / 2 * b * math.log(b)
    slope, turn = (left * -(1 - nu) / a**2 - right / b) / det, (b * right - (1 + nu) * left) / det
    bends = k / 2 * (math.log(b) + 1) + slope - turn / b**2
    assert flange.foot_moment(5657.0, a * 1e-3, b * 1e-3, nu) == pytest.approx(-bends, rel=1e-9)


def test_rim_and_middle_are_of_one_plate() -> None:
    # Round the circle bending falls from the ring outwards, and to none where the ring is on it.
    for share in (0.3, 0.6, 0.9):
        rim = flange.rim_moment(1e3, 0.03, 0.03 * share, 0.35)
        assert 0 < rim < flange.middle_moment(1e3, 0.03, 0.03 * share, 0.35)


def test_a_ring_that_is_not_round_yields_before_it_folds() -> None:
    # Timoshenko, section 7.5: between both limits, and less the less round it is.
    folds = pressed_ring.folding_pressure(69e9, 0.33, 1e-3, 25e-3)
    assert folds == pytest.approx(69e9 / (4 * (1 - 0.33**2)) * 0.04**3)
    found = [
        pressed_ring.out_of_round_pressure(275e6, folds, 1e-3, 25e-3, w)
        for w in (0.0, 0.01e-3, 0.05e-3, 0.2e-3)
    ]
    assert found == sorted(found, reverse=True)
    assert found[0] == pytest.approx(min(folds, 275e6 / 25), rel=1e-9)


def test_what_is_outside_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="no ring"):
        pressed_ring.out_of_round_pressure(275e6, 1e6, 20e-3, 25e-3, 0.0)
    with pytest.raises(OutsideValidity, match="poisson"):
        pressed_ring.folding_pressure(69e9, 0.7, 1e-3, 25e-3)
    with pytest.raises(OutsideValidity):
        flange.middle_moment(1e3, 0.02, 0.03, 0.3)
    with pytest.raises(OutsideValidity, match="charts"):
        notch.corner_in_bending(4e-3, 8e-3)
