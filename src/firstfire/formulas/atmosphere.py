"""Weather: humid air, and the standard corrections of power to a standard day.

References
----------
A. L. Buck, *J. Appl. Meteorology* 20, 1981, 1527-1532, with the 1996 constants; ISO 1585:1992 (the
same in UN Regulation 85); SAE J1349, June 1990.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_positive, require_within

GAS_CONSTANT_DRY_AIR = 287.055
"""Gas constant of dry air, J/(kg K)."""

GAS_CONSTANT_VAPOUR = 461.523
"""Gas constant of water vapour, J/(kg K)."""

CELSIUS_ZERO = 273.15


def saturation_pressure(temperature: float) -> float:
    """Saturation pressure of water over liquid, Pa, after Buck 1996; holds -20 to 50 °C.

    Examples
    --------
    >>> round(0.60 * saturation_pressure(303.15))
    2547
    """
    celsius = temperature - CELSIUS_ZERO
    return 611.21 * math.exp((18.678 - celsius / 234.5) * celsius / (257.14 + celsius))


def vapour_pressure(temperature: float, relative_humidity: float) -> float:
    """Partial pressure of water vapour, Pa; relative humidity from 0 to 1.

    Raises
    ------
    OutsideValidity
        Outside -40 to 60 °C, or for a humidity outside 0 to 1.
    """
    require_within(
        233.15, 333.15, because="the vapour formula is for weather", temperature=temperature
    )
    require_within(0.0, 1.0, because="it is a fraction", relative_humidity=relative_humidity)
    return relative_humidity * saturation_pressure(temperature)


def moist_air_density(pressure: float, temperature: float, relative_humidity: float) -> float:
    """Density of humid air, kg/m³, as a mixture of two perfect gases.

    Raises
    ------
    OutsideValidity
        As :func:`vapour_pressure`, or if the pressure is not positive.

    Examples
    --------
    >>> round(moist_air_density(101_325.0, 298.15, 0.0), 4)
    1.1839
    """
    require_positive(pressure=pressure)
    vapour = vapour_pressure(temperature, relative_humidity)
    dry = pressure - vapour
    return (dry / GAS_CONSTANT_DRY_AIR + vapour / GAS_CONSTANT_VAPOUR) / temperature


def humidity_ratio(pressure: float, temperature: float, relative_humidity: float) -> float:
    """Mass of water vapour over mass of dry air in humid air.

    Examples
    --------
    >>> round(humidity_ratio(95e3, 303.15, 0.60), 4)
    0.0171
    """
    vapour = vapour_pressure(temperature, relative_humidity)
    return GAS_CONSTANT_DRY_AIR / GAS_CONSTANT_VAPOUR * vapour / (pressure - vapour)
