"""Creep, softening, growth, O-ring pressure and fits: what must hold for every case."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import creep, fits, oring_contact

factors = st.floats(0.05, 1.0)
times = st.floats(60.0, 3.6e7)


@given(factors, times, st.floats(1.0, 100.0))
def test_stress_only_falls_with_time(factor: float, seconds: float, later: float) -> None:
    later_time = min(3.6e7, seconds * later)
    for law in (creep.stress_left, creep.stress_left_in_press_fit):
        assert 0 < law(factor, later_time) <= law(factor, seconds) <= 1
    assert creep.stress_left_in_press_fit(factor, seconds) < creep.stress_left(factor, seconds)


def test_stress_left_starts_at_one_and_passes_its_own_factor() -> None:
    assert creep.stress_left(0.6, 0.0) == creep.stress_left(0.6, 10.0) == 1.0
    assert creep.stress_left(0.6, 3.6e6) == pytest.approx(0.6)


def test_rate_and_time_move_strength_opposite_ways() -> None:
    assert creep.strength_at_rate(45e6, 0.05, 1e-3) == pytest.approx(45e6)
    assert creep.strength_at_rate(45e6, 0.05, 1e-2) == pytest.approx(1.05 * 45e6)
    assert creep.strength_under_lasting_load(45e6, 0.08, 1.0) == pytest.approx(45e6)
    assert creep.strength_under_lasting_load(45e6, 0.08, 3600.0) == pytest.approx(0.92 * 45e6)


def test_harder_rubber_is_stiffer() -> None:
    assert oring_contact.rubber_modulus(90) > 2 * oring_contact.rubber_modulus(70)
    # Gent's curve at 50 Shore A: about 2.5 MPa (from memory).
    assert oring_contact.rubber_modulus(50) == pytest.approx(2.5e6, rel=0.05)


@given(st.floats(0.5e-3, 79e-3), st.integers(5, 10))
def test_a_coarser_grade_is_wider(diameter: float, grade: int) -> None:
    assert fits.tolerance(diameter, grade) < fits.tolerance(diameter, grade + 1)


@given(st.floats(0.5e-3, 79e-3))
def test_shafts_grow_from_f_to_p(diameter: float) -> None:
    shafts = [fits.shaft_limits(diameter, f"{letter}6").upper for letter in "fghkmnp"]
    assert shafts == sorted(shafts)
