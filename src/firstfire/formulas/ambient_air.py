"""Still air at one atmosphere: what cooling correlations need of it."""

from __future__ import annotations

from bisect import bisect_right
from typing import NamedTuple

from firstfire.formulas.validity import require_within

# Temperature K, kinematic viscosity 1e-6 m²/s, conductivity 1e-3 W/(m K), Prandtl number.
# F. P. Incropera and others, 6th ed., Table A.4, from memory.
_TABLE = (
    (250.0, 11.44, 22.3, 0.720),
    (300.0, 15.89, 26.3, 0.707),
    (350.0, 20.92, 30.0, 0.700),
    (400.0, 26.41, 33.8, 0.690),
    (450.0, 32.39, 37.3, 0.686),
    (500.0, 38.79, 40.7, 0.684),
    (550.0, 45.57, 43.9, 0.683),
    (600.0, 52.69, 46.9, 0.685),
)
_ATMOSPHERE = 101_325.0


class Air(NamedTuple):
    """Properties of air.

    Attributes
    ----------
    kinematic_viscosity
        ν, m²/s.
    conductivity
        k, W/(m K).
    prandtl
        Prandtl number.
    """

    kinematic_viscosity: float
    conductivity: float
    prandtl: float


def dry_air(temperature: float, pressure: float = _ATMOSPHERE) -> Air:
    """Properties of dry air at the film temperature, straight between the table's points.

    Parameters
    ----------
    temperature
        Mean of wall and air, K, 250 to 600.
    pressure
        Pressure, Pa, 60 to 110 kPa; the kinematic viscosity goes with its inverse.

    Raises
    ------
    OutsideValidity
        If temperature or pressure is outside its range.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Table A.4
    (from memory).

    Examples
    --------
    >>> air = dry_air(367.0)
    >>> round(air.conductivity, 4), round(air.prandtl, 3)
    (0.0313, 0.697)
    """
    require_within(250.0, 600.0, because="the table ends there", temperature=temperature)
    require_within(60e3, 110e3, because="engines here run in open air", pressure=pressure)
    place = min(bisect_right(_TABLE, (temperature,)), len(_TABLE) - 1)
    cold, warm = _TABLE[place - 1], _TABLE[place]
    part = (temperature - cold[0]) / (warm[0] - cold[0])
    viscosity, conductivity, prandtl = (
        low + part * (high - low) for low, high in zip(cold[1:], warm[1:], strict=True)
    )
    return Air(viscosity * 1e-6 * _ATMOSPHERE / pressure, conductivity * 1e-3, prandtl)
