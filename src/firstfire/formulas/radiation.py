"""Heat that a warm face radiates to its surroundings."""

from __future__ import annotations

from firstfire.formulas.validity import require_not_negative, require_within

_STEFAN_BOLTZMANN = 5.670374419e-8  # W/(m² K⁴), CODATA 2018


def radiated_flux(
    surface_temperature: float, surroundings_temperature: float, emissivity: float
) -> float:
    """Net flux to large surroundings, W/m²: ε σ (T⁴ - T_s⁴).

    Parameters
    ----------
    surface_temperature, surroundings_temperature
        Temperatures, K.
    emissivity
        ε, 0 to 1: plastics and paint about 0.9, bare aluminium 0.05 to 0.2.

    Raises
    ------
    OutsideValidity
        If ε is outside 0 to 1 or a temperature negative.

    References
    ----------
    F. P. Incropera and others, *Fundamentals of Heat and Mass Transfer*, 6th ed., Eq. 1.7.

    Examples
    --------
    >>> round(radiated_flux(353.15, 293.15, 0.9))
    417
    """
    require_not_negative(
        surface_temperature=surface_temperature, surroundings_temperature=surroundings_temperature
    )
    require_within(
        0.0, 1.0, because="no face radiates more than a black one", emissivity=emissivity
    )
    power = surface_temperature**4 - surroundings_temperature**4
    return emissivity * _STEFAN_BOLTZMANN * power


def radiation_film(
    surface_temperature: float, surroundings_temperature: float, emissivity: float
) -> float:
    """Radiation as a film coefficient, W/(m² K): ε σ (T + T_s)(T² + T_s²).

    Parameters
    ----------
    surface_temperature, surroundings_temperature, emissivity
        As `radiated_flux`.

    Raises
    ------
    OutsideValidity
        As `radiated_flux`.

    References
    ----------
    *Incropera*, 6th ed., Eq. 1.9.

    Examples
    --------
    >>> round(radiation_film(353.15, 293.15, 0.9), 2)
    6.95
    """
    require_not_negative(
        surface_temperature=surface_temperature, surroundings_temperature=surroundings_temperature
    )
    require_within(
        0.0, 1.0, because="no face radiates more than a black one", emissivity=emissivity
    )
    both = surface_temperature + surroundings_temperature
    squares = surface_temperature**2 + surroundings_temperature**2
    return emissivity * _STEFAN_BOLTZMANN * both * squares
