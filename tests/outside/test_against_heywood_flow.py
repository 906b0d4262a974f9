"""Nozzle flow and valve passages against Heywood, Appendix C and section 6.3.

Source: J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. C.8, C.9
(isentropic flow) and 6.7 to 6.9 (valve passage), from memory; the numbers are exact evaluations
of the equations, so the tolerance is their printed digits.
"""

import math

import pytest

from firstfire.formulas import nozzle_flow, valve_flow

# gamma: critical pressure ratio, choked coefficient
CHOKED = {
    1.4: (0.528282, 0.684731),
    1.35: (0.536851, 0.676145),
    1.3: (0.545728, 0.667262),
    1.2: (0.564474, 0.648531),
}

# Downstream pressure in bar: kg/(s m²) from 1 bar and 300 K, R 287, gamma 1.4
FLUX = {0.40: 233.356, 0.5283: 233.356, 0.80: 191.073, 0.90: 144.015, 0.99: 47.937}


@pytest.mark.parametrize("gamma", CHOKED)
def test_critical_ratio_and_choked_coefficient(gamma: float) -> None:
    ratio, coefficient = CHOKED[gamma]
    assert nozzle_flow.critical_pressure_ratio(gamma) == pytest.approx(ratio, abs=1e-6)
    assert nozzle_flow.choked_coefficient(gamma) == pytest.approx(coefficient, abs=1e-6)
    assert nozzle_flow.flow_function(0.1, gamma) == pytest.approx(coefficient, abs=1e-6)
    assert nozzle_flow.flow_function(ratio, gamma) == pytest.approx(coefficient, abs=1e-6)


@pytest.mark.parametrize("pressure_down", FLUX)
def test_mass_flux_of_air(pressure_down: float) -> None:
    flux = nozzle_flow.mass_flow(1.0, 1e5, 300.0, 287.0, 1.4, 1e5 * pressure_down)
    assert flux == pytest.approx(FLUX[pressure_down], rel=1e-4)


def test_no_flow_at_equal_pressure() -> None:
    assert nozzle_flow.mass_flow(1.0, 1e5, 300.0, 287.0, 1.4, 1e5) == 0.0


def test_hot_leak_and_back_flow() -> None:
    leak = nozzle_flow.mass_flow(1.0, 10e5, 600.0, 287.0, 1.35, 1e5)
    assert leak == pytest.approx(1629.38, rel=1e-4)
    tenth = nozzle_flow.mass_flow(0.1e-6, 10e5, 600.0, 287.0, 1.35, 1e5)
    assert tenth == pytest.approx(0.163e-3, rel=5e-3)  # printed to three figures
    back = nozzle_flow.mass_flow(1.0, 1.2e5, 1000.0, 287.0, 1.3, 1e5)
    assert back == pytest.approx(116.336, rel=1e-4)


def test_valve_passage_in_its_three_stages() -> None:
    # 30 mm head, 1.5 mm seat at 45°, 6 mm stem; the equations evaluated by hand.
    def area(lift: float) -> float:
        return 1e6 * valve_flow.valve_area(1e-3 * lift, 30e-3, 1.5e-3, math.radians(45), 6e-3)

    assert area(1.0) == pytest.approx(math.pi * math.cos(math.pi / 4) * (27 + 0.5), rel=1e-9)
    assert area(4.0) == pytest.approx(math.pi * 28.5 * math.hypot(2.5, 1.5), rel=1e-9)
    assert area(20.0) == pytest.approx(math.pi / 4 * (27**2 - 6**2), rel=1e-9)
