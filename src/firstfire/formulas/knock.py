"""Knock: how long the end gas waits before it lights by itself, and how the wait adds up.

References
----------
A. M. Douaud, P. Eyzat, SAE paper 780080, 1978, as in J. B. Heywood, *Internal Combustion Engine
Fundamentals*, McGraw-Hill 1988, Eq. 9.61 (number from memory); J. C. Livengood, P. C. Wu, *Fifth
Symposium (International) on Combustion*, 1955, 347-356.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from firstfire.formulas.validity import require_within

ATMOSPHERE = 101_325.0
"""One standard atmosphere, Pa."""


def douaud_eyzat(octane: float, pressure: float, temperature: float) -> float:
    """Ignition delay of the end gas, s.

    ``τ = 17.68 ms (ON/100)^3.402 p^-1.7 exp(3800 K/T)`` with p in atmospheres. Fitted to petrol
    of 80 to 100 octane near stoichiometric in a metal engine. (The same law is also printed with
    18.69 ms and another unit of pressure; that form is not used here.)

    Parameters
    ----------
    octane
        Octane number of the fuel.
    pressure, temperature
        Of the unburned gas, Pa and K.

    Examples
    --------
    >>> round(1e3 * douaud_eyzat(95.0, 30 * 101_325.0, 800.0), 3)
    5.29
    """
    octane_term: float = (0.01 * octane) ** 3.402
    pressure_term: float = (pressure / ATMOSPHERE) ** -1.7
    return 17.68e-3 * octane_term * pressure_term * math.exp(3800.0 / temperature)


def douaud_eyzat_range(octane: float) -> None:
    """Refuse a fuel outside the correlation.

    Raises
    ------
    OutsideValidity
        Outside 80 to 100 octane. Alcohols and propane, which lie above, knock later than the
        100 octane answer; it bounds them from the safe side.
    """
    require_within(80.0, 100.0, because="the ignition delay was fitted to petrols", octane=octane)


def livengood_wu(times: Sequence[float], delays: Sequence[float]) -> float:
    """Livengood and Wu's integral of dt/τ: knock is expected when it reaches 1.

    Parameters
    ----------
    times
        Increasing, s, shape (n,).
    delays
        Ignition delay at those times, s, shape (n,).

    Returns
    -------
    float
        Trapezium sum; its error falls with the square of the step.

    Examples
    --------
    >>> livengood_wu([0.0, 1e-3, 2e-3], [4e-3, 4e-3, 4e-3])
    0.5
    """
    total = 0.0
    for i in range(1, len(times)):
        total += 0.5 * (times[i] - times[i - 1]) * (1.0 / delays[i] + 1.0 / delays[i - 1])
    return total
