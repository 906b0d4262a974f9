"""What the exhaust port feels of the gas that leaves."""

from __future__ import annotations

import math

from firstfire.formulas import gas_transport
from firstfire.formulas.validity import require_positive, require_within
from firstfire.heat.gas_side import GasSide, steady_gas

BURNED_GAMMA, BURNED_HEAT = 1.30, 1250.0
"""Ratio of heats and specific heat of burned gas at some 1000 K, J/(kg K)."""


def exhaust_side(mass_flow: float, temperature: float, bore: float) -> GasSide:
    """Gas on the wall of an exhaust port, mean over the cycle.

    ``Nu = 0.07 Re^0.75`` with the mean flow: pulses make it about twice what a steady pipe has.
    Ports differ by half to twice.

    Parameters
    ----------
    mass_flow
        Mean over the cycle, kg/s.
    temperature
        Of the gas as it leaves, weighted with its flow, K, 500 to 1800.
    bore
        Of the port, m.

    Raises
    ------
    OutsideValidity
        If flow or bore is not above zero, or the temperature outside its range.

    References
    ----------
    C. Depcik, D. Assanis, SAE paper 2002-01-0372, 2002 (constants from memory).

    Examples
    --------
    >>> round(exhaust_side(1.8e-3, 1000.0, 14e-3).mean_coefficient)
    186
    """
    require_positive(mass_flow=mass_flow, bore=bore)
    require_within(
        500.0, 1800.0, because="it is no exhaust gas then", exhaust_temperature=temperature
    )
    viscosity = gas_transport.viscosity(temperature, 1.0)
    conductivity = gas_transport.conductivity(temperature, BURNED_GAMMA, BURNED_HEAT)
    reynolds = 4.0 * mass_flow / (math.pi * bore * viscosity)
    return steady_gas(0.07 * float(reynolds**0.75) * conductivity / bore, temperature)
