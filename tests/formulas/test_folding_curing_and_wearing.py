"""Folding walls, cure, compression set, suction valves and threads that tire: their laws."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import (
    bolt_fatigue,
    compression_set,
    cure,
)
from firstfire.formulas.hinge import hinge_moment

STRENGTHS = st.lists(st.floats(0.0, 100e6), min_size=1, max_size=8)


@given(STRENGTHS)
def test_a_hinge_is_the_integral_of_strength_about_equal_pull(strengths: list[float]) -> None:
    # Against a fine sum: the axis that halves the pull also makes the moment least.
    slices = 4000
    fine = np.repeat(np.array(strengths), slices // len(strengths))
    depth = (np.arange(len(fine)) + 0.5) / len(fine) * 5e-3
    step = 5e-3 / len(fine)
    moments = [float((fine * np.abs(depth - axis)).sum() * step) for axis in
               np.linspace(0.0, 5e-3, 201)]  # fmt: skip
    thick = [5e-3 / len(strengths)] * len(strengths)
    # The axis is tried every 25 µm: half of that beside the true one adds at most σ (12.5 µm)²,
    # and the sum itself errs by a slice squared.
    off = max(strengths) * ((12.5e-6) ** 2 + step**2)
    assert hinge_moment(thick, strengths) == pytest.approx(min(moments), rel=1e-6, abs=off)


@given(STRENGTHS, st.integers(0, 7), st.floats(1.0, 3.0))
def test_a_stronger_or_thicker_layer_never_weakens_the_wall(
    strengths: list[float], place: int, times: float
) -> None:
    place %= len(strengths)
    thick = [1e-3] * len(strengths)
    before = hinge_moment(thick, strengths)
    stronger = [s * times if i == place else s for i, s in enumerate(strengths)]
    thicker = [t * times if i == place else t for i, t in enumerate(thick)]
    assert hinge_moment(thick, stronger) >= before * (1 - 1e-12)
    assert hinge_moment(thicker, strengths) >= before * (1 - 1e-12)


def test_a_hinge_refuses_what_is_no_wall() -> None:
    for thick, strong in (([], []), ([1e-3], [1.0, 2.0]), ([0.0], [1.0]), ([1e-3], [-1.0])):
        with pytest.raises(OutsideValidity):
            hinge_moment(thick, strong)


def test_cure_grows_with_time_and_warmth() -> None:
    depths = [cure.depth_cured(2.5e-3, hours * 3600.0) for hours in (0.3, 1, 24, 96)]
    assert all(b > a for a, b in pairwise(depths))
    assert depths[2] == pytest.approx(2.5e-3)
    assert depths[3] == pytest.approx(5e-3)  # four days for twice the depth
    assert cure.depth_cured(2.5e-3, 3600.0, 306.15) == pytest.approx(math.sqrt(2) * depths[1])
    assert cure.share_cured(600.0, 86400.0, 300.0) == 0.0
    assert cure.share_cured(600.0, 86400.0, 90000.0) == 1.0
    with pytest.raises(OutsideValidity):
        cure.share_cured(600.0, 300.0, 100.0)


def test_a_thread_tires_faster_the_thicker_it_is() -> None:
    amplitudes = [bolt_fatigue.thread_amplitude(d * 1e-3) for d in (4, 5, 6, 8, 10)]
    assert all(b < a for a, b in pairwise(amplitudes))
    # VDI 2230-1, from memory: M8 0.85 (150/8 + 45) = 54.2 MPa; M10 51.0 MPa.
    assert amplitudes[3] == pytest.approx(54.2e6, rel=1e-3)
    assert amplitudes[4] == pytest.approx(51.0e6, rel=1e-3)
    assert bolt_fatigue.thread_amplitude(5e-3, 10.0) == bolt_fatigue.thread_amplitude(5e-3, 1e4)
    with pytest.raises(OutsideValidity):
        bolt_fatigue.thread_amplitude(1e-3)


def test_compression_set_at_its_own_test_is_the_tests() -> None:
    tested = (0.20, 373.15, 22 * 3600.0)
    assert compression_set.squeeze_lost(*tested, 373.15, 22 * 3600.0) == pytest.approx(0.20)
    # 20 K hotter ages four times as fast: twice the set by the root of time.
    assert compression_set.squeeze_lost(*tested, 393.15, 22 * 3600.0) == pytest.approx(0.40)
    assert compression_set.squeeze_lost(*tested, 573.15, 22 * 3600.0) == 1.0
    assert compression_set.squeeze_lost(*tested, 300.0, 0.0) == 0.0
