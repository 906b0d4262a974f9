"""Cooling by air that rises by itself: level tubes and upright faces."""

from __future__ import annotations

from firstfire.formulas.validity import require_positive, require_within

_GRAVITY = 9.80665


def rayleigh(
    length: float,
    surface_temperature: float,
    air_temperature: float,
    kinematic_viscosity: float,
    prandtl: float,
) -> float:
    """Rayleigh number of a surface in an ideal gas: g |ΔT| L³ Pr/(T_f ν²).

    Parameters
    ----------
    length
        Diameter of a level tube or height of an upright face L, m.
    surface_temperature, air_temperature
        Temperatures, K; T_f is their mean.
    kinematic_viscosity, prandtl
        ν, m²/s, and Pr of the air at T_f.

    Raises
    ------
    OutsideValidity
        If a quantity is not above zero.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Eq. 9.25,
    with ν/α = Pr and expansion 1/T_f.

    Examples
    --------
    >>> round(rayleigh(0.1, 438.0, 296.0, 22.8e-6, 0.697) / 1e6, 2)
    5.09
    """
    require_positive(
        length=length,
        surface_temperature=surface_temperature,
        air_temperature=air_temperature,
        kinematic_viscosity=kinematic_viscosity,
        prandtl=prandtl,
    )
    mean = (surface_temperature + air_temperature) / 2
    drive = _GRAVITY * abs(surface_temperature - air_temperature) / mean
    return drive * length**3 * prandtl / kinematic_viscosity**2


def level_tube_nusselt(rayleigh_number: float, prandtl: float) -> float:
    """Mean Nusselt number round a level tube.

    Nu = (0.60 + 0.387 Ra^(1/6)/[1 + (0.559/Pr)^(9/16)]^(8/27))²

    Parameters
    ----------
    rayleigh_number
        Ra on the diameter, 10⁻⁵ to 10¹².
    prandtl
        Prandtl number.

    Raises
    ------
    OutsideValidity
        If Ra is outside its range or Pr not above zero.

    References
    ----------
    S. W. Churchill, H. H. S. Chu, *Int. J. Heat Mass Transfer* 18 (1975) 1049; *Incropera*, 6th
    ed., Eq. 9.34.

    Examples
    --------
    >>> round(level_tube_nusselt(5.073e6, 0.697), 2)
    23.09
    """
    require_positive(prandtl=prandtl)
    require_within(1e-5, 1e12, because="the tests end there", rayleigh_number=rayleigh_number)
    blunt = (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)
    return float((0.60 + 0.387 * rayleigh_number ** (1 / 6) / blunt) ** 2)
