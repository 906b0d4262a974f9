"""Viscosity and conductivity of cylinder gas, good enough for heat and burning correlations.

Air and burned gas differ by a few per cent; the fits hold 300 to 2500 K within about 5 %.
Only :mod:`math`-free arithmetic, no calls within: each can be compiled.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 4.8: viscosity
after Rose and Cooper's fit to air and its correction for burned gas, Prandtl number of burned
gas by its ratio of heats (constants from memory).
"""

from __future__ import annotations


def viscosity(temperature: float, phi_burned: float = 0.0) -> float:
    """Dynamic viscosity, Pa s: ``3.3e-7 T^0.7``, over ``1 + 0.027 phi`` for burned gas.

    Parameters
    ----------
    temperature
        K.
    phi_burned
        Equivalence ratio of the burned gas; 0 for air and fresh charge.

    Examples
    --------
    >>> round(1e5 * viscosity(2000.0), 2)
    6.75
    """
    return float(3.3e-7 * temperature**0.7 / (1.0 + 0.027 * phi_burned))


def conductivity(temperature: float, gamma: float, heat_capacity: float) -> float:
    """Thermal conductivity of air or burned gas, W/(m K): viscosity times cp over Prandtl number.

    Parameters
    ----------
    temperature
        K.
    gamma, heat_capacity
        Ratio of heats, and cp in J/(kg K).

    Examples
    --------
    >>> round(conductivity(2000.0, 1.298, 1251.0), 3)
    0.119
    """
    excess = gamma - 1.0
    prandtl_number = 0.05 + excess * (4.2 - 6.7 * excess)
    return float(3.3e-7 * temperature**0.7 * heat_capacity / prandtl_number)
