"""What an ignition coil holds after current has flowed into it for a while.

References
----------
Rise of a coil's current ``I = U/R (1 - e^(-t R/L))`` and its energy ``L I²/2``: any text on
electric circuits.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive


def energy_at(full: float, voltage: float, rated: float) -> float:
    """Energy that a coil comes to at another voltage than it is rated for, J.

    ``E (U/U_0)²``: the current that a winding's resistance lets through goes with the voltage, and
    so does how fast it rises, ``U/L``; the time constant stays.

    Parameters
    ----------
    full
        At the rated voltage, J.
    voltage, rated
        V.

    Raises
    ------
    OutsideValidity
        Without energy or rated voltage, or at a negative one.

    Examples
    --------
    A coil of 30 mJ at 12 V, with 9 V left while it is cranked:

    >>> round(1e3 * energy_at(30e-3, 9.0, 12.0), 3)
    16.875
    """
    require_positive(full_energy=full, rated_voltage=rated)
    require_not_negative(voltage=voltage)
    return full * (voltage / rated) ** 2


def coil_energy(full: float, charging: float, time_constant: float) -> float:
    """Energy that a coil holds after current has flowed into it for a time, J.

    ``E = E_full (1 - e^(-t/τ))²``, the current rising as its winding and its iron let it.

    Parameters
    ----------
    full
        Of the coil once its current rises no more, J.
    charging
        How long current has flowed, s.
    time_constant
        Inductance over resistance, s.

    Raises
    ------
    OutsideValidity
        For a negative time, or no time constant.

    Examples
    --------
    After one time constant, four tenths:

    >>> round(1e3 * coil_energy(30e-3, 2e-3, 2e-3), 2)
    11.99
    """
    require_positive(full_energy=full, time_constant=time_constant)
    require_not_negative(charging_time=charging)
    return full * math.expm1(-charging / time_constant) ** 2
