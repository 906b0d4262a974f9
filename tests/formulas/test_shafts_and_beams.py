"""Shafts, beams, walls of layers, eyes and notches: what must hold for every size."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import (
    beam,
    combined_stress,
    layered_section,
    rod_eye,
    shaft,
    stiffness,
    stress_concentration,
)

sizes = st.floats(1e-3, 50e-3)


@given(st.lists(st.floats(1.0, 1e6), min_size=1, max_size=5))
def test_compliances_in_series_add(springs: list[float]) -> None:
    whole = stiffness.in_series(*springs)
    assert 1 / whole == pytest.approx(sum(1 / k for k in springs))
    assert whole <= min(springs) * (1 + 1e-12)


def test_two_bodies_swing_as_one_spring_pendulum_if_one_is_huge() -> None:
    frequency = stiffness.two_body_frequency(1000.0, 1e-4, 1e6)
    assert frequency == pytest.approx(math.sqrt(1000.0 / 1e-4) / (2 * math.pi))


@given(sizes, st.floats(0.0, 0.95))
def test_polar_moment_is_twice_the_bending_one(diameter: float, hollow: float) -> None:
    bore = hollow * diameter
    polar = shaft.polar_second_moment(diameter, bore)
    assert polar == pytest.approx(2 * beam.round_second_moment(diameter, bore))
    bent = shaft.bending_stress(5.0, diameter, bore)
    assert bent == pytest.approx(beam.bending_stress(5.0, diameter / 2, polar / 2))
    assert shaft.torsion_stress(5.0, diameter, bore) == pytest.approx(bent / 2)


def test_torsion_of_a_square_and_of_a_strip() -> None:
    # Exact series: τ = T/(0.208 a³) for a square, T/(b c²/3) for a thin strip (Timoshenko); the
    # closed form is good to 4 %.
    assert shaft.rectangle_torsion_stress(1.0, 1.0, 1.0) == pytest.approx(1 / 0.208, rel=0.04)
    assert shaft.rectangle_torsion_stress(1.0, 1.0, 1e-3) == pytest.approx(3e6, rel=0.04)


@given(sizes, sizes)
def test_an_i_section_without_pockets_is_its_rectangle(width: float, depth: float) -> None:
    full = beam.i_section_second_moment(width, depth, width, depth / 4)
    assert full == pytest.approx(beam.rectangle_second_moment(width, depth))


def test_a_supported_bar_is_two_cantilevers() -> None:
    whole = beam.supported_deflection(100.0, 40e-3, 206e9, 1e-9)
    assert whole == pytest.approx(beam.cantilever_deflection(50.0, 20e-3, 206e9, 1e-9))


def test_ring_moments_balance() -> None:
    # At the load F R/π, at the sides F R (1/2 - 1/π): together the moment of F/2 at arm R.
    top = beam.ring_moment_under_load(1000.0, 10e-3)
    side = 1000.0 * 10e-3 * (0.5 - 1 / math.pi)
    assert top + side == pytest.approx(500.0 * 10e-3)


@given(st.lists(st.floats(0.1e-3, 5e-3), min_size=1, max_size=6), st.floats(0.1e9, 200e9))
def test_layers_of_one_stuff_are_a_solid_wall(layers: list[float], modulus: float) -> None:
    wall = layered_section.layered_section(layers, [modulus] * len(layers))
    whole = sum(layers)
    assert wall.neutral_depth == pytest.approx(whole / 2)
    assert wall.bending_stiffness == pytest.approx(modulus * whole**3 / 12, rel=1e-6)
    assert wall.pull_stiffness == pytest.approx(modulus * whole)


@given(st.lists(st.tuples(st.floats(0.5e-3, 3e-3), st.floats(0.5e9, 70e9)), min_size=2, max_size=4))
def test_the_stresses_of_a_layered_wall_carry_the_moment(wall: list[tuple[float, float]]) -> None:
    thicknesses, moduli = zip(*wall, strict=True)
    section = layered_section.layered_section(thicknesses, moduli)
    force = moment = depth = 0.0
    for thickness, modulus in wall:
        first = layered_section.stress_at_depth(section, 100.0, depth, modulus)
        last = layered_section.stress_at_depth(section, 100.0, depth + thickness, modulus)
        mean, swing = (first + last) / 2, last - first
        force += mean * thickness
        middle = depth + thickness / 2 - section.neutral_depth
        moment += mean * thickness * middle + swing * thickness**2 / 12
        depth += thickness
    assert moment == pytest.approx(100.0)
    assert force == pytest.approx(0.0, abs=1e-6 * 100.0 / depth)


def test_a_sandwich_is_nearly_as_stiff_as_a_solid_wall() -> None:
    sandwich = layered_section.layered_section([1e-3, 4e-3, 1e-3], [2e9, 0.2e9, 2e9])
    solid = layered_section.layered_section([6e-3], [2e9])
    assert 0.7 < sandwich.bending_stiffness / solid.bending_stiffness < 0.75


@given(st.floats(-1e8, 1e8), st.floats(-1e8, 1e8), st.floats(-1e8, 1e8))
def test_principal_stresses_keep_sum_and_von_mises(x: float, y: float, shear: float) -> None:
    high, low = combined_stress.principal_stresses(x, shear, y)
    assert high + low == pytest.approx(x + y, abs=1e-3)
    turned = combined_stress.von_mises(high, 0.0, low)
    assert turned == pytest.approx(combined_stress.von_mises(x, shear, y), rel=1e-6, abs=1.0)


def test_only_pulling_apart_splits_layers() -> None:
    assert combined_stress.layer_split_share(-50e6, 0.0, 28e6, 16e6) == 0.0
    assert combined_stress.layer_split_share(28e6, 0.0, 28e6, 16e6) == pytest.approx(1.0)
    assert combined_stress.layer_split_share(0.0, -16e6, 28e6, 16e6) == pytest.approx(1.0)


@given(st.floats(0.16, 0.74))
def test_an_eye_is_never_stressed_below_its_mean(ratio: float) -> None:
    assert rod_eye.peak_factor(ratio, 1.0) > 1.5
    assert rod_eye.net_stress(1.0, ratio, 1.0, 1.0) == pytest.approx(1 / (1 - ratio))


def test_tear_out_shears_two_faces() -> None:
    assert rod_eye.tear_out_stress(1000.0, 5e-3, 10e-3) * 2 * 5e-3 * 10e-3 == pytest.approx(1000.0)


def test_a_small_hole_triples_the_stress() -> None:
    assert stress_concentration.hole_in_strip(1e-6, 1.0) == pytest.approx(3.0, rel=2e-3)
    assert stress_concentration.hole_in_strip(0.999, 1.0) == pytest.approx(2.0, rel=2e-3)


@given(st.floats(1.1, 2.0), st.floats(0.01, 0.28))
def test_a_sharper_or_deeper_step_is_worse(step: float, sharp: float) -> None:
    here = stress_concentration.fillet_in_bending(1.0, step, sharp)
    assert here > stress_concentration.fillet_in_bending(1.0, step, sharp + 0.02)
    assert stress_concentration.fillet_in_torsion(1.0, step, sharp) < here


def test_fatigue_feels_between_nothing_and_all_of_a_notch() -> None:
    assert stress_concentration.fatigue_factor(1.8, 1e-3, 0.0) == pytest.approx(1.8)
    assert 1.0 < stress_concentration.fatigue_factor(1.8, 1e-3, 1e-3) < 1.8
    assert stress_concentration.fatigue_factor(1.8, 1e-3, 1e-3) == pytest.approx(1.4)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: shaft.polar_second_moment(10e-3, 12e-3), "must be more than"),
        (lambda: shaft.rectangle_torsion_stress(1.0, 5e-3, 10e-3), "long side"),
        (lambda: beam.i_section_second_moment(10e-3, 6e-3, 4e-3, 4e-3), "between flanges"),
        (lambda: layered_section.layered_section([1e-3], []), "one modulus"),
        (lambda: layered_section.layered_section([1e-3], [0.0]), "stiffness of all layers"),
        (lambda: rod_eye.peak_factor(0.9, 1.0), "tests end"),
        (lambda: stress_concentration.fillet_in_bending(1.0, 1.5, 0.0), "charts end"),
        (lambda: stress_concentration.fatigue_factor(0.5, 1e-3, 0.0), "does not relieve"),
        (lambda: stiffness.two_body_frequency(1.0, 0.0, 1.0), "first inertia"),
    ],
)
def test_what_the_laws_do_not_hold_for_is_refused(call, words: str) -> None:
    with pytest.raises(OutsideValidity, match=words):
        call()
