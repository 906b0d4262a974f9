"""A valve that suction opens and a light spring shuts: how long the spring takes."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive


def closing_time(mass: float, rate: float, preload: float, lift: float) -> float:
    """Time a spring takes to bring a free valve from full lift to its seat, s.

    t = √(m/k) arccos(F₀/(F₀ + k x)), from rest and without flow or friction. Flow towards the
    seat helps it at the end.

    Parameters
    ----------
    mass
        Moving mass m, kg.
    rate, preload
        Spring rate k, N/m, and force on the seat F₀, N.
    lift
        Lift x it starts from, m.

    Raises
    ------
    OutsideValidity
        If mass, rate or lift is not above zero, or the preload is negative.

    References
    ----------
    A mass on a spring: J. P. Den Hartog, *Mechanical Vibrations*, chapter 2.

    Examples
    --------
    6 g on 0.15 N/mm with 0.5 N, from 3.5 mm:

    >>> round(closing_time(6e-3, 150.0, 0.5, 3.5e-3) * 1e3, 2)
    6.71
    """
    require_positive(mass=mass, rate=rate, lift=lift)
    require_not_negative(preload=preload)
    return math.sqrt(mass / rate) * math.acos(preload / (preload + rate * lift))
