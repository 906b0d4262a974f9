"""Creep, softening, growth, O-ring pressure and fits: what must hold for every case."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import creep, expansion, fits, oring_contact, softening

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


@given(st.floats(-0.4, 0.99), st.floats(0.0, 0.2))
def test_a_hotter_plastic_is_never_stronger(share: float, hotter: float) -> None:
    warm = min(1.0, share + hotter)
    assert softening.glassy_strength(warm) <= softening.glassy_strength(share) <= 1.0
    if warm <= 0.65:
        assert softening.glassy_modulus(warm) <= softening.glassy_modulus(share) <= 1.0


def test_the_two_strength_slopes_meet() -> None:
    assert softening.glassy_strength(0.8 + 1e-9) == pytest.approx(softening.glassy_strength(0.8))
    assert softening.glassy_strength(1.0) == pytest.approx(0.1)


@given(st.floats(250.0, 400.0), st.floats(320.0, 420.0), st.floats(320.0, 420.0))
def test_a_like_temperature_has_a_like_share(warm: float, own: float, tabled: float) -> None:
    like = softening.temperature_alike(warm, own, tabled)
    assert softening.glass_share(like, tabled) == pytest.approx(
        softening.glass_share(warm, own), abs=1e-9
    )


def test_deflection_temperature_by_its_definition() -> None:
    # Total strain s/(E m) = s/E + 0.002.
    share = softening.modulus_at_deflection_temperature(0.45e6, 2.4e9)
    assert 0.45e6 / (2.4e9 * share) == pytest.approx(0.45e6 / 2.4e9 + 0.002)


@given(st.floats(1e-5, 1e-3), st.floats(0.0, 0.3))
def test_the_piston_seizes_at_its_seizing_rise(clearance: float, share: float) -> None:
    bore, piston = 44e-3, 44e-3 - clearance
    rates = {"bore_expansion": 23e-6, "piston_expansion": 90e-6}
    rise = expansion.seizing_rise(bore, piston, bore_share=share, **rates)
    left = expansion.clearance_when_warm(
        bore, piston, bore_rise=share * rise, piston_rise=rise, **rates
    )
    assert left == pytest.approx(0.0, abs=1e-12)


def test_swelling_takes_clearance_and_like_growth_keeps_it() -> None:
    case = {
        "bore_rise": 50.0,
        "piston_rise": 50.0,
        "bore_expansion": 2e-5,
        "piston_expansion": 2e-5,
    }
    assert expansion.clearance_when_warm(44e-3, 43.7e-3, **case) == pytest.approx(0.3e-3 * 1.001)
    swollen = expansion.clearance_when_warm(44e-3, 43.7e-3, piston_swelling=0.01, **case)
    assert swollen == pytest.approx(0.3e-3 * 1.001 - 0.437e-3)


def test_a_ring_that_grows_as_its_bore_keeps_its_gap() -> None:
    gap = expansion.ring_gap_when_warm(
        0.5e-3, 34e-3, bore_rise=50, ring_rise=50, bore_expansion=2e-5, ring_expansion=2e-5
    )
    assert gap == pytest.approx(0.5e-3)
    assert expansion.stress_held_fast(-50.0, 2e9, 70e-6) > 0  # cooling pulls


@given(st.floats(1e-3, 6e-3), st.floats(0.01, 0.34), st.floats(1e6, 2e7))
def test_the_strip_of_an_oring_carries_its_force(
    section: float, squeeze: float, modulus: float
) -> None:
    # Hertz: f = π/4 · peak · whole width.
    peak = oring_contact.peak_contact_pressure(squeeze, modulus)
    width = oring_contact.contact_width(section, squeeze)
    force = oring_contact.line_force(section, squeeze, modulus)
    assert math.pi / 4 * peak * width == pytest.approx(force)


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


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: creep.stress_left(1.2, 100.0), "does not stiffen"),
        (lambda: creep.stress_left(0.6, 1e9), "no creep test"),
        (lambda: creep.stress_left_in_press_fit(0.6, 1.0), "begin about there"),
        (lambda: creep.strength_at_rate(1.0, 0.5, 1.0), "gains so"),
        (lambda: softening.glass_share(300.0, 250.0), "must be more than"),
        (lambda: softening.glassy_modulus(0.8), "straight fall"),
        (lambda: softening.glassy_strength(1.1), "rubber"),
        (
            lambda: expansion.seizing_rise(
                44e-3, 43.9e-3, bore_expansion=23e-6, piston_expansion=12e-6, bore_share=1.0
            ),
            "outgrows",
        ),
        (lambda: oring_contact.rubber_modulus(95), "gauge tells little"),
        (lambda: oring_contact.contact_width(2e-3, 0.5), "fit to tests"),
        (lambda: fits.tolerance(15e-3, 3), "IT3"),
        (lambda: fits.tolerance(0.1, 7), "ranges tabled"),
        (lambda: fits.shaft_limits(15e-3, "k9"), "not tabled"),
        (lambda: fits.shaft_limits(15e-3, "7h"), "no tolerance code"),
        (lambda: fits.hole_limits(15e-3, "K7"), "not tabled"),
    ],
)
def test_what_the_laws_do_not_hold_for_is_refused(call, words: str) -> None:
    with pytest.raises(OutsideValidity, match=words):
        call()
