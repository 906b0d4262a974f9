"""Nozzle flow against the `fluids` library's critical flow and its relief-valve sizing.

Source: fluids 1.3.1, `P_critical_flow` and `API520_A_g` (API standard 520 part 1). Tolerance 0.1 %:
the relief-valve form rounds its constants and below choking uses a formula of its own.
"""

import pytest
from fluids import API520_A_g

from firstfire.formulas import nozzle_flow


@pytest.mark.parametrize("pressure_down", [0.40e5, 0.90e5])
def test_flux_of_a_relief_valve(pressure_down: float) -> None:
    area = API520_A_g(
        m=1.0, T=300.0, Z=1.0, MW=28.96, k=1.4, P1=1e5, P2=pressure_down, Kd=1.0, Kb=1.0, Kc=1.0
    )
    here = nozzle_flow.mass_flow(1.0, 1e5, 300.0, 8314.463 / 28.96, 1.4, pressure_down)
    assert here == pytest.approx(1.0 / area, rel=1e-3)
