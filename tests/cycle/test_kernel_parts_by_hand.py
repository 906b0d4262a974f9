"""Parts of the kernel as they are written, against the numbers they stand for."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.cycle.test_limit_cycle import engine

from firstfire.cycle import mechanism
from firstfire.cycle.build import build_engine
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.mixture import mixture_state, temperature_from_energy


@pytest.mark.parametrize("apart", [0.1, -0.1, 0.08, 0.03, 1e-4, 0.0, 0.5, -3.0, 1e4])
def test_sine_and_cosine_go_on_to_the_last_bit(apart):
    """From what is remembered of an angle up to a tenth of a radian away, or anew."""
    work = SimpleNamespace(turned=0.7, sine=math.sin(0.7), cosine=math.cos(0.7))
    sine, cosine = mechanism.turn_shaft.py_func(work, 0.7 + apart)
    assert sine == pytest.approx(math.sin(0.7 + apart), rel=0, abs=4e-16)
    assert cosine == pytest.approx(math.cos(0.7 + apart), rel=0, abs=4e-16)
    assert (work.turned == 0.7) is (abs(apart) <= 0.1)


def test_a_valve_of_18_mm_over_a_port_of_16_mm_round_a_stem_of_5_mm():
    """π/4 (16² - 5²) = 181.43 mm² at most; it lifts by 5 mm in the middle of its 245°."""
    valves = build_engine(engine())[0]["valves"]
    inlet, exhaust = valves[0], valves[1]
    assert 1e6 * inlet["throat_area"] == pytest.approx(181.43, abs=0.01)
    assert inlet["head_diameter"] == 0.018
    assert max(inlet["lift"]) == pytest.approx(5e-3, rel=1e-3)
    assert inlet["lift"][0] == inlet["lift"][-1] == 0.0
    assert math.degrees(inlet["duration"]) == pytest.approx(245.0)
    assert math.degrees(inlet["opens"]) == pytest.approx(720.0 - 375.0)
    assert math.degrees(exhaust["opens"]) == pytest.approx(130.0)


@pytest.mark.parametrize("guess", [250.0, 900.0, 2500.0])
@pytest.mark.parametrize("warm", [400.0, 1500.0])
def test_a_temperature_from_energy_is_found_again_from_its_energy(warm, guess):
    """Whatever it starts to look from: mass, energy and room have one temperature."""
    tables = gas_tables("petrol", 1.0)
    masses = (0.3e-3, 0.02e-3, 0.1e-3)
    pressure, mass = 12e5, sum(masses)
    enthalpy, _, _, gas, _, _ = mixture_state(tables, *masses, warm, pressure)
    volume = mass * gas * warm / pressure
    found = temperature_from_energy(tables, *masses, enthalpy - gas * warm, volume, guess)
    assert found == pytest.approx((warm, pressure), rel=1e-7)
    assert np.isfinite(found).all()
