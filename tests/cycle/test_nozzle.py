"""All openings at once against the nozzle law for one, of formulas/nozzle_flow."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.cycle.compile import kernel_entry
from firstfire.cycle.layout import Floats, Records
from firstfire.cycle.nozzle import flow_openings
from firstfire.cycle.work import LANE
from firstfire.formulas.nozzle_flow import mass_flow

BAND = 2e-5


@kernel_entry
def through(lanes: Records, count: int, band: float) -> None:
    flow_openings(lanes[0], count, band)


def flows(gamma: Floats, drop: Floats) -> Floats:
    """Through openings of 1 m² from 1 bar and R T = 1e5."""
    lanes = np.zeros(1, LANE)
    lane, count = lanes[0], len(gamma)
    lane["area"][:count], lane["high"][:count], lane["specific"][:count] = 1.0, 1e5, 1e5
    lane["low"][:count], lane["over_gamma"][:count] = 1e5 * (1 - drop), 1 / gamma
    through(lanes, count, BAND)
    flow: Floats = lane["flow"][:count].copy()
    return flow


@given(st.floats(1.05, 1.66), st.floats(-7.0, 0.0))
def test_every_flow_is_the_laws(gamma: float, magnitude: float) -> None:
    """The law has a series of third order below a drop of 1 %: off by 3.5e-8 at most."""
    drop = 10.0**magnitude
    expected = mass_flow(1.0, 1e5, 1e5, 1.0, gamma, 1e5 * (1 - drop), BAND)
    found = flows(np.full(5, gamma), np.full(5, drop))
    assert found == pytest.approx(expected, rel=3.5e-8)


def test_many_side_by_side() -> None:
    """As many as an engine has room for, of every kind: shut, laminar, ordinary and choked."""
    gamma = np.tile([1.15, 1.3, 1.4, 1.6], 12)
    drop = np.repeat([0.0, 1e-6, 1e-3, 0.02, 0.4, 0.9], 8)
    expected = [
        mass_flow(1.0, 1e5, 1e5, 1.0, g, 1e5 * (1 - d), BAND)
        for g, d in zip(gamma, drop, strict=True)
    ]
    assert flows(gamma, drop) == pytest.approx(expected, rel=2e-8, abs=1e-12)


def test_choked_flow_stays() -> None:
    found = flows(np.full(3, 1.3), np.array([0.6, 0.8, 1.0]))
    choked = np.sqrt(1.3) * (2 / 2.3) ** (2.3 / 0.6)  # Heywood, Eq. C.9
    assert found == pytest.approx(choked * np.sqrt(1e5), rel=2e-9)
