"""Cooling by a stream: across a tube, along a face; and the film coefficient of it."""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_positive, require_within


def reynolds(speed: float, length: float, kinematic_viscosity: float) -> float:
    """Reynolds number V L/ν.

    Parameters
    ----------
    speed, length
        Speed of the stream, m/s, and diameter or length along it, m.
    kinematic_viscosity
        ν, m²/s.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Eq. 6.41.

    Examples
    --------
    >>> round(reynolds(10.0, 12.7e-3, 20.92e-6))
    6071
    """
    require_positive(speed=speed, length=length, kinematic_viscosity=kinematic_viscosity)
    return speed * length / kinematic_viscosity


def across_tube_nusselt(reynolds_number: float, prandtl: float) -> float:
    """Mean Nusselt number of a tube across a stream.

    Nu = 0.3 + 0.62 Re^½ Pr^⅓ [1 + (0.4/Pr)^⅔]^(-¼) [1 + (Re/282 000)^(5/8)]^(4/5)

    Parameters
    ----------
    reynolds_number, prandtl
        Re on the diameter, up to 10⁷, and Pr; their product above 0.2.

    Raises
    ------
    OutsideValidity
        If Re or Re Pr is outside its range.

    References
    ----------
    S. W. Churchill, M. Bernstein, *J. Heat Transfer* 99 (1977) 300; *Incropera*, 6th ed.,
    Eq. 7.54.

    Examples
    --------
    >>> round(across_tube_nusselt(6071.0, 0.70), 2)
    40.64
    """
    require_positive(prandtl=prandtl, reynolds_number=reynolds_number)
    require_within(0.0, 1e7, because="the tests end there", reynolds_number=reynolds_number)
    require_within(
        0.2, math.inf, because="the tests end there", peclet_number=reynolds_number * prandtl
    )
    laminar = 0.62 * math.sqrt(reynolds_number) * math.cbrt(prandtl)
    laminar /= (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25
    return float(0.3 + laminar * (1 + (reynolds_number / 282_000) ** 0.625) ** 0.8)


def film_coefficient(nusselt: float, conductivity: float, length: float) -> float:
    """Film coefficient, W/(m² K): h = Nu k/L.

    Parameters
    ----------
    nusselt
        Nusselt number on that length.
    conductivity, length
        Conductivity of the fluid k, W/(m K), and length L, m.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    *Incropera*, 6th ed., Eq. 6.49.

    Examples
    --------
    >>> round(film_coefficient(40.6, 0.030, 12.7e-3))
    96
    """
    require_positive(nusselt=nusselt, conductivity=conductivity, length=length)
    return nusselt * conductivity / length
