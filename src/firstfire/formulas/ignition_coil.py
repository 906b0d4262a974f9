"""What an ignition coil holds after current has flowed into it for a while.

References
----------
Rise of a coil's current ``I = U/R (1 - e^(-t R/L))`` and its energy ``L I²/2``: any text on
electric circuits.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive


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
