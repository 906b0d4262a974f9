"""Threads: what must hold for every size, not only for the tabled ones."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import thread

diameters = st.floats(1.6e-3, 12e-3)
pitch_shares = st.floats(0.08, 0.25)


@given(diameters, pitch_shares)
def test_the_diameters_stand_in_their_order(diameter: float, share: float) -> None:
    pitch = share * diameter
    sizes = [
        thread.minor_diameter(diameter, pitch),
        thread.nut_minor_diameter(diameter, pitch),
        thread.pitch_diameter(diameter, pitch),
        diameter,
    ]
    assert sizes == sorted(sizes)
    area = thread.stress_area(diameter, pitch)
    assert math.pi / 4 * sizes[0] ** 2 < area < math.pi / 4 * sizes[2] ** 2


@given(st.floats(1e-6, 150e-6), st.sampled_from(thread.PROPERTY_CLASSES))
def test_a_screw_holds_its_proof_load_before_it_breaks(area: float, name: str) -> None:
    assert thread.proof_load(area, name) < thread.breaking_load(area, name)


@given(diameters, st.floats(1.0, 4.0))
def test_engaging_twice_as_long_holds_twice_as_much(diameter: float, lengths: float) -> None:
    pitch = 0.15 * diameter
    half = lengths * diameter / 2 if lengths >= 2 else lengths * diameter
    for area in (thread.shear_area_on_pitch_cylinder, thread.shear_area_of_nut_thread):
        if 2 * half <= 4 * diameter:
            once = thread.pull_out_load(area(diameter, pitch, half), 18e6)
            twice = thread.pull_out_load(area(diameter, pitch, 2 * half), 18e6)
            assert twice == pytest.approx(2 * once)


def test_what_is_no_thread_is_refused_with_a_reason() -> None:
    with pytest.raises(OutsideValidity, match="no core left"):
        thread.stress_area(3e-3, 2.5e-3)
    with pytest.raises(OutsideValidity, match="no property class"):
        thread.proof_load(14e-6, "9")
    with pytest.raises(OutsideValidity, match="M16"):
        thread.proof_load(245e-6, "8.8")
    with pytest.raises(OutsideValidity, match="one to four diameters"):
        thread.shear_area_on_pitch_cylinder(5e-3, 0.8e-3, 30e-3)
    with pytest.raises(OutsideValidity, match="not negative"):
        thread.pull_out_load(-1e-6, 18e6)
