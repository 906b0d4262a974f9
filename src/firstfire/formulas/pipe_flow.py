"""A liquid in a hose: what its flow costs of pressure, and the bore that carries it.

References
----------
F. M. White, *Fluid Mechanics*, 7th ed., sections 6.4 and 6.6: Hagen and Poiseuille's law below a
Reynolds number of 2300, Blasius's friction factor of smooth pipes above it to 1e5 (from memory).
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative, require_positive, require_within

LAMINAR = 2300.0
_SMOOTH = 1e5
_NARROWEST, _WIDEST = 0.2e-3, 50e-3


def reynolds(flow: float, bore: float, viscosity: float) -> float:
    """Reynolds number: ``4 q/(π d ν)``.

    Parameters
    ----------
    flow, bore, viscosity
        m³/s, m, and kinematic, m²/s.

    Examples
    --------
    >>> round(reynolds(1e-6, 4e-3, 0.6e-6))
    531
    """
    require_not_negative(flow=flow)
    require_positive(bore=bore, viscosity=viscosity)
    return 4.0 * flow / (math.pi * bore * viscosity)


def pressure_loss(
    flow: float, bore: float, length: float, density: float, viscosity: float
) -> float:
    """Pressure that a flow costs in a smooth round pipe, Pa.

    Parameters
    ----------
    flow, bore, length
        m³/s, and m.
    density, viscosity
        kg/m³, and kinematic, m²/s.

    Raises
    ------
    OutsideValidity
        Above a Reynolds number of 1e5.

    Examples
    --------
    >>> round(pressure_loss(1e-6, 2e-3, 0.4, 745.0, 0.6e-6))
    455
    >>> round(pressure_loss(2e-5, 4e-3, 1.0, 745.0, 0.6e-6))
    7354
    """
    number = reynolds(flow, bore, viscosity)
    require_within(0.0, _SMOOTH, because="the friction factor holds to there", reynolds=number)
    if number <= 0.0:
        return 0.0
    factor = 64.0 / number if number < LAMINAR else 0.3164 / number**0.25
    speed = flow / (math.pi / 4.0 * bore**2)
    return factor * length / bore * 0.5 * density * speed**2


def bore_wanted(
    flow: float, pressure: float, length: float, density: float, viscosity: float
) -> float:
    """Narrowest bore through which a pressure drives a flow, m.

    Parameters
    ----------
    flow, pressure, length
        m³/s, Pa that there is for it, and m.
    density, viscosity
        kg/m³, and kinematic, m²/s.

    Raises
    ------
    OutsideValidity
        Where no pressure is left for it, or 50 mm are too narrow.

    Examples
    --------
    >>> round(1e3 * bore_wanted(1e-6, 455.3, 0.4, 745.0, 0.6e-6), 2)
    2.0
    """
    require_positive(flow=flow, pressure=pressure, length=length)

    def carries(bore: float) -> bool:
        number = reynolds(flow, bore, viscosity)
        if number > _SMOOTH:
            return False
        return pressure_loss(flow, bore, length, density, viscosity) <= pressure

    require_positive(carried_by_fifty_millimetres=float(carries(_WIDEST)))
    low, high = _NARROWEST, _WIDEST
    while high - low > 1e-9:
        middle = 0.5 * (low + high)
        low, high = (low, middle) if carries(middle) else (middle, high)
    return high


def pump_power(flow: float, pressure: float, share: float) -> float:
    """Power that a pump takes, W.

    Parameters
    ----------
    flow, pressure, share
        m³/s, Pa, and what of its power becomes flow, above 0 to 1.

    Examples
    --------
    >>> round(pump_power(1e-5, 3e5, 0.15), 6)
    20.0
    """
    require_not_negative(flow=flow, pressure=pressure)
    require_within(1e-3, 1.0, because="it is a share", share=share)
    return flow * pressure / share
