"""Bolted joints, preload and gaskets: what must hold for every size."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import bolt, preload, tightening

stiffnesses = st.floats(1e6, 1e9)


@given(stiffnesses, st.floats(1.0, 1e4))
def test_over_soft_parts_the_bolt_feels_nearly_all(stiff: float, softer: float) -> None:
    share = bolt.load_share(stiff, stiff / softer)
    assert share == pytest.approx(softer / (1 + softer))
    if softer > 1e3:
        assert share > 0.999


def test_a_bolt_of_one_area_has_the_stiffness_of_a_bar() -> None:
    split = bolt.fastener_stiffness(14e-6, 20e-3, 14e-6, 30e-3, 206e9)
    assert split == pytest.approx(206e9 * 14e-6 / 50e-3)


def test_a_thin_cone_is_the_ring_under_the_washer() -> None:
    # As t → 0 the cone is a ring of its narrow end: E A/t; 1 % for t = D/500.
    thin = bolt.cone_stiffness(2e9, 5e-3, 10e-3, 0.02e-3)
    assert thin == pytest.approx(2e9 * math.pi / 4 * (10e-3**2 - 5e-3**2) / 0.02e-3, rel=1e-2)


@given(st.floats(10.0, 1e4), st.floats(2e-3, 12e-3), st.floats(0.06, 0.45))
def test_torque_and_preload_turn_round(fitted: float, diameter: float, factor: float) -> None:
    torque = tightening.torque_for_preload(fitted, diameter, factor)
    assert tightening.preload_from_torque(torque, diameter, factor) == pytest.approx(fitted)


def test_without_friction_the_torque_is_that_of_the_climb() -> None:
    torque = tightening.torque_by_friction(
        3000.0,
        mean_diameter=4.5e-3,
        pitch=0.8e-3,
        thread_friction=0.0,
        collar_diameter=6e-3,
        collar_friction=0.0,
    )
    assert torque * 2 * math.pi == pytest.approx(3000.0 * 0.8e-3)  # work of one turn


@given(st.floats(100.0, 1e4), st.floats(0.01, 1.0), stiffnesses, stiffnesses)
def test_creep_takes_between_nothing_and_all_of_the_plastics_loss(
    fitted: float, left: float, bolt_k: float, parts_k: float
) -> None:
    after = preload.preload_after_creep(fitted, left, bolt_k, parts_k)
    assert fitted * left * (1 - 1e-9) <= after <= fitted * (1 + 1e-9)


def test_creep_under_a_stiff_bolt_takes_it_all_and_under_a_spring_little() -> None:
    assert preload.preload_after_creep(3000, 0.6, 1e12, 15e6) == pytest.approx(1800, rel=1e-3)
    assert preload.preload_after_creep(3000, 0.6, 0.1e6, 15e6) > 2980
    assert preload.preload_after_creep(3000, 1.0, 60e6, 15e6) == pytest.approx(3000)


def test_settling_and_heat_act_through_both_springs() -> None:
    assert preload.preload_after_settling(3000, 0.0, 60e6, 15e6) == 3000
    assert preload.preload_after_settling(100, 50e-6, 60e6, 15e6) == 0
    same = preload.preload_change_by_heat(
        30e-3,
        parts_rise=40,
        bolt_rise=40,
        parts_expansion=12e-6,
        bolt_expansion=12e-6,
        bolt_stiffness=60e6,
        parts_stiffness=15e6,
    )
    assert same == pytest.approx(0.0)
