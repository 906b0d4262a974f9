"""Nozzle flow and valve passages against Heywood, Appendix C and section 6.3.

Source: J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, Eq. C.8, C.9
(isentropic flow) and 6.7 to 6.9 (valve passage), from memory; the numbers are exact evaluations
of the equations, so the tolerance is their printed digits.
"""

import pytest

from firstfire.formulas import nozzle_flow

# Downstream pressure in bar: kg/(s m²) from 1 bar and 300 K, R 287, gamma 1.4
FLUX = {0.40: 233.356, 0.5283: 233.356, 0.80: 191.073, 0.90: 144.015, 0.99: 47.937}


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
