"""Shafts, beams, walls of layers, eyes and notches: what must hold for every size."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import (
    combined_stress,
    rod_eye,
    stiffness,
    stress_concentration,
)


@given(st.lists(st.floats(1.0, 1e6), min_size=1, max_size=5))
def test_compliances_in_series_add(springs: list[float]) -> None:
    whole = stiffness.in_series(*springs)
    assert 1 / whole == pytest.approx(sum(1 / k for k in springs))
    assert whole <= min(springs) * (1 + 1e-12)


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
