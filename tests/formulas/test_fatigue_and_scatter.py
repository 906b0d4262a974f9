"""Fatigue, scatter and belts: what must hold for every case."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.formulas import belt


@given(st.integers(12, 40), st.floats(1.0, 3.0), st.floats(1.05, 4.0))
def test_the_centre_distance_suits_its_belt(teeth: int, ratio: float, apart: float) -> None:
    small = belt.pulley_pitch_diameter(teeth, 3e-3)
    large = small * ratio
    centre = (small + large) / 2 * apart
    length = belt.belt_length(small, large, centre)
    assert belt.centre_distance_for(small, large, length) == pytest.approx(centre, rel=1e-9)


def test_equal_pulleys_wrap_by_half_a_turn() -> None:
    assert belt.wrap_on_small(20e-3, 20e-3, 60e-3) == pytest.approx(math.pi)
    assert belt.belt_length(20e-3, 20e-3, 60e-3) == pytest.approx(0.12 + math.pi * 20e-3)
